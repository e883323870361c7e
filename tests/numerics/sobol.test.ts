import { describe, expect, test } from 'vitest';
import {
  quantileOf,
  SOBOL_DIMENSIONS,
  SobolPoints,
} from '../../packages/core/src/numerics/index.js';

const pointsOf = (dimensions: number, count: number, seed?: number): Float64Array[] => {
  const points = new SobolPoints(dimensions, seed);
  return Array.from({ length: count }, (_, i) => points.at(i, new Float64Array(dimensions)));
};

describe('unscrambled', () => {
  // Another program: scipy 1.17.1, qmc.Sobol(24, scramble=False), which visits the points in the order of Gray's code.
  test.each([
    [1, [0.5, 0.5, 0.5, 0.5, 0.5, 0.5]],
    [2, [0.75, 0.25, 0.75, 0.25, 0.25, 0.25]],
    [3, [0.25, 0.75, 0.25, 0.75, 0.75, 0.75]],
    [5, [0.875, 0.875, 0.625, 0.875, 0.625, 0.375]],
    [21, [0.96875, 0.59375, 0.34375, 0.28125, 0.65625, 0.96875]],
    [63, [0.015625, 0.796875, 0.140625, 0.546875, 0.234375, 0.546875]],
  ])('point %i of the published sequence', (step, expected) => {
    const point = new SobolPoints(24).at(step ^ (step >> 1), new Float64Array(24));
    const seen = [0, 1, 5, 12, 19, 23].map((d) => point[d]);
    for (const [i, x] of expected.entries()) expect(Math.abs(seen[i] - x)).toBeLessThan(1e-9);
  });
});

describe('scrambled', () => {
  test('exactly one of the first 2^k points in each of 2^k intervals of every coordinate', () => {
    for (const seed of [1, 77]) {
      const points = pointsOf(SOBOL_DIMENSIONS, 256, seed);
      for (let d = 0; d < SOBOL_DIMENSIONS; d++) {
        expect(new Set(points.map((point) => Math.floor(256 * point[d]))).size).toBe(256);
      }
    }
  });

  test('the first two coordinates together are a net: one of 256 points in every box of any proportions', () => {
    const points = pointsOf(2, 256, 9);
    for (let wide = 0; wide <= 8; wide++) {
      const boxes = new Set(
        points.map(([x, y]) => `${Math.floor(x * 2 ** wide)},${Math.floor(y * 2 ** (8 - wide))}`),
      );
      expect(boxes.size).toBe(256);
    }
  });

  test('a smooth integral over 17 coordinates converges faster than random numbers could', () => {
    // closed form: each factor integrates to 1; standard deviation of the product 0.745, so random points miss by 0.0233
    const product = (point: Float64Array): number =>
      point.reduce((all, x, d) => all * (1 + (12 * x - 6) / (3 * (d + 3))), 1);
    const misses = [1, 2, 3, 4, 5, 6, 7, 8].map((seed) => {
      const points = pointsOf(17, 1024, seed);
      return points.reduce((sum, point) => sum + product(point), 0) / 1024 - 1;
    });
    const rms = Math.sqrt(misses.reduce((sum, miss) => sum + miss * miss, 0) / misses.length);
    expect(rms).toBeLessThan(0.01);
  });

  test('a point depends on seed and index alone', () => {
    const one = new SobolPoints(5, 3);
    const backwards = [9, 4, 0].map((i) => [...one.at(i, new Float64Array(5))]);
    const all = pointsOf(5, 10, 3).map((point) => [...point]);
    expect(backwards).toEqual([all[9], all[4], all[0]]);
    expect(pointsOf(5, 10, 4).map((point) => [...point])).not.toEqual(all);
    expect(pointsOf(5, 10, 3 + 2 ** 32).map((point) => [...point])).not.toEqual(all);
  });

  test('refuses what it cannot do', () => {
    expect(() => new SobolPoints(0, 1)).toThrow(/1 to 24/);
    expect(() => new SobolPoints(25, 1)).toThrow(/1 to 24/);
    expect(() => new SobolPoints(3, 0.5)).toThrow(/whole number/);
  });
});

test('quantiles lie on straight lines between the sorted values', () => {
  // Closed form.
  expect(quantileOf([1, 2, 4], 0)).toBe(1);
  expect(quantileOf([1, 2, 4], 0.25)).toBe(1.5);
  expect(quantileOf([1, 2, 4], 0.75)).toBe(3);
  expect(quantileOf([1, 2, 4], 1)).toBe(4);
  expect(quantileOf([1, 2, Number.POSITIVE_INFINITY], 0.5)).toBe(2);
  const never = [1, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  expect(quantileOf(never, 0.75)).toBe(Number.POSITIVE_INFINITY);
});
