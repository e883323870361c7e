import { centreReaches, type Roast, roastIn, scaled, simulate } from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { anyRecipe, COARSE, decimal, roastOf } from '../support/anyCook.js';

interface Oven {
  readonly ovenC: number;
  readonly fan: boolean;
  readonly reachesC: number;
}
const anyOven: fc.Arbitrary<Oven> = fc.record({
  ovenC: decimal(100, 250),
  fan: fc.boolean(),
  reachesC: decimal(45, 65),
});

const seconds = (roast: Roast, { ovenC, fan, reachesC }: Oven): number =>
  simulate(roast, [roastIn({ ovenC, fan, until: centreReaches(reachesC) })], COARSE).stages[0].endS;

/** The same shape, smaller all round. */
const shrunk = (roast: Roast, factor: number): Roast => ({
  ...roast,
  profile: scaled(roast.profile, factor, factor),
  massKg: roast.massKg * factor ** 3,
});

describe('law: the coldest axis never gets there later', () => {
  test('in a hotter oven', () => {
    fc.assert(
      fc.property(anyRecipe, anyOven, decimal(1, 40), (recipe, oven, risenK) => {
        const roast = roastOf(recipe);
        const hotter = { ...oven, ovenC: oven.ovenC + risenK };
        expect(seconds(roast, hotter)).toBeLessThan(seconds(roast, oven));
      }),
      { numRuns: 40 },
    );
  });

  test('in a smaller roast of the same shape', () => {
    fc.assert(
      fc.property(anyRecipe, anyOven, decimal(0.7, 0.99), (recipe, oven, factor) => {
        const roast = roastOf(recipe);
        expect(seconds(shrunk(roast, factor), oven)).toBeLessThan(seconds(roast, oven));
      }),
      { numRuns: 40 },
    );
  });

  test('from a warmer start', () => {
    fc.assert(
      fc.property(anyRecipe, anyOven, decimal(0.5, 10), (recipe, oven, warmerK) => {
        const roast = roastOf(recipe);
        const warmer = { ...roast, startC: roast.startC + warmerK };
        expect(seconds(warmer, oven)).toBeLessThan(seconds(roast, oven));
      }),
      { numRuns: 40 },
    );
  });
});
