import { expect, test } from 'vitest';
import { normalDeviate, normalShare } from '../../packages/core/src/numerics/index.js';

// Another program: scipy 1.17.1, scipy.stats.norm.ppf and .cdf, to the last printed digit.
test.each([
  [1e-300, -37.0470962993612],
  [1e-20, -9.262340089798409],
  [1e-9, -5.9978070150076865],
  [1e-4, -3.7190164854556804],
  [0.02, -2.053748910631823],
  [0.074, -1.4466320671589785], // just outside the middle piece
  [0.1, -1.2815515655446004],
  [0.3, -0.5244005127080409],
  [0.4999, -0.0002506628300880075],
  [0.5, 0],
  [0.6, 0.2533471031357997],
  [0.975, 1.959963984540054],
  [0.999999, 4.753424308817087],
])('deviate of a share of %s', (p, expected) => {
  expect(Math.abs(normalDeviate(p) - expected)).toBeLessThan(1e-13 * (1 + Math.abs(expected)));
});

test.each([
  [-8, 6.22096057427174e-16],
  [-5, 2.866515718791933e-7],
  [-2.5, 0.006209665325776132],
  [-1, 0.15865525393145707],
  [0, 0.5],
  [0.5, 0.6914624612740131],
  [1.96, 0.9750021048517795],
  [6, 0.9999999990134123],
])('share below %s', (z, expected) => {
  expect(Math.abs(normalShare(z) - expected)).toBeLessThan(2e-15);
});

test('one undoes the other, and the ends are infinite', () => {
  for (let z = -5; z <= 5; z += 0.25) expect(normalDeviate(normalShare(z))).toBeCloseTo(z, 8);
  expect(normalDeviate(0)).toBe(Number.NEGATIVE_INFINITY);
  expect(normalDeviate(1)).toBe(Number.POSITIVE_INFINITY);
  expect(normalShare(Number.NaN)).toBeNaN();
  expect(normalShare(-40)).toBe(0);
  expect(normalShare(40)).toBe(1);
});
