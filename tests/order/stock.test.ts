import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CUT_SHARE, cutFromStock, fromStock } from '../../packages/core/src/order/index.js';

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const grams5 = fc.integer({ min: 100, max: 700 }).map((units) => units * 0.005); // 0.5 to 3.5 kg
const stocks = fc.array(grams5, { minLength: 1, maxLength: 8 });
const needs = fc.integer({ min: 100, max: 3000 }).map((units) => units * 0.005);

/** All subsets, the plain way. */
function lightest(stockKg: readonly number[], needKg: number): number | undefined {
  let best: number | undefined;
  for (let mask = 1; mask < 2 ** stockKg.length; mask++) {
    const total = sum(stockKg.filter((_, i) => mask & (1 << i)));
    if (total >= needKg * 0.995 - 1e-6 && (best === undefined || total < best)) best = total;
  }
  return best;
}

describe('whole tenderloins from a stock', () => {
  test('one that is just enough, rather than a heavier one or two', () => {
    expect(fromStock([3, 2.4, 1.2, 1.3], 2.4)).toEqual([1]);
  });

  test('two that fit rather than one that is too much', () => {
    expect(fromStock([3.1, 1.2, 1.3], 2.5)).toEqual([2, 1]);
  });

  test('of equal weights the fewest pieces', () => {
    expect(fromStock([1.2, 1.2, 2.4], 2.4)).toEqual([2]);
  });

  test('nothing when all of it is too little', () => {
    expect(fromStock([1, 1], 2.5)).toBeUndefined();
  });

  test('law: never heavier than the best of all subsets, and no piece twice', () => {
    fc.assert(
      fc.property(stocks, needs, (stockKg, needKg) => {
        const chosen = fromStock(stockKg, needKg);
        const best = lightest(stockKg, needKg);
        if (best === undefined) {
          expect(chosen).toBeUndefined();
          return;
        }
        expect(new Set(chosen).size).toBe(chosen?.length);
        expect(sum((chosen ?? []).map((i) => stockKg[i]))).toBeCloseTo(best, 6);
      }),
    );
  });

  test('a full counter and a feast take no time', () => {
    const stockKg = Array.from({ length: 200 }, (_, i) => 1.2 + 0.005 * ((37 * i) % 400));
    const startMs = performance.now();
    expect(fromStock(stockKg, 110)).toBeDefined();
    expect(performance.now() - startMs).toBeLessThan(3000);
  });
});

describe('cuts from a stock', () => {
  test('about equal, at most half of each tenderloin', () => {
    expect(cutFromStock([2.4, 2.6], 1.85, [0.4, 2], 0.05)?.map((kg) => kg.toFixed(2))).toEqual([
      '0.95',
      '0.90',
    ]);
  });

  test('what the small one cannot give the large one does', () => {
    expect(cutFromStock([1, 3], 1.9, [0.4, 2], 0.05)?.map((kg) => kg.toFixed(2))).toEqual([
      '1.40',
      '0.50',
    ]);
  });

  test('law: enough, within half of each, at least the least', () => {
    fc.assert(
      fc.property(stocks, needs, (stockKg, needKg) => {
        const usual = [0.4, 1.6] as const;
        const pieces = cutFromStock(stockKg, needKg, usual, 0.05);
        const most = stockKg.map((kg) => Math.min(CUT_SHARE * kg, usual[1]));
        if (pieces === undefined) {
          const all = sum(
            most.map((kg) => Math.floor(kg / 0.05 + 1e-6) * 0.05).filter((kg) => kg > 0.399),
          );
          expect(all).toBeLessThan(needKg);
          return;
        }
        expect(sum(pieces)).toBeGreaterThanOrEqual(needKg * 0.995 - 1e-9);
        const largest = [...most].sort((a, b) => b - a);
        for (const [i, piece] of pieces.entries()) {
          expect(piece).toBeLessThanOrEqual(largest[i] + 1e-9);
          expect(piece).toBeGreaterThanOrEqual(usual[0] - 1e-9);
        }
      }),
    );
  });
});
