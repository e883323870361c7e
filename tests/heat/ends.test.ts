import {
  bodyOf,
  constantSolid,
  type Roast,
  roundRoast,
  Stepper,
  uniformState,
} from '@roastsim/core';
import { expect, test } from 'vitest';
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
