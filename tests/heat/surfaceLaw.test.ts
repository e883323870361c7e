import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  BEEF_CRUST,
  inAir,
  latentHeat,
  SurfaceLaw,
  type Surroundings,
  saturation,
} from '../../packages/core/src/heat/index.js';
import { kelvin, STEFAN_BOLTZMANN } from '../../packages/core/src/units/index.js';
import { decimal } from '../support/anyCook.js';

/*
 * The four equations of the surface, put to the results one by one: whatever way the law solves them, they have to hold. The
 * saturation pressure comes from a table every kelvin, so what leans on it holds to a thousandth.
 */

interface Case {
  readonly around: Surroundings;
  readonly frontC: number;
  readonly deficit: number;
  readonly juice: number;
  readonly spanS: number;
}

const WET = 1e9; // kg/m²: a surface that never dries through

const anyCase: fc.Arbitrary<Case> = fc
  .record({
    airC: decimal(20, 320),
    wallC: decimal(20, 320),
    film: decimal(3, 60),
    radiation: decimal(0, 0.95),
    vapourPa: decimal(0, 8000),
    frontC: decimal(1, 120),
    deficit: decimal(0, 2),
    juice: decimal(0, 2e-4),
    spanS: fc.constantFrom(0, 0.1, 3, 20),
  })
  .map(({ airC, wallC, film, radiation, vapourPa, ...rest }) => ({
    around: inAir({ airC, wallC, filmWPerM2K: film, radiationFactor: radiation, vapourPa }),
    ...rest,
  }));

/** The law at one front; the guess is far off on purpose. */
function solved(
  { around, frontC, deficit, juice, spanS }: Case,
  most = WET,
  guess = 0,
): SurfaceLaw {
  const law = new SurfaceLaw(BEEF_CRUST);
  law.face(around);
  law.begin(deficit, juice, spanS, guess, most);
  law.at(frontC);
  return law;
}

const near = (found: number, expected: number, share: number, least: number): void => {
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(share * Math.abs(expected) + least);
};

describe('law: in any air, at any front', () => {
  test('heat through the crust is what the outside takes from air and walls', () => {
    fc.assert(
      fc.property(anyCase, (one) => {
        const { airC, wallC, filmWPerM2K, radiationFactor } = one.around;
        const law = solved(one);
        const outsideC = one.frontC + BEEF_CRUST.heatPerDeficit * law.deficit * law.heatIn;
        const taken =
          filmWPerM2K * (airC - outsideC) +
          radiationFactor * STEFAN_BOLTZMANN * (kelvin(wallC) ** 4 - kelvin(outsideC) ** 4);
        near(law.heatIn, taken, 1e-8, 1e-6);
        near(law.outsideC(one.frontC, law.deficit, law.heatIn), outsideC, 1e-12, 0);
      }),
    );
  });

  test('vapour drives through film and crust, and the deficit grows by what juice does not bring', () => {
    fc.assert(
      fc.property(anyCase, (one) => {
        const { around, frontC, deficit, juice, spanS } = one;
        const law = solved(one);
        const drive = saturation(frontC)[0] - around.vapourPa;
        const resistance = around.vapourResistance + BEEF_CRUST.vapourPerDeficit * law.deficit;
        near(law.evaporation * resistance, drive, 1e-3, 5);
        const grown = deficit + spanS * (law.evaporation - juice);
        if (grown > 1e-9) near(law.deficit, grown, 1e-9, 1e-12);
        else expect(law.deficit).toBe(0); // what is left over runs off
      }),
    );
  });

  test('heat into the meat is what evaporation leaves', () => {
    fc.assert(
      fc.property(anyCase, (one) => {
        const law = solved(one);
        near(law.heat, law.heatIn - latentHeat(one.frontC) * law.evaporation, 1e-12, 1e-9);
      }),
    );
  });

  test('where Newton’s method starts from does not matter', () => {
    fc.assert(
      fc.property(anyCase, decimal(-200_000, 50_000), (one, guess) => {
        near(solved(one, WET, guess).heatIn, solved(one).heatIn, 1e-8, 1e-6);
      }),
    );
  });

  test('slopes are those of the results', () => {
    fc.assert(
      fc.property(anyCase, (given) => {
        // in the middle of an interval of the table, where its slope is one
        const one = { ...given, frontC: Math.floor(given.frontC) + 0.5 };
        const step = 1e-3;
        const [low, high] = [-step, step].map((by) => solved({ ...one, frontC: one.frontC + by }));
        if (low.deficit === 0 || high.deficit === 0) {
          fc.pre(low.deficit === high.deficit); // at the bend between a bare and a crusted surface there is no slope
        }
        const law = solved(one);
        const rise = (of: (at: SurfaceLaw) => number): number => (of(high) - of(low)) / (2 * step);
        near(
          law.heatInSlope,
          rise((at) => at.heatIn),
          1e-3,
          1e-3,
        );
        near(
          law.evaporationSlope,
          rise((at) => at.evaporation),
          1e-3,
          1e-9,
        );
        near(
          law.deficitSlope,
          rise((at) => at.deficit),
          1e-3,
          1e-9,
        );
        near(
          law.heatSlope,
          rise((at) => at.heat),
          1e-3,
          1e-2,
        );
      }),
    );
  });
});

