import { saturation } from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { UniformTable } from '../../packages/core/src/numerics/index.js';

describe('a table of a smooth function, read by cubic Hermite interpolation', () => {
  const cubic = new UniformTable(-1, 2, 3, (x) => [x ** 3 - 2 * x, 3 * x * x - 2]);

  test('a cubic is exact between the points, value and slope', () => {
    for (let x = -1; x <= 2; x += 0.0625) {
      expect(cubic.at(x)).toBeCloseTo(x ** 3 - 2 * x, 13);
      expect(cubic.slope).toBeCloseTo(3 * x * x - 2, 13);
    }
  });

  test('beyond the ends it goes on along the tangent', () => {
    expect(cubic.at(3)).toBeCloseTo(4 + 10, 12);
    expect(cubic.slope).toBeCloseTo(10, 12);
    expect(cubic.at(-2)).toBeCloseTo(1 - 1, 12);
    expect(cubic.slope).toBeCloseTo(1, 12);
  });

  test('value and slope are continuous at every point', () => {
    const sine = new UniformTable(0, 6, 7, (x) => [Math.sin(x), Math.cos(x)]);
    for (let i = 0; i <= 7; i++) {
      const at = (6 * i) / 7;
      const below = [sine.at(at - 1e-9), sine.slope];
      const above = [sine.at(at + 1e-9), sine.slope];
      expect(above[0]).toBeCloseTo(below[0], 7);
      expect(above[1]).toBeCloseTo(below[1], 7);
    }
  });

  test('fourth order: half the step, a sixteenth of the gap', () => {
    const gapWith = (steps: number): number => {
      const table = new UniformTable(0, 3, steps, (x) => [Math.exp(x), Math.exp(x)]);
      let worst = 0;
      for (let x = 0; x < 3; x += 0.01)
        worst = Math.max(worst, Math.abs(table.at(x) - Math.exp(x)));
      return worst;
    };
    expect(Math.log2(gapWith(8) / gapWith(16))).toBeGreaterThan(3.8);
  });

  test('saturation pressure every kelvin: 1e-6 of the value at every temperature food can have', () => {
    const table = new UniformTable(-60, 460, 520, saturation);
    for (let tempC = -20; tempC <= 150; tempC += 0.37) {
      const [pressure, slope] = saturation(tempC);
      expect(Math.abs(table.at(tempC) / pressure - 1)).toBeLessThan(1e-6);
      expect(Math.abs(table.slope / slope - 1)).toBeLessThan(1e-5);
    }
  });

  test('the slope of the saturation pressure is its derivative', () => {
    for (const tempC of [-10, 5, 40, 80, 120]) {
      const [, slope] = saturation(tempC);
      const [above] = saturation(tempC + 0.001);
      const [below] = saturation(tempC - 0.001);
      expect(slope / ((above - below) / 0.002)).toBeCloseTo(1, 7);
    }
  });
});
