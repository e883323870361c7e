import { type History, roastIn, SCALES, simulate, sliceRoast, tenderloin } from '@roastsim/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { anyRecipe, anyStages, COARSE, roastOf } from '../support/anyCook.js';

/** Water inside the shells, and water missing from the outermost layer of sides and ends [kg of the true roast]. */
function waterOf({ body: { body, rawKg }, water, deficit, endDeficit }: History) {
  const { mesh, stations, massFactor, sideM2, radiusM } = body;
  const nodes = mesh.shells + 1;
  const insideKg = water.reduce(
    (sum, m, at) => sum + rawKg[Math.floor(at / nodes)] * mesh.share[at % nodes] * m,
    0,
  );
  const sideKg = deficit.reduce((sum, w, i) => sum + massFactor[i] * sideM2[i] * w, 0);
  const endsKg = endDeficit.reduce((sum, w, end) => {
    const i = end === 0 ? 0 : stations - 1;
    return sum + massFactor[i] * Math.PI * radiusM[i] ** 2 * w;
  }, 0);
  return { insideKg, missingKg: sideKg + endsKg };
}

const total = (kg: Float64Array): number => kg.reduce((sum, one) => sum + one, 0);

test('law: water is left, evaporates, drips or is missing from the crust; none appears, to 1e-12', () => {
  fc.assert(
    fc.property(anyRecipe, anyStages, (recipe, stages) => {
      const roast = roastOf(recipe);
      const cook = simulate(roast, stages, COARSE);
      const beforeKg = total(cook.body.rawKg) * roast.meat.waterFraction;
      const { insideKg, missingKg } = waterOf(cook);
      const lostKg = total(cook.evaporatedKg) + total(cook.drippedKg);
      expect(Math.abs(beforeKg - insideKg + missingKg - lostKg)).toBeLessThan(1e-12 * beforeKg);
    }),
    { numRuns: 100 },
  );
});

test('law: no shell holds more water than raw meat or less than the hottest can hold', () => {
  fc.assert(
    fc.property(anyRecipe, anyStages, (recipe, stages) => {
      const roast = roastOf(recipe);
      const { waterFraction, holding } = roast.meat;
      for (const m of simulate(roast, stages, COARSE).water) {
        expect(m).toBeLessThanOrEqual(waterFraction);
        expect(m).toBeGreaterThanOrEqual(waterFraction - holding.amplitude);
      }
    }),
    { numRuns: 40 },
  );
});

test('law: no slice loses more than it has, however hot, thin and long', () => {
  const thin = tenderloin({ massKg: 0.4, folded: false, tied: false });
  const cooks = [
    simulate(thin, [roastIn({ ovenC: 90, fan: true, until: { minutes: 600 } })], COARSE),
    simulate(thin, [roastIn({ ovenC: 300, fan: true, until: { minutes: 120 } })], COARSE),
    simulate(tenderloin({ massKg: 2.2 }), [
      roastIn({ ovenC: 150, fan: true, until: { minutes: 240 } }),
    ]),
  ];
  for (const cook of cooks) {
    for (const { servedKg } of sliceRoast(cook, SCALES.kitchen, 0.03)) {
      expect(servedKg).toBeGreaterThan(0);
    }
  }
});
