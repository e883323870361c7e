import { describe, expect, test } from 'vitest';
import { bracketedRoot } from '../../packages/core/src/numerics/index.js';

// Closed form: functions whose root is known.
const rootOf = (f: (x: number) => number, a: number, b: number, tolerance = 1e-12, calls = 60) =>
  bracketedRoot(f, a, f(a), b, f(b), tolerance, calls);

describe('bracketed root', () => {
  test.each<[string, (x: number) => number, number, number, number]>([
    ['a straight line', (x) => 3 * x - 2, 0, 1, 2 / 3],
    ['a square', (x) => x * x - 2, 0, 2, Math.SQRT2],
    ['a falling exponential', (x) => Math.exp(-x) - 0.1, 0, 20, Math.log(10)],
    ['a function flat at one end', (x) => x ** 9 - 1e-3, 0, 1.5, 1e-3 ** (1 / 9)],
    ['a root at the lower end', (x) => x, 0, 1, 0],
    ['a root at the upper end', (x) => x - 1, 0, 1, 1],
    ['ends handed over the wrong way round', (x) => x - 0.3, 1, 0, 0.3],
  ])('%s', (_what, f, a, b, expected) => {
    const { x, residual, calls } = rootOf(f, a, b);
    expect(Math.abs(x - expected)).toBeLessThan(1e-9);
    expect(Math.abs(residual)).toBeLessThanOrEqual(1e-12);
    expect(calls).toBeLessThan(30);
  });

  test('superlinear on a smooth function: half a dozen calls where halving takes forty', () => {
    expect(rootOf((x) => Math.cos(x) - x, 0, 1).calls).toBeLessThan(8);
  });

  test('stays inside the bracket it is given', () => {
    const asked: number[] = [];
    rootOf(
      (x) => {
        asked.push(x);
        return Math.atan(1000 * (x - 0.7));
      },
      -3,
      5,
    );
    expect(Math.min(...asked)).toBeGreaterThanOrEqual(-3);
    expect(Math.max(...asked)).toBeLessThanOrEqual(5);
  });

  test('hands over the best point when the calls are used up', () => {
    const { residual, calls } = rootOf((x) => x ** 15 - 1e-6, 0, 2, 0, 4);
    expect(calls).toBeLessThanOrEqual(4);
    expect(Math.abs(residual)).toBeLessThanOrEqual(1e-6);
  });
});
