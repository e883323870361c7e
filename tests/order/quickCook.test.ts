import {
  type Plan,
  type PlanRequest,
  planCook,
  roastIn,
  tenderloin,
  USUAL_COOK,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { quickCook } from '../../packages/core/src/order/index.js';

const cookAt = (ovenC: number, doneness: string): PlanRequest => ({
  ...USUAL_COOK,
  heat: roastIn({ ovenC, until: { minutes: 0 } }),
  aim: { doneness },
});

const peaksOf = ({ slices }: Plan): number[] => slices.map(({ peakCentreC }) => peakCentreC);
const spreadOf = (plan: Plan): number => Math.max(...peaksOf(plan)) - Math.min(...peaksOf(plan));
const missOf = (plan: Plan): number =>
  Math.sqrt(
    peaksOf(plan).reduce((sum, peak) => sum + (peak - plan.aim.targetC) ** 2, 0) /
      plan.slices.length,
  );
const inBandOf = ({ slices, aim }: Plan): number =>
  slices.filter(({ band }) => band === aim.band.name).length;

// The default mesh is the reference. The rows are the usual ones and, at the end, those that differed most in each figure among
// all cuts at three of their usual weights, ovens of 120, 175, 230 and 260 °C, rare to well-done.
describe('the quick mesh against the default one', () => {
  test.each([
    ['centre', 0.7, 230, 'medium-rare'],
    ['centre', 1.85, 230, 'medium-rare'],
    ['butt', 0.9, 230, 'medium-rare'],
    ['whole', 1.2, 230, 'rare'],
    ['whole', 2.2, 230, 'medium-rare'],
    ['whole', 2.2, 175, 'medium'],
    ['whole', 3.2, 120, 'medium-rare'],
    ['centre', 2, 120, 'well-done'],
    ['butt', 0.4, 120, 'well-done'],
    ['whole', 3.2, 260, 'medium'],
  ] as const)('%s, %f kg at %i °C, %s', (cut, massKg, ovenC, doneness) => {
    const cook = cookAt(ovenC, doneness);
    const quick = quickCook({ cut, massKg }, cook);
    const full = planCook(tenderloin({ cut, massKg }), cook);
    expect(Math.abs(quick.loss.fraction - full.loss.fraction)).toBeLessThan(0.011);
    expect(Math.abs(quick.pull.minutes / full.pull.minutes - 1)).toBeLessThan(0.03);
    expect(Math.abs(spreadOf(quick) - spreadOf(full))).toBeLessThan(2.6);
    expect(Math.abs(missOf(quick) - missOf(full))).toBeLessThan(1.25);
    expect(Math.abs(inBandOf(quick) - inBandOf(full))).toBeLessThanOrEqual(2);
  });
});
