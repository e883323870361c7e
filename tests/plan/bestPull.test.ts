import { SCALES, settleWishes, type Wish } from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  bestOf,
  compareSeatings,
  type PullOutcome,
  type SeatedPull,
  seated,
} from '../../packages/core/src/plan/bestPull.js';

const scale = SCALES.kitchen;
const anyWish: fc.Arbitrary<Wish> = fc.record({
  doneness: fc.oneof(
    fc.constantFrom(...scale.bands.map(({ name }) => name)),
    fc.integer({ min: 48, max: 70 }),
  ),
});

/** Peaks of the slices [°C]: as they come, or rounded so that misfits tie, also within a hundredth of a kelvin. */
const anyPeak = (grainK: number): fc.Arbitrary<number> => {
  const peak = fc.double({ min: 45, max: 75, noNaN: true });
  return grainK === 0 ? peak : peak.map((c) => Math.round(c / grainK) * grainK);
};

/** Later pulls of one roast have warmer slices; some have slices of their own. */
const anyTable = fc
  .record({
    wishes: fc.array(anyWish, { minLength: 1, maxLength: 5 }),
    spare: fc.integer({ min: 0, max: 2 }),
    grainK: fc.constantFrom(0, 0.004, 0.5, 2),
  })
  .chain(({ wishes, spare, grainK }) => {
    const slices = wishes.length + spare;
    const peaks = fc.array(anyPeak(grainK), { minLength: slices, maxLength: slices });
    const warmer = fc.tuple(peaks, fc.array(fc.integer({ min: 0, max: 20 }), { maxLength: 12 }));
    return fc.record({
      wishes: fc.constant(settleWishes(wishes, scale)),
      peaksC: fc.oneof(
        fc.array(peaks, { maxLength: 12 }),
        warmer.map(([first, steps]) =>
          steps.map((step) => first.map((c) => c + step * (grainK || 0.3))),
        ),
      ),
    });
  });

const pullsOf = (peaksC: readonly (readonly number[])[]): PullOutcome[] =>
  peaksC.map((peakC, i) => ({ pullS: 60 * i, centreC: 40 + i, peakC: Float64Array.from(peakC) }));

/** The best without leaving anybody out. */
const bestByTrying = (pulls: readonly SeatedPull[]): SeatedPull | undefined =>
  pulls.reduce<SeatedPull | undefined>(
    (best, pull) =>
      best === undefined || compareSeatings(pull.seating, best.seating) < 0 ? pull : best,
    undefined,
  );

describe('the best pull', () => {
  test('is the one that seating everybody at every pull finds', () => {
    let later = 0;
    fc.assert(
      fc.property(anyTable, ({ wishes, peaksC }) => {
        const pulls = pullsOf(peaksC);
        const best = bestOf(pulls, wishes);
        expect(best).toEqual(bestByTrying(seated(pulls, wishes)));
        if ((best?.pullS ?? 0) > 0) later++;
      }),
      { numRuns: 2000 },
    );
    expect(later, 'the first is not always the best').toBeGreaterThan(500);
  });

  test('is the earliest of equals', () => {
    const wishes = settleWishes([{ doneness: 'rare' }, { doneness: 60 }], scale);
    const same = [50, 63, 58];
    expect(bestOf(pullsOf([[70, 71, 72], same, same, same]), wishes)?.pullS).toBe(60);
  });

  test('of equal misfits is the one with centres nearer to the targets', () => {
    // both miss the second wish by 1.5 K, to within less than a hundredth; the second pull meets the first wish squarely
    const wishes = settleWishes([{ doneness: 55 }, { doneness: 65 }], scale);
    const pulls = pullsOf([
      [56.4, 68],
      [55, 68.005],
    ]);
    expect(bestOf(pulls, wishes)?.pullS).toBe(60);
  });

  test('is none of none', () => {
    expect(bestOf([], settleWishes([{ doneness: 'rare' }], scale))).toBeUndefined();
  });
});
