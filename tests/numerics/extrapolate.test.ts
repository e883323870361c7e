import { describe, expect, test } from 'vitest';
import { extrapolated } from '../../packages/cli/src/check/plans/extrapolate.js';

// Closed form: solutions with an error that falls with the square (or the first power) of the mesh.
describe('extrapolation from three meshes', () => {
  const solutions = (exact: number, error: number, order: number) =>
    [1, 2, 4].map((times) => exact + error / times ** order) as [number, number, number];

  test.each([2, 1])('finds the value an error of order %i falls towards', (order) => {
    const { value, uncertainty } = extrapolated(...solutions(50, 0.3, order));
    expect(value).toBeCloseTo(50, 10);
    expect(uncertainty).toBeCloseTo((1.25 * 0.3) / 4 ** order, 10);
  });

  test("trusts no order above the scheme's own: the step still to go is not made smaller", () => {
    const [coarse, middle, fine] = solutions(50, 0.3, 4);
    const { value, uncertainty } = extrapolated(coarse, middle, fine);
    expect(value - fine).toBeCloseTo((fine - middle) / 3, 12);
    expect(uncertainty).toBeGreaterThan(Math.abs(value - 50));
  });

  test('where the three do not close in, the finest stands with three times its last change', () => {
    expect(extrapolated(50, 50.1, 50.04)).toEqual({
      value: 50.04,
      uncertainty: expect.closeTo(0.18, 12),
    });
    expect(extrapolated(50, 50.01, 50.04).value).toBe(50.04);
  });

  test('three equal solutions are exact', () => {
    expect(extrapolated(50, 50, 50)).toEqual({ value: 50, uncertainty: 0 });
  });
});
