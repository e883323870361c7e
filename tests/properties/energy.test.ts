import {
  type CookOptions,
  CookRun,
  heatContent,
  meatOf,
  type Roast,
  type Stage,
  simulate,
  TENDERLOIN_WATER_HOLDING,
  tenderloin,
  waterBath,
} from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lineVolume } from '../../packages/core/src/heat/index.js';
import { anyRecipe, anyStages, COARSE, decimal, roastOf } from '../support/anyCook.js';

test('law: what comes in through the surface is stored or evaporates, to 1e-9, in any cook', () => {
  fc.assert(
    fc.property(anyRecipe, anyStages, (recipe, stages) => {
      const roast = roastOf(recipe);
      const { heatInJ, latentJ, storedJ } = simulate(roast, stages, COARSE).ledger;
      const moved = Math.abs(heatInJ) + Math.abs(latentJ) + Math.abs(storedJ);
      expect(Math.abs(heatInJ - latentJ - storedJ)).toBeLessThan(1e-9 * moved);
    }),
    { numRuns: 100 },
  );
});

describe('law: sealed meat that keeps its juice gains its heat content', () => {
  const meat = meatOf({ holding: { ...TENDERLOIN_WATER_HOLDING, amplitude: 0 } });
  const anyBaths = fc.array(
    decimal(45, 90).map((bathC) => waterBath({ bathC, until: { minutes: 20 } })),
    { minLength: 1, maxLength: 2 },
  );

  /** How far the heat through the surface is from the integral of the heat capacity, as a share. */
  function gap(roast: Roast, stages: readonly Stage[], options: CookOptions): number {
    const run = new CookRun({ ...roast, meat }, options);
    for (const stage of stages) run.run(stage);
    const { body } = run.body;
    const nodes = body.mesh.shells + 1;
    const before = heatContent(meat, roast.startC);
    const gainedJ = run.state.tempC.reduce((sum, tempC, at) => {
      const kg = meat.densityKgPerM3 * lineVolume(body, Math.floor(at / nodes));
      return sum + kg * body.mesh.share[at % nodes] * (heatContent(meat, tempC) - before);
    }, 0);
    return Math.abs(run.history().ledger.heatInJ / gainedJ - 1);
  }

  test('to 3e-5 at the default steps', () => {
    fc.assert(
      fc.property(anyRecipe, anyBaths, (recipe, stages) => {
        const roast = roastOf(recipe);
        expect(gap(roast, stages, COARSE)).toBeLessThan(3e-5);
      }),
      { numRuns: 40 },
    );
  });

  test('steps a quarter as long, less than half the gap', () => {
    const cases = fc.sample(fc.tuple(anyRecipe, anyBaths), { numRuns: 20, seed: 1 });
    const worst = (options: CookOptions): number =>
      Math.max(
        ...cases.map(([recipe, stages]) => gap(roastOf(recipe), stages, { ...COARSE, ...options })),
      );
    const quarter = worst({ longestStepS: 5, firstStepS: 0.25 });
    expect(quarter).toBeLessThan(worst({}) / 2);
    expect(quarter).toBeLessThan(1e-5);
  });
});

test('law: juice leaves with its own heat, that of water between its mildest and its hottest', () => {
  const roast = tenderloin({ massKg: 1.1, cut: 'centre' });
  const bathC = 85;
  const { ledger, water, body } = simulate(
    roast,
    [waterBath({ bathC, until: { minutes: 60 } })],
    COARSE,
  );
  const nodes = COARSE.shells + 1;
  const leftKg = water.reduce((sum, m, at) => {
    const lineKg = roast.meat.densityKgPerM3 * lineVolume(body.body, Math.floor(at / nodes));
    return sum + lineKg * body.body.mesh.share[at % nodes] * (roast.meat.waterFraction - m);
  }, 0);
  const perKg = (tempC: number): number =>
    heatContent(roast.meat, tempC, 1) - heatContent(roast.meat, tempC, 0);
  expect(ledger.juiceJ).toBeGreaterThan(leftKg * perKg(50)); // hardly any leaves below
  expect(ledger.juiceJ).toBeLessThan(leftKg * perKg(bathC));
});
