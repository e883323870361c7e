import { tenderloin } from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { COARSE, cooked } from '../../packages/cli/src/check/cook.js';
import {
  DERIVED_END_C,
  DERIVED_LOSS,
  proteinOf,
  YIELDS,
  type YieldRow,
} from '../../packages/cli/src/check/losses.js';

// Derived: yields from the protein of raw and roasted tenderloin of one trim and grade (USDA National Nutrient Database for
// Standard Reference, data/published/yields.json and thermal-properties.json), assuming that no protein leaves.
describe('yields from compositions', () => {
  test.each<YieldRow>(YIELDS.rows)('$food: $yield_by_protein', (row) => {
    const yielded = proteinOf(row.ndb_raw) / proteinOf(row.ndb_cooked);
    expect(Math.abs(yielded - row.yield_by_protein)).toBeLessThan(0.00051);
  });

  test('a loss of 19.6 to 21.1 %', () => {
    expect(DERIVED_LOSS.low).toBeCloseTo(0.196, 3);
    expect(DERIVED_LOSS.high).toBeCloseTo(0.211, 3);
  });
});

// The roasts behind those compositions were removed at about 60 °C (from memory); their oven was not seen. Deviations from the
// middle of the derived losses, in points of raw weight, are stated: at 425 °F, the oven the model is fitted in, within 3; at
// 325 °F, the likelier oven, 4 to 6 too little. The yields are lower still if protein dripped away.
describe('loss of a tenderloin removed at 60 °C and rested', () => {
  const middle = (DERIVED_LOSS.low + DERIVED_LOSS.high) / 2;
  test.each([
    ['centre', 1.134, 218.3, -2.5],
    ['whole', 2.041, 218.3, -0.1],
    ['centre', 1.134, 163, -5.8],
    ['whole', 2.041, 163, -4.2],
  ] as const)('%s, %f kg at %f °C: %f points off', (cut, massKg, ovenC, points) => {
    const ask = { ovenC, reachesC: DERIVED_END_C, options: COARSE };
    const { loss } = cooked(tenderloin({ massKg, cut }), ask);
    expect(Math.abs(100 * (loss - middle) - points)).toBeLessThan(0.3);
  });
});

// Reported (a cookery reference, tenderloin-portion-rule in data/published/measured-roasts.json): 165 g raw give 140 g, a loss of
// 15.2 %, at 125-175 °C to 55-60 °C. The model loses less over nearly all of that range.
test('portions of oven-roasted tenderloin lose 15.2 %; the model 10.6 to 15.3 %', () => {
  const losses = [125, 150, 175].flatMap((ovenC) =>
    [55, 60].map(
      (reachesC) =>
        cooked(tenderloin({ massKg: 1.134, cut: 'centre' }), { ovenC, reachesC, options: COARSE })
          .loss,
    ),
  );
  expect(Math.min(...losses)).toBeCloseTo(0.106, 2);
  expect(Math.max(...losses)).toBeCloseTo(0.153, 2);
});
