import {
  CUTS,
  type Roast,
  rest,
  roastIn,
  roundRoast,
  type Stage,
  searInOven,
  searInPan,
  type TenderloinCut,
  temper,
  tenderloin,
  waterBath,
} from '@roastsim/core';
import fc from 'fast-check';

/** Evenly spread over the range; `fc.double` would crowd where floating-point numbers do. */
export const decimal = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 1000 }).map((step) => min + ((max - min) * step) / 1000);

/** What a roast is made from: short enough to read in a counterexample. */
export type Recipe =
  | {
      readonly cut: TenderloinCut;
      readonly massKg: number;
      readonly folded: boolean;
      readonly tied: boolean;
      readonly startC: number;
    }
  | { readonly sizeMm: number; readonly lengthMm: number; readonly startC: number };

export const roastOf = (recipe: Recipe): Roast =>
  'cut' in recipe
    ? tenderloin(recipe)
    : roundRoast({ ...recipe, diameters: [{ sizeMm: recipe.sizeMm }] });

const anyStartC = decimal(0, 20);
const anyTenderloin = fc
  .tuple(
    fc.constantFrom<TenderloinCut[]>('whole', 'centre', 'butt', 'tail'),
    decimal(0, 1),
    fc.boolean(),
    fc.boolean(),
    anyStartC,
  )
  .map(([cut, share, folded, tied, startC]): Recipe => {
    const [low, high] = CUTS[cut].usualKg;
    return {
      cut,
      massKg: low + share * (high - low),
      folded: folded && cut === 'whole',
      tied,
      startC,
    };
  });
const anyRound: fc.Arbitrary<Recipe> = fc.record({
  sizeMm: decimal(45, 100),
  lengthMm: decimal(100, 500),
  startC: anyStartC,
});

/** A tenderloin of a usual weight, folded and tied or not, or a round roast; 0 to 20 °C at the start. */
export const anyRecipe: fc.Arbitrary<Recipe> = fc.oneof(
  { weight: 4, arbitrary: anyTenderloin },
  { weight: 1, arbitrary: anyRound },
);

const anyMinutes = decimal(2, 50).map((minutes) => ({ minutes }));

/** Any stage but a pan sear, for a given time. */
export const anyTimedStage: fc.Arbitrary<Exclude<Stage, { readonly kind: 'pan-sear' }>> = fc.oneof(
  fc.tuple(anyMinutes, decimal(10, 35)).map(([{ minutes }, roomC]) => temper({ minutes, roomC })),
  fc
    .tuple(anyMinutes, decimal(80, 260), fc.boolean(), fc.constantFrom('preheated', 'cold'))
    .map(([until, ovenC, fan, start]) => roastIn({ until, ovenC, fan, start })),
  anyMinutes.map(({ minutes }) => searInOven({ minutes: minutes / 4 })),
  fc.tuple(anyMinutes, fc.boolean()).map(([{ minutes }, tented]) => rest({ minutes, tented })),
  fc.tuple(anyMinutes, decimal(45, 90)).map(([until, bathC]) => waterBath({ until, bathC })),
);

const anyPanSear: fc.Arbitrary<Stage> = fc
  .tuple(fc.integer({ min: 1, max: 6 }), decimal(20, 120), decimal(160, 280))
  .map(([faces, secondsPerFace, panC]) => searInPan({ faces, secondsPerFace, panC }));

/** One to four stages of any kind in any order. */
export const anyStages: fc.Arbitrary<Stage[]> = fc.array(
  fc.oneof({ weight: 5, arbitrary: anyTimedStage }, { weight: 1, arbitrary: anyPanSear }),
  { minLength: 1, maxLength: 4 },
);

/** Coarse enough to try many cooks in little time: laws hold at any resolution. */
export const COARSE = { stations: 10, shells: 14 } as const;
