import { CUTS, counterText, piecesText } from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { COUNTER_STEP_KG, piecesFor, portionsIn } from '../../packages/core/src/order/index.js';
import { decimal } from '../support/anyCook.js';

const LB_KG = 0.45359237;
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const cuts = fc.constantFrom('centre', 'butt', 'whole') as fc.Arbitrary<
  'centre' | 'butt' | 'whole'
>;
const steps = fc.constantFrom(COUNTER_STEP_KG.metric, COUNTER_STEP_KG.us);

describe('weights to ask for', () => {
  test('up to the next 50 g, or quarter of a pound', () => {
    expect(piecesFor(1.81, [0.4, 2], COUNTER_STEP_KG.metric)).toEqual([expect.closeTo(1.85, 9)]);
    expect(piecesFor(1.81, [0.4, 2], COUNTER_STEP_KG.us)).toEqual([expect.closeTo(4 * LB_KG, 9)]);
    expect(piecesFor(1.85, [0.4, 2], COUNTER_STEP_KG.metric)).toEqual([expect.closeTo(1.85, 9)]);
  });

  test('three portions of 227 g are a pound and a half, not a quarter more', () => {
    expect(piecesFor(3 * 0.227, [0.4, 2], COUNTER_STEP_KG.us)).toEqual([
      expect.closeTo(1.5 * LB_KG, 9),
    ]);
  });

  test('several about equal pieces where one cannot be that heavy', () => {
    expect(piecesFor(2.75, [0.4, 2], 0.05).map((kg) => kg.toFixed(2))).toEqual(['1.40', '1.35']);
  });

  test('the least that is usual where less would do', () => {
    expect(piecesFor(0.3, CUTS.whole.usualKg, 0.05)).toEqual([expect.closeTo(1.2, 9)]);
  });

  test('law: enough to half a per cent, in steps, in usual pieces, no more than a step or the least beyond', () => {
    fc.assert(
      fc.property(cuts, decimal(0.02, 60), steps, (cut, needKg, stepKg) => {
        const [low, high] = CUTS[cut].usualKg;
        const pieces = piecesFor(needKg, [low, high], stepKg);
        expect(sum(pieces)).toBeGreaterThanOrEqual(needKg * 0.995 - 1e-9);
        expect(sum(pieces)).toBeLessThan(
          Math.max(needKg + stepKg, pieces.length * (low + stepKg)) + 1e-9,
        );
        for (const piece of pieces) {
          expect(Math.abs(piece / stepKg - Math.round(piece / stepKg))).toBeLessThan(1e-6);
          expect(piece).toBeGreaterThanOrEqual(low - 1e-9);
          expect(piece).toBeLessThanOrEqual(high + 1e-9);
          expect(pieces[0] - piece).toBeLessThan(stepKg + 1e-9);
        }
        expect([...pieces].sort((a, b) => b - a)).toEqual(pieces);
      }),
    );
  });

  test('law: a greater need never gives less', () => {
    fc.assert(
      fc.property(cuts, decimal(0.02, 60), decimal(0, 2), steps, (cut, needKg, moreKg, stepKg) => {
        const { usualKg } = CUTS[cut];
        expect(sum(piecesFor(needKg + moreKg, usualKg, stepKg))).toBeGreaterThanOrEqual(
          sum(piecesFor(needKg, usualKg, stepKg)) - 1e-9,
        );
      }),
    );
  });
});

// Common practice, no source: a butt end of 2 to 2.5 lb gives 4 to 5 portions of 8 oz.
test.each([
  [2, 4],
  [2.25, 4],
  [2.5, 5],
])('%f lb hold %i portions of 227 g', (massLb, portions) => {
  expect(portionsIn(massLb * LB_KG, 0.227)).toBe(portions);
});

describe('in words', () => {
  test.each([
    [0.25, '¼ lb'],
    [1, '1 lb'],
    [4.75, '4¾ lb'],
    [4.8, '4 lb 13 oz'],
  ])('%f lb is %s', (massLb, text) => {
    expect(counterText(massLb * LB_KG, 'us')).toBe(text);
  });

  test('pieces: one, several equal ones, different ones, many', () => {
    expect(piecesText([1.85], 'metric')).toBe('1.85 kg');
    expect(piecesText([0.9, 0.9], 'metric')).toBe('2 × 900 g');
    expect(piecesText([1, 0.95], 'metric')).toBe('1.00 kg + 950 g');
    expect(piecesText([2.6, 2.5, 2.4], 'metric')).toBe('3, in all 7.50 kg');
  });
});
