import { inAir, meatOf, radialMesh, Stepper, singleLine, uniformState } from '@roastsim/core';
import { expect, test } from 'vitest';
import { lineVolume } from '../../packages/core/src/heat/index.js';

// A strip as thick as a pencil, three hours in a hot fan oven: far beyond any cook.
test('a thin tip dries until three quarters of the water that is not juice have left by its side, and no further', () => {
  const meat = meatOf();
  const body = singleLine(radialMesh(16, 1), 0.004);
  const state = uniformState(body, meat, 5);
  const side = inAir({
    airC: 200,
    wallC: 200,
    filmWPerM2K: 25,
    radiationFactor: 0.9,
    vapourPa: 1500,
  });
  const around = { side, ends: side };
  const stepper = new Stepper(body, meat);
  for (let step = 0; step < 3 * 180; step++) stepper.step(state, 20, around, around, around);

  const kg = meat.densityKgPerM3 * lineVolume(body, 0);
  const dryableKg = kg * (meat.waterFraction - meat.holding.amplitude);
  expect((state.deficit[0] * body.sideM2[0]) / (0.75 * dryableKg)).toBeCloseTo(1, 6);
  const lostKg = state.evaporatedKg[0] + state.drippedKg[0];
  expect(lostKg).toBeLessThan(kg * meat.waterFraction);
  expect(lostKg).toBeGreaterThan(0.75 * kg * meat.waterFraction);
});
