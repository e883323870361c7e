import { fitLog, type PlanRequest, planCook, type Reading, type Until } from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { library } from '../support/insideLibrary.js';
import { syntheticLog, tryBetterPulls } from '../support/syntheticLog.mjs';

describe('the better pull', () => {
  test('brings true peaks nearer to the plan than the planned pull does', () => {
    const seeds = Array.from({ length: 30 }, (_, i) => 1_200_000 + i);
    const offered = tryBetterPulls(library, seeds, 0.75).filter((cook) => cook.offered);
    const mean = (of: (cook: (typeof offered)[number]) => number): number =>
      offered.reduce((sum, cook) => sum + of(cook), 0) / offered.length;
    const plannedK = mean(({ planned }) => Math.abs(planned));
    const betterK = mean(({ better }) => Math.abs(better));
    console.log(
      `better pull: offered in ${offered.length} of ${seeds.length}, mean miss ${plannedK.toFixed(2)} K planned, ${betterK.toFixed(2)} K with it`,
    );
    expect(offered.length).toBeGreaterThan(8);
    expect(betterK).toBeLessThan(0.75 * plannedK);
  });

  // an oven 25 K cooler than set: less lead of the outside, less climb
  const log = syntheticLog(library, 700_001);
  const { roast, request, plan } = log;
  const seen = (
    offsetK: number,
    ofRequest: PlanRequest = request,
    ofPlan = plan,
    until: Until = { minutes: 0.8 * ofPlan.pull.minutes },
  ): Reading[] => {
    const { roast: other, options } = library.varied(
      roast,
      {},
      { ...library.NO_DEVIATION, ovenOffset: offsetK },
    );
    const run = new library.CookRun(other, { ...options, stations: 16, shells: 16 });
    for (const stage of ofRequest.before) run.run(stage);
    const startS = run.atS;
    const readings: Reading[] = [];
    const onStep = (): boolean => {
      readings.push({
        minutes: (run.atS - startS) / 60,
        centreC: run.temperatureOf(ofPlan.aim.point),
        ovenC: ofRequest.heat.kind === 'roast' ? ofRequest.heat.ovenC + offsetK : Number.NaN,
      });
      return false;
    };
    run.run({ ...ofRequest.heat, until }, { onStep });
    return readings;
  };

  test('is hotter in a cool oven and cooler in a hot one, and its time goes with it', () => {
    const cool = fitLog(roast, request, seen(-25), { plan });
    expect(cool.peakC.likely).toBeLessThan(plan.peak.centreC - 1);
    expect(cool.betterPull?.centreC).toBeGreaterThan(plan.pull.centreC + 1);
    expect(cool.betterPull?.minutes).toBeGreaterThan(cool.pullMinutes.likely);
    const hot = fitLog(roast, request, seen(25), { plan });
    expect(hot.peakC.likely).toBeGreaterThan(plan.peak.centreC + 1);
    expect(hot.betterPull?.centreC).toBeLessThan(plan.pull.centreC - 1);
    expect(hot.betterPull?.minutes).toBeLessThan(hot.pullMinutes.likely);
  });

  test('stays what it was while readings go on past the planned pull', () => {
    const at = plan.aim.point;
    const pullC = plan.pull.centreC;
    const near = fitLog(roast, request, seen(-25, request, plan, { reachesC: pullC - 1, at }), {
      plan,
    });
    const past = fitLog(roast, request, seen(-25, request, plan, { reachesC: pullC + 1.5, at }), {
      plan,
    });
    expect(near.betterPull?.centreC).toBeGreaterThan(pullC + 1.5);
    expect(past.betterPull?.centreC).toBeCloseTo(near.betterPull?.centreC ?? Number.NaN, 0);
    // a cook that went as planned and was left in has no better pull, and its peak is that of a pull now
    const left = fitLog(roast, request, seen(0, request, plan, { reachesC: pullC + 3, at }), {
      plan,
    });
    expect(left.betterPull).toBeUndefined();
    expect(left.peakC.likely).toBeGreaterThan(plan.peak.centreC + 1);
  });

  test('is not offered where the planned one does, once the roast is out, or for a pull of the own choice', () => {
    expect(fitLog(roast, request, seen(0), { plan }).betterPull).toBeUndefined();
    const out = { plan, pulledAtMinutes: plan.pull.minutes };
    expect(fitLog(roast, request, seen(-25), out).betterPull).toBeUndefined();
    const own = planCook(roast, { ...request, pull: { centreC: plan.pull.centreC - 4 } });
    expect(fitLog(roast, request, seen(-25), { plan: own }).betterPull).toBeUndefined();
  });

  test('is never offered where safety decides the pull', () => {
    const strict = { ...request, atRisk: true, aim: {} };
    const safe = planCook(roast, strict, { stations: 16, shells: 16 });
    expect(safe.aim.at).toBe('coldest');
    const fit = fitLog(roast, strict, seen(-25, strict, safe), { plan: safe });
    expect(fit.betterPull).toBeUndefined();
  });
});
