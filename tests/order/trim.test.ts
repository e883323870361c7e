import { readFileSync } from 'node:fs';
import { RoastError, TRIM_PARTS, TRIM_SHARES, trim, trimRule } from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decimal } from '../support/anyCook.js';

const { trim_loss } = JSON.parse(
  readFileSync(new URL('../../data/published/yields.json', import.meta.url), 'utf8'),
);

describe('what comes off', () => {
  test('comes to a third, as is published, and the published figures lie in its range', () => {
    const { total } = trimRule();
    expect(total.share).toBeCloseTo(0.33, 9);
    for (const { loss_from } of trim_loss.rows) {
      expect(loss_from).toBeGreaterThan(total.low);
      expect(loss_from).toBeLessThan(total.high);
      expect(total.share).toBeGreaterThanOrEqual(loss_from - 1e-9); // both say "or more"
    }
  });

  test('each part has its usual range round it', () => {
    for (const part of TRIM_PARTS) {
      const { low, share, high } = TRIM_SHARES[part];
      expect(low).toBeLessThan(share);
      expect(high).toBeGreaterThan(share);
    }
  });

  test('law: parts and what stays add up to the whole', () => {
    fc.assert(
      fc.property(decimal(0.5, 6), decimal(0, 0.2), decimal(0, 0.3), (massKg, chain, fat) => {
        const { comesOff, trimmedKg, lowKg, highKg } = trim(massKg, trimRule({ chain, fat }));
        const offKg = comesOff.reduce((sum, part) => sum + part.massKg, 0);
        expect(offKg + trimmedKg).toBeCloseTo(massKg, 9);
        expect(lowKg).toBeLessThanOrEqual(trimmedKg);
        expect(highKg).toBeGreaterThanOrEqual(trimmedKg);
      }),
    );
  });

  test("a shop's own share replaces the usual one and moves its range", () => {
    const { parts, total } = trimRule({ fat: 0.08 });
    expect(parts.fat).toEqual({ share: 0.08, low: 0.05, high: 0.1 });
    expect(parts.chain).toEqual(TRIM_SHARES.chain);
    expect(total.share).toBeCloseTo(0.25, 9);
  });

  test.each([
    ['below nothing', { fat: -0.1 }],
    ['nearly all', { fat: 0.7 }],
    ['too much in all', { fat: 0.5, chain: 0.2 }],
    ['no number', { fat: Number.NaN }],
  ])('%s is refused', (_what, own) => {
    expect(() => trimRule(own)).toThrow(RoastError);
  });
});
