import { describe, expect, test } from 'vitest';
import { meanTheta, type Shape, theta } from '../../packages/cli/src/check/exact/series.js';
import { COOK_STEPS, SolidLine } from '../../packages/cli/src/check/exact/solidLine.js';

// Closed form. Law: one line of constant properties with convection alone follows the exact series
// at the mesh and the steps every cook uses. Gaps are shares of the driving difference.
const BIOTS = [0.1, 0.5, 1, 2, 5, 10, 20, 50];
const FOURIERS = [0.02, 0.05, 0.1, 0.2, 0.5, 1, 2];
const PLACES = [0, 0.5, 1];
// The volume of a sphere crowds into the coarse shells least of all, so its centre is the least exact.
const ALLOWED: readonly (readonly [Shape, gap: number])[] = [
  ['cylinder', 0.0005],
  ['slab', 0.0005],
  ['sphere', 0.001],
];

interface Gap {
  readonly gap: number;
  readonly where: string;
}

/** Largest gap to the series over all times, at the centre, half radius, surface and in the mean. */
function worstGap(shape: Shape, biot: number): Gap {
  const gaps = FOURIERS.flatMap((fourier) => {
    const line = new SolidLine(shape, biot).advance(fourier, COOK_STEPS);
    const gapAt = (place: number): Gap => ({
      gap: Math.abs(line.theta(place) - theta(shape, biot, fourier, place)),
      where: `Fo ${fourier}, r/R ${place}`,
    });
    const mean = Math.abs(line.meanTheta() - meanTheta(shape, biot, fourier));
    return [...PLACES.map(gapAt), { gap: mean, where: `Fo ${fourier}, mean` }];
  });
  return gaps.reduce((worst, next) => (next.gap > worst.gap ? next : worst));
}

describe.each(ALLOWED)('a %s at the default mesh and steps', (shape, allowed) => {
  test.each(BIOTS)('Bi %f', (biot) => {
    const { gap, where } = worstGap(shape, biot);
    expect(gap, where).toBeLessThan(allowed);
  });
});
