import {
  bodyOf,
  constantSolid,
  type Roast,
  rest,
  roastIn,
  roundRoast,
  Stepper,
  simulate,
  uniformState,
  waterBath,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { finiteCylinderTheta } from '../../packages/cli/src/check/exact/series.js';
import {
  AIR_C,
  allRound,
  convection,
  DIFFUSIVITY,
  evenSteps,
  march,
  SOLID,
  START_C,
} from '../../packages/cli/src/check/exact/solidLine.js';
import { ledgerOf } from '../../packages/core/src/heat/index.js';

// Closed form, on a mesh coarse enough to take milliseconds; tests/numerics/finiteCylinder.test.ts has the default one.
const LENGTH_M = 0.1;
const RADIUS_M = 0.038;
const BIOT = 2;
const cylinder: Roast = {
  ...roundRoast({ lengthMm: 1000 * LENGTH_M, diameters: [{ sizeMm: 2000 * RADIUS_M }] }),
  aspect: 1,
  meat: constantSolid(SOLID.conductivity, SOLID.density, SOLID.heatCapacity),
  startC: START_C,
};

/** Largest gap to the exact solution on the axis [K] after 20 minutes. */
function worstGap(stations: number, stepS: number): number {
  const { body, atM } = bodyOf(cylinder, { stations, shells: 12 });
  const state = uniformState(body, cylinder.meat, START_C);
  const around = allRound(convection(AIR_C, (BIOT * SOLID.conductivity) / RADIUS_M));
  march(new Stepper(body, cylinder.meat), state, around, 1200, evenSteps(stepS));
  const gaps = Array.from(atM, (at, station) => {
    const theta = finiteCylinderTheta({
      biot: BIOT,
      fourier: (DIFFUSIVITY * 1200) / RADIUS_M ** 2,
      halfLengthRatio: LENGTH_M / 2 / RADIUS_M,
      radiusFraction: 0,
      lengthFraction: Math.abs(at - LENGTH_M / 2) / (LENGTH_M / 2),
    });
    const axisC = state.tempC[station * (body.mesh.shells + 1)];
    return Math.abs(axisC - AIR_C - (START_C - AIR_C) * theta);
  });
  return Math.max(...gaps);
}

test('a short cylinder in moving air, its ends too: within half a kelvin of 200, wherever on the axis', () => {
  const gapK = worstGap(20, 20);
  console.log(`short cylinder, 20 stations of 5 mm: ${gapK.toFixed(3)} K`);
  expect(gapK).toBeLessThan(0.5);
});

test('halving the steps changes little beside what the stations leave', () => {
  expect(Math.abs(worstGap(20, 10) - worstGap(20, 20))).toBeLessThan(0.05);
});

describe('a body of one station, both ends exposed', () => {
  const roast = roundRoast({ lengthMm: 60, diameters: [{ sizeMm: 80 }] });
  const one = { stations: 1, shells: 16 };

  test('keeps the heat ledger to 1e-9, dry ends and wet ones', () => {
    const { body } = bodyOf(roast, one);
    expect([body.stations, body.endsExposed]).toEqual([1, true]);
    for (const heat of [
      roastIn({ ovenC: 230, until: { minutes: 40 } }), // long enough for crusts
      waterBath({ bathC: 60, until: { minutes: 40 } }),
    ]) {
      const { ledger } = simulate(roast, [heat, rest({ minutes: 10 })], one);
      const { heatInJ, latentJ, storedJ } = ledger;
      const moved = Math.abs(heatInJ) + Math.abs(latentJ) + Math.abs(storedJ);
      expect(storedJ).toBeGreaterThan(1e4); // 300 g that warm by tens of kelvin
      expect(Math.abs(heatInJ - latentJ - storedJ)).toBeLessThan(1e-9 * moved);
    }
  });

  // closed form: what a solid of constant properties has stored is its mass times its heat capacity times its rise
  test('stores what its temperatures say, and takes in more than one whose ends are closed', () => {
    const seconds = 1200;
    const { body } = bodyOf(cylinder, one);
    const film = (BIOT * SOLID.conductivity) / RADIUS_M;
    const stored = (ends: number): { ledgerJ: number; byTempsJ: number } => {
      const state = uniformState(body, cylinder.meat, START_C);
      const around = { side: convection(AIR_C, film), ends: convection(AIR_C, ends) };
      march(new Stepper(body, cylinder.meat), state, around, seconds, evenSteps(20));
      const rise = state.tempC.reduce(
        (sum, tempC, j) => sum + body.mesh.share[j] * (tempC - START_C),
        0,
      );
      const perK = SOLID.density * SOLID.heatCapacity * Math.PI * RADIUS_M ** 2 * LENGTH_M;
      return { ledgerJ: ledgerOf(state).storedJ, byTempsJ: perK * rise };
    };
    const open = stored(film);
    const closed = stored(0);
    expect(Math.abs(open.ledgerJ / open.byTempsJ - 1)).toBeLessThan(1e-9);
    expect(open.ledgerJ).toBeGreaterThan(1.1 * closed.ledgerJ);
  });
});