describe('at the edges', () => {
  const air = inAir({
    airC: 200,
    wallC: 200,
    filmWPerM2K: 15,
    radiationFactor: 0.8,
    vapourPa: 3000,
  });
  const one: Case = { around: air, frontC: 60.5, deficit: 0.3, juice: 1e-4, spanS: 5 };

  test('a sealed surface loses no water, whatever the pressure', () => {
    const sealed = { ...air, vapourResistance: Number.POSITIVE_INFINITY };
    const law = solved({ ...one, around: sealed });
    expect(law.evaporation).toBe(0);
    expect(law.evaporationSlope).toBe(0);
    expect(law.deficit).toBe(0.3);
    expect(law.deficitSlope).toBe(0);
    expect(law.heat).toBe(law.heatIn);
  });

  test('a surface below the dew point takes up water, unless told that nothing condenses', () => {
    const cold: Case = { ...one, frontC: 5.5, deficit: 0 };
    const law = solved(cold);
    expect(law.evaporation).toBeCloseTo((saturation(5.5)[0] - 3000) / air.vapourResistance, 7);
    expect(law.evaporation).toBeLessThan(0);
    expect(law.deficit).toBe(0);
    const dry = solved({ ...cold, around: { ...air, condenses: false } });
    expect(dry.evaporation).toBe(0);
    expect(dry.evaporationSlope).toBe(0);
    const warm = solved({ ...one, around: { ...air, condenses: false } });
    expect(warm.evaporation).toBe(solved(one).evaporation);
  });

  test('no time passes: the deficit stands, and evaporation goes through it', () => {
    const law = solved({ ...one, spanS: 0 });
    expect(law.deficit).toBeCloseTo(0.3, 12);
    const resistance = air.vapourResistance + 0.3 * BEEF_CRUST.vapourPerDeficit;
    near(law.evaporation, (saturation(60.5)[0] - 3000) / resistance, 1e-3, 0);
  });

  test('dried through: what is left and what juice brings, and no more', () => {
    const law = solved(one, 0.3001);
    expect(law.evaporation).toBeCloseTo(0.0001 / 5 + 1e-4, 12);
    expect(law.deficit).toBeCloseTo(0.3001, 12);
    expect(law.evaporationSlope).toBe(0);
    expect(law.deficitSlope).toBe(0);
    const frozen = solved({ ...one, spanS: 0 }, 0.29); // a hair past the limit, as rounding leaves it
    expect(frozen.evaporation).toBeCloseTo(1e-4, 12);
    const far = solved(one, 0.4);
    expect(far.evaporation).toBe(solved(one).evaporation);
  });

  test('drier than dry, as after a change of surroundings, nothing evaporates and juice comes in', () => {
    const law = solved(one, 0.2);
    expect(law.evaporation).toBe(0);
    expect(law.deficit).toBeCloseTo(0.3 - 5 * 1e-4, 12);
  });

  test('the crust of beef: 700 kg/m³ of water, conducting 0.2 W/(m·K)', () => {
    expect(BEEF_CRUST.removableWater).toBe(700);
    expect(BEEF_CRUST.heatPerDeficit).toBeCloseTo(1 / 140, 14);
    // R_v T / (water * diffusivity) with R_v 461.5 J/(kg·K), 364 K and 1e-5 m²/s
    expect(BEEF_CRUST.vapourPerDeficit / ((461.5 * 364) / (700 * 1e-5))).toBeCloseTo(1, 3);
  });
});
