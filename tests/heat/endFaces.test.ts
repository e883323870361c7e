import {
  type Body,
  bodyOf,
  inAir,
  latentHeat,
  meatOf,
  Stepper,
  type Surroundings,
  tenderloin,
  uniformState,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { EndFaces } from '../../packages/core/src/heat/endFaces.js';
import { BEEF_CRUST, SurfaceLaw } from '../../packages/core/src/heat/index.js';
import { NodeProperties } from '../../packages/core/src/heat/nodeProperties.js';
import { LEDGER } from '../../packages/core/src/heat/state.js';

const MEAT = meatOf();
const STEP_S = 20;
const ROAST = tenderloin({ massKg: 1.1, cut: 'centre' });
const AIR = inAir({
  airC: 180,
  wallC: 190,
  filmWPerM2K: 9,
  radiationFactor: 0.9,
  vapourPa: 2500,
});
const SEALED: Surroundings = { ...AIR, vapourResistance: Number.POSITIVE_INFINITY };

/** The end faces of a short centre roast, made at one temperature and seen for one step at the same or another. */
function seen(tempC: number, around: Surroundings, deficit = 0, shellC = tempC) {
  const { body } = bodyOf(ROAST, { stations: 6, shells: 10 });
  const state = uniformState(body, MEAT, tempC);
  state.endDeficit.fill(deficit);
  const properties = new NodeProperties(body, MEAT, BEEF_CRUST);
  properties.update(state, STEP_S);
  state.tempC.fill(shellC);
  const ends = new EndFaces(body, MEAT, properties, new SurfaceLaw(BEEF_CRUST));
  const before = state.endDeficit.slice();
  ends.straighten(state, STEP_S, around);
  return { body, state, properties, ends, before };
}

const station = (body: Body, end: number): number => (end === 0 ? 0 : body.stations - 1);
const faceM2 = (body: Body, end: number): number => Math.PI * body.radiusM[station(body, end)] ** 2;

/** What a disc lets in at a temperature, by a law of its own. */
function lawAt(around: Surroundings, deficit: number, juice: number, discC: number): SurfaceLaw {
  const law = new SurfaceLaw(BEEF_CRUST);
  law.face(around);
  law.begin(deficit, juice, 0, 0, Number.POSITIVE_INFINITY);
  law.at(discC);
  return law;
}

describe('the discs of the end faces', () => {
  test.each([
    ['fresh', 12, AIR, 0],
    ['drying', 70, AIR, 0.4],
    ['sealed', 40, SEALED, 0],
  ])('%s: what comes in from outside goes on into the shell', (_, tempC, around, deficit) => {
    const { body, state, properties, ends } = seen(tempC, around, deficit);
    const count = body.mesh.shells + 1;
    for (let end = 0; end < 2; end++) {
      const at = station(body, end);
      for (let j = 0; j < count; j++) {
        const slot = end * count + j;
        const conductance = properties.conductivity[at * count + j] / (body.lengthM[at] / 2);
        const discC = state.discC[slot];
        const { heat } = lawAt(around, deficit, properties.juiceKgPerM2S[at], discC);
        const inward = conductance * (discC - tempC);
        expect(Math.abs(inward / heat - 1)).toBeLessThan(1e-5);
        const line = ends.heatW[slot] + ends.slopeWPerK[slot] * tempC;
        expect(line / (faceM2(body, end) * body.mesh.share[j] * inward)).toBeCloseTo(1, 9);
      }
    }
  });

  test('the slope is what a warmer shell changes, the disc settling anew', () => {
    const [cool, warm] = [30, 32].map((shellC) => seen(30, AIR, 0.3, shellC));
    for (const [slot, slope] of cool.ends.slopeWPerK.entries()) {
      const lineAt = ({ ends }: typeof cool, tempC: number): number =>
        ends.heatW[slot] + ends.slopeWPerK[slot] * tempC;
      const change = (lineAt(warm, 32) - lineAt(cool, 30)) / 2;
      const mean = (slope + warm.ends.slopeWPerK[slot]) / 2;
      expect(Math.abs(change / mean - 1)).toBeLessThan(0.01);
      expect(slope).toBeLessThan(0);
    }
  });

  test('what evaporates is booked: as heat, as water of each end, as a rate', () => {
    const deficit = 0.3;
    const { body, state, properties, ends, before } = seen(75, AIR, deficit);
    const count = body.mesh.shells + 1;
    let rate = 0;
    let latentW = 0;
    for (let end = 0; end < 2; end++) {
      const at = station(body, end);
      const juice = properties.juiceKgPerM2S[at];
      let evaporation = 0;
      for (let j = 0; j < count; j++) {
        const discC = state.discC[end * count + j];
        const { evaporation: of } = lawAt(AIR, deficit, juice, discC);
        evaporation += body.mesh.share[j] * of;
        latentW += faceM2(body, end) * body.mesh.share[j] * of * latentHeat(discC);
      }
      const trueM2 = body.massFactor[at] * faceM2(body, end);
      rate += trueM2 * evaporation;
      expect(state.endEvaporatedKg[end] / (trueM2 * evaporation * STEP_S)).toBeCloseTo(1, 4);
      expect(state.endDeficit[end] - before[end]).toBeCloseTo(STEP_S * (evaporation - juice), 5);
      expect(state.endDrippedKg[end]).toBeCloseTo(0, 12);
    }
    expect(ends.evaporationKgPerS / rate).toBeCloseTo(1, 4);
    expect(state.ledger[LEDGER.latent] / (latentW * STEP_S)).toBeCloseTo(1, 4);
    expect(state.ledger[LEDGER.heatIn] / (latentW * STEP_S)).toBeCloseTo(1, 4);
  });

  test('a sealed face loses no water: what reaches it drips', () => {
    const { body, state, properties, ends } = seen(75, SEALED, 0.3);
    expect(ends.evaporationKgPerS).toBe(0);
    for (let end = 0; end < 2; end++) {
      const at = station(body, end);
      expect(state.endDeficit[end]).toBe(0.3);
      const juiceKg = properties.juiceKgPerM2S[at] * STEP_S;
      expect(juiceKg).toBeGreaterThan(0);
      const drippedKg = body.massFactor[at] * faceM2(body, end) * juiceKg;
      expect(state.endDrippedKg[end] / drippedKg).toBeCloseTo(1, 9);
    }
  });

  test('a face dries until a quarter of the dryable water within its radius is gone', () => {
    const { body } = bodyOf(tenderloin({ massKg: 0.1, cut: 'tail' }), { stations: 4, shells: 8 });
    const state = uniformState(body, MEAT, 5);
    const stepper = new Stepper(body, MEAT);
    const around = { side: AIR, ends: AIR };
    for (let step = 0; step < 4 * 180; step++) stepper.step(state, 20, around, around, around);
    const dryable = MEAT.densityKgPerM3 * (MEAT.waterFraction - MEAT.holding.amplitude);
    for (let end = 0; end < 2; end++) {
      const most = 0.25 * dryable * body.radiusM[station(body, end)];
      expect(state.endDeficit[end]).toBeLessThanOrEqual(most * 1.02);
      expect(state.endDeficit[end]).toBeGreaterThan(0.9 * most);
    }
  });
});

describe('a step', () => {
  test('without end faces heat only moves along the axis', () => {
    const { body: whole } = bodyOf(ROAST, { stations: 8, shells: 6 });
    const body: Body = { ...whole, endsExposed: false };
    const state = uniformState(body, MEAT, 20);
    const count = body.mesh.shells + 1;
    for (let at = 0; at < 4 * count; at++) state.tempC[at] = state.previousC[at] = 50;
    const shut: Surroundings = { ...SEALED, filmWPerM2K: 0, radiationFactor: 0 };
    const around = { side: shut, ends: shut };
    const stepper = new Stepper(body, MEAT);
    for (let step = 0; step < 600; step++) stepper.step(state, 20, around, around, around);
    expect(Math.abs(state.ledger[LEDGER.heatIn])).toBeLessThan(1e-6);
    expect(Math.abs(state.ledger[LEDGER.stored])).toBeLessThan(1e-3); // J, of some 30 kJ that moved
    const axis = Array.from({ length: 8 }, (_, i) => state.tempC[i * count]);
    expect(axis).toEqual([...axis].sort((a, b) => b - a));
    expect(axis[0]).toBeLessThan(50);
    expect(axis[7]).toBeGreaterThan(20);
  });

  test('keeps the hottest that each node has been', () => {
    const { body } = bodyOf(ROAST, { stations: 4, shells: 6 });
    const state = uniformState(body, MEAT, 5);
    const stepper = new Stepper(body, MEAT);
    const cold = inAir({ airC: 5, wallC: 5, filmWPerM2K: 20, radiationFactor: 0.9, vapourPa: 600 });
    const hottest = state.tempC.slice();
    for (let step = 0; step < 90; step++) {
      const air = step < 60 ? AIR : cold;
      const around = { side: air, ends: air };
      stepper.step(state, 20, around, around, around);
      for (const [at, now] of state.tempC.entries()) hottest[at] = Math.max(hottest[at], now);
    }
    expect(state.hottestC).toEqual(hottest);
    expect(state.tempC[6]).toBeLessThan(hottest[6] - 20);
  });
});
