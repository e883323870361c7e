import {
  type Body,
  bodyOf,
  constantSolid,
  type Meat,
  type Roast,
  radialMesh,
  roundRoast,
  Stepper,
  uniformState,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { finiteCylinderTheta } from '../../packages/cli/src/check/exact/series.js';
import {
  allRound,
  COOK_STEPS,
  convection,
  DIFFUSIVITY,
  march,
  SOLID,
} from '../../packages/cli/src/check/exact/solidLine.js';
import { ROW } from '../../packages/core/src/meat/index.js';
import { lineRadius } from '../../packages/core/src/shape/index.js';

// Closed form. Law: with axial exchange and both ends exposed, the axis follows the product of the infinite cylinder
// and the slab. Nearer than 5 mm to an end a station is too long to be compared with a point.
const START_C = 4;
const AIR_C = 204;
const LENGTH_M = 0.25;
const RADIUS_M = 0.038;
const FROM_END_M = 0.005;
const MINUTES = [5, 10, 20, 30, 45, 60];

const cylinder: Roast = {
  ...roundRoast({ lengthMm: 1000 * LENGTH_M, diameters: [{ sizeMm: 2000 * RADIUS_M }] }),
  aspect: 1,
  meat: constantSolid(SOLID.conductivity, SOLID.density, SOLID.heatCapacity),
  startC: START_C,
};

/** Largest gap on the axis [K] over all times and stations 5 mm and more from the ends, and where it is. */
function worstGap(biot: number, stations: number): { gapK: number; where: string } {
  const { body, atM } = bodyOf(cylinder, { stations });
  const stepper = new Stepper(body, cylinder.meat);
  let worst = { gapK: 0, where: '' };
  for (const minutes of MINUTES) {
    const state = uniformState(body, cylinder.meat, START_C);
    const around = allRound(convection(AIR_C, (biot * SOLID.conductivity) / RADIUS_M));
    march(stepper, state, around, 60 * minutes, COOK_STEPS);
    for (const [station, at] of atM.entries()) {
      if (Math.min(at, LENGTH_M - at) < FROM_END_M) continue;
      const exact = finiteCylinderTheta({
        biot,
        fourier: (DIFFUSIVITY * 60 * minutes) / RADIUS_M ** 2,
        halfLengthRatio: LENGTH_M / 2 / RADIUS_M,
        radiusFraction: 0,
        lengthFraction: Math.abs(at - LENGTH_M / 2) / (LENGTH_M / 2),
      });
      const axisC = state.tempC[station * (body.mesh.shells + 1)];
      const gapK = Math.abs(axisC - AIR_C - (START_C - AIR_C) * exact);
      if (gapK > worst.gapK) {
        worst = { gapK, where: `${(1000 * at).toFixed(0)} mm from the end, ${minutes} min` };
      }
    }
  }
  return worst;
}

describe('a cylinder of 250 mm, 76 mm thick, all round in moving air, 200 K warmer', () => {
  test('a round cross-section is its own line', () => {
    expect(lineRadius(0.08, 1)).toBe(0.04);
    const { body, rawKg } = bodyOf(cylinder);
    expect(Math.max(...body.massFactor)).toBeCloseTo(1, 12);
    expect(Math.max(...body.radiusM)).toBeCloseTo(RADIUS_M, 12);
    expect(rawKg.reduce((a, b) => a + b)).toBeCloseTo(cylinderKg(), 12);
  });

  // Stations are few, and axial and radial heat take turns, so the gap grows with the Biot number. A roast in
  // still air is near Bi 2, in moved air near 3. From 15 min on the gap is at most 0.16 K at Bi 2 and 0.42 K at Bi 5.
  test.each([
    [0.5, 0.2],
    [1, 0.2],
    [2, 0.2],
    [5, 0.2],
  ])('Bi %f: axis within %f K at 40 stations', (biot, allowedK) => {
    const { gapK, where } = worstGap(biot, 40);
    console.log(`finite cylinder, Bi ${biot}: worst ${gapK.toFixed(3)} K, ${where}`);
    expect(gapK, where).toBeLessThan(allowedK);
  });

  test('more stations, less gap', () => {
    const gaps = [16, 24, 40].map((stations) => worstGap(2, stations).gapK);
    console.log(`finite cylinder, Bi 2, 16, 24, 40 stations: ${gaps.map((k) => k.toFixed(2))} K`);
    expect(gaps[1]).toBeLessThan(gaps[0]);
    expect(gaps[2]).toBeLessThan(gaps[1]);
  });
});

const cylinderKg = (): number => Math.PI * RADIUS_M ** 2 * LENGTH_M * SOLID.density;

test('closed form: heat between two stations passes two unlike half lengths in series', () => {
  const [coldK, hotK] = [0.2, 2]; // W/(m K) at 0 and 100 °C
  const table = new Float64Array(2 * ROW);
  table[2] = coldK;
  table[3] = hotK - coldK;
  table[6] = 1;
  const solid: Meat = { ...constantSolid(1, 1000, 3500), table, lowC: 0, perK: 0.01, rows: 2 };
  const mesh = radialMesh(4, 1);
  const lengthM = Float64Array.of(0.01, 0.03);
  const body: Body = {
    mesh,
    stations: 2,
    radiusM: Float64Array.of(0.04, 0.04),
    lengthM,
    sideM2: lengthM.map((length) => 2 * Math.PI * 0.04 * length),
    massFactor: Float64Array.of(1, 1),
    endsExposed: false,
    axial: true,
  };
  const state = uniformState(body, solid, 0);
  for (const field of [state.tempC, state.previousC]) field.fill(100, mesh.shells + 1);
  const nothing = allRound(convection(50, 0));
  const stepS = 1e-3;
  new Stepper(body, solid).step(state, stepS, nothing, nothing, nothing);
  for (const [shell, share] of mesh.share.entries()) {
    const areaM2 = share * Math.PI * 0.04 ** 2;
    const gainedJ = state.tempC[shell] * 1000 * areaM2 * lengthM[0] * 3500;
    const series = (lengthM[0] / coldK + lengthM[1] / hotK) / 2 / areaM2;
    expect(gainedJ / ((100 / series) * stepS)).toBeCloseTo(1, 5);
  }
});
