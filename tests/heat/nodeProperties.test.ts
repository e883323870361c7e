import {
  conductivity,
  heatCapacity,
  heatContent,
  meatOf,
  radialMesh,
  singleLine,
  uniformState,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { BEEF_CRUST, lineVolume } from '../../packages/core/src/heat/index.js';
import { NodeProperties } from '../../packages/core/src/heat/nodeProperties.js';
import { LEDGER } from '../../packages/core/src/heat/state.js';

const MEAT = meatOf();
const RADIUS_M = 0.04;
const STEP_S = 20;
const WATER_HEAT = 4180; // J/(kg·K)

/** A line at one temperature and what it is made of for a step. */
function made(
  exponent: 0 | 1 | 2,
  tempC: number,
  change: { deficit?: number; water?: number } = {},
) {
  const body = singleLine(radialMesh(16, exponent), RADIUS_M);
  const state = uniformState(body, MEAT, tempC);
  state.water.fill(change.water ?? MEAT.waterFraction);
  state.deficit.fill(change.deficit ?? 0);
  const water = state.water.slice();
  const properties = new NodeProperties(body, MEAT, BEEF_CRUST);
  properties.update(state, STEP_S);
  return { body, state, properties, water, kg: MEAT.densityKgPerM3 * lineVolume(body, 0) };
}

const sum = (values: Float64Array): number => values.reduce((a, b) => a + b, 0);

describe('what nodes are made of', () => {
  test.each([0, 1, 2] as const)(
    'a dry crust takes the heat of its water from the shells it covers, shape exponent %i',
    (exponent) => {
      const wet = made(exponent, 20);
      const depthM = 0.0037; // ends within a shell
      const dry = made(exponent, 20, { deficit: BEEF_CRUST.removableWater * depthM });
      const inner = 1 - depthM / RADIUS_M;
      const dried = 1 - inner ** (exponent + 1);
      const heat = WATER_HEAT * BEEF_CRUST.removableWater * lineVolume(wet.body, 0) * dried;
      const { capacity } = dry.properties;
      expect((sum(wet.properties.capacity) - sum(capacity)) / heat).toBeCloseTo(1, 10);
      // and only from those
      const { face, shells } = wet.body.mesh;
      for (let j = 0; j <= shells; j++) {
        if (face[j] < inner) expect(capacity[j]).toBe(wet.properties.capacity[j]);
        else expect(capacity[j]).toBeLessThan(wet.properties.capacity[j]);
      }
    },
  );

  test('even dry through, some heat capacity stays', () => {
    const { properties, body, kg } = made(1, 20, {
      deficit: BEEF_CRUST.removableWater * RADIUS_M,
    });
    for (const [j, capacity] of properties.capacity.entries()) {
      expect(capacity).toBeGreaterThanOrEqual(0.15 * 3500 * kg * body.mesh.share[j] * (1 - 1e-12));
    }
  });

  test('juice takes its own heat content along', () => {
    const { state, water, body, kg } = made(1, 72);
    const leftKg =
      kg * state.water.reduce((all, w, j) => all + body.mesh.share[j] * (water[j] - w), 0);
    expect(leftKg).toBeGreaterThan(0);
    const perKg = heatContent(MEAT, 72, 1) - heatContent(MEAT, 72, 0); // of water alone
    expect(state.ledger[LEDGER.juice] / (leftKg * perKg)).toBeCloseTo(1, 12);
  });

  test('in mid-step half of what leaves is still there', () => {
    const { state, water, properties, body, kg } = made(1, 72);
    for (const [j, now] of state.water.entries()) {
      const m = (water[j] + now) / 2;
      const share = kg * body.mesh.share[j];
      expect(properties.capacity[j] / (share * heatCapacity(MEAT, 72, m))).toBeCloseTo(1, 12);
      expect(properties.conductivity[j] / conductivity(MEAT, 72, m)).toBeCloseTo(1, 12);
    }
  });

  test('water that is no longer held leaves, and no more', () => {
    const drier = made(1, 72, { water: 0.3 }); // less than is held at 72 °C
    expect(drier.state.water).toEqual(drier.water);
    expect(drier.state.ledger[LEDGER.juice]).toBe(0);
  });

  test.each([
    [MEAT.lowC - 30, MEAT.lowC],
    [MEAT.lowC + (MEAT.rows - 1) / MEAT.perK + 40, MEAT.lowC + (MEAT.rows - 1) / MEAT.perK],
  ])('at %f °C, beyond the table, properties are those of its end, %f °C', (tempC, endC) => {
    const beyond = made(1, tempC, { water: 0.3 });
    const end = made(1, endC, { water: 0.3 });
    expect(beyond.properties.conductivity[3]).toBeCloseTo(end.properties.conductivity[3], 12);
    expect(beyond.properties.capacity[3] / end.properties.capacity[3]).toBeCloseTo(1, 12);
  });

  test('properties are taken where the step before points to', () => {
    const { state, properties } = made(1, 30);
    state.tempC.fill(34); // 4 K up in the step before
    state.lastStepS = 10;
    properties.update(state, STEP_S);
    // half of a step of 20 s at 4 K in 10 s
    expect(properties.conductivity[5] / conductivity(MEAT, 38, state.water[5])).toBeCloseTo(1, 6);
  });
});
