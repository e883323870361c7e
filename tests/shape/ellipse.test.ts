import { describe, expect, test } from 'vitest';
import { fourierAtTheta } from '../../packages/cli/src/check/exact/series.js';
import { lineRadius } from '../../packages/core/src/shape/index.js';
import { ellipseFourier } from '../support/ellipse.js';

// Other program: the elliptic bar in two dimensions. In a hot oven the middle has 0.7 to 0.8 of its excess left at the pull.
const BIOTS = [1, 2, 4, 8, 16, 35];
const TARGET = 0.75;

test('the bar of round cross-section is the infinite cylinder', () => {
  for (const biot of BIOTS) {
    const exact = fourierAtTheta('cylinder', biot, TARGET, 0);
    expect(Math.abs(ellipseFourier(1, biot, TARGET) / exact - 1)).toBeLessThan(1e-4);
  }
});

// Time of the round line that stands for the ellipse, over the ellipse's own.
describe('the line that stands for an ellipse takes its time', () => {
  test.each([
    [0.85, 0.006], // tied
    [0.75, 0.015], // butt end, centre cut untied
    [0.7, 0.025], // whole and tail end untied
    [0.5, 0.09], // flat: outside what the model is for
  ])('aspect %f, within a share of %f at Bi 1 to 35', (aspect, allowed) => {
    const gaps = BIOTS.map((biot) => {
      const radius = lineRadius(2, aspect);
      const line = fourierAtTheta('cylinder', biot * radius, TARGET, 0) * radius ** 2;
      return line / ellipseFourier(aspect, biot, TARGET) - 1;
    });
    const shown = gaps.map((gap, i) => `Bi ${BIOTS[i]} ${(100 * gap).toFixed(2)} %`);
    console.log(`aspect ${aspect}: ${shown.join(', ')}`);
    for (const gap of gaps) expect(Math.abs(gap)).toBeLessThan(allowed);
    expect(Math.abs(gaps[1])).toBeLessThan(0.003); // Bi 2: a roast in a still oven
  });
});
