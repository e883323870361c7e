import {
  bestFold,
  CUTS,
  diameterAt,
  diameterVariation,
  foldPoint,
  lengthOf,
  profileFromDiameters,
  scaled,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';

const flat = CUTS.whole.profile;

describe('how much the diameter varies', () => {
  test('not at all for a cylinder', () => {
    const cylinder = profileFromDiameters([
      [0, 0.07],
      [0.4, 0.07],
    ]);
    expect(diameterVariation(cylinder)).toBeLessThan(1e-7);
  });

  // Closed form: a diameter that rises in a line from 0 to 1 has mean 1/2, mean square 1/3.
  test('by 1/√3 for a cone', () => {
    const cone = profileFromDiameters([
      [0, 1e-9],
      [1, 1],
    ]);
    // straight pieces of area stand for the parabola: 16 pieces are good to half a per cent
    expect(diameterVariation(cone)).toBeCloseTo(1 / Math.sqrt(3), 2);
  });

  test('as sampling says, and the same at any size', () => {
    const samples = Array.from({ length: 20_000 }, (_, i) =>
      diameterAt(flat, ((i + 0.5) / 20_000) * lengthOf(flat)),
    );
    const mean = samples.reduce((sum, d) => sum + d, 0) / samples.length;
    const variance = samples.reduce((sum, d) => sum + (d - mean) ** 2, 0) / samples.length;
    expect(diameterVariation(flat)).toBeCloseTo(Math.sqrt(variance) / mean, 4);
    expect(diameterVariation(scaled(flat, 0.6, 0.08))).toBeCloseTo(diameterVariation(flat), 9);
  });
});

// Pinned: docs/model.md, section 10, has these figures.
test.each([
  [0.7, 0.089],
  [0.75, 0.087],
  [0.8, 0.105],
  [0.9, 0.184],
])('folded at %f, a whole tenderloin varies by %f', (foldAt, variation) => {
  expect(foldPoint(flat, foldAt).variation).toBeCloseTo(variation, 3);
});

test('the best fold is better than its neighbours and all that are far', () => {
  const best = bestFold(flat);
  expect(best.foldAt).toBeCloseTo(0.73, 9);
  for (const foldAt of [0.55, 0.6, 0.65, 0.7, 0.725, 0.735, 0.75, 0.8, 0.9, 0.95]) {
    expect(foldPoint(flat, foldAt).variation).toBeGreaterThan(best.variation);
  }
});
