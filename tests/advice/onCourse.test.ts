import {
  adviseOnCourse,
  type Belief,
  type CourseAdvice,
  type CourseGround,
  cookedRequest,
  courseGround,
  type PlanRequest,
  planCook,
  rest,
  roastIn,
  temper,
  tenderloin,
  waterBath,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';

const until = { minutes: 0 };
const roast = tenderloin({ massKg: 2.2 });
const request: PlanRequest = {
  before: [temper({ minutes: 30 })],
  heat: roastIn({ ovenC: 200, until }),
  after: [rest({ minutes: 20 })],
};
const MESH = { stations: 12, shells: 16 } as const;
const plan = planCook(roast, request, MESH);
const ground = courseGround(plan, cookedRequest(plan));

type Turn = Extract<CourseAdvice, { stay: unknown }>;
const turned = (of: CourseGround, lateMinutes: number, beliefs: readonly Belief[] = []): Turn => {
  const [advice] = adviseOnCourse(of, { nowMinutes: 20, centreC: 12, beliefs, lateMinutes });
  if (advice === undefined || advice.code === 'pull-now') throw new Error('no turn was advised');
  return advice;
};

describe('a cook that is late or early', () => {
  test('a hotter oven is sooner, pulled earlier, and less even; the more the hotter', () => {
    const { code, stay, changes } = turned(ground, 12);
    expect(code).toBe('hotter');
    expect(changes.map(({ ovenC }) => ovenC)).toEqual([220, 240]);
    const [a, b, c] = [stay, ...changes];
    for (const [cooler, hotter] of [
      [a, b],
      [b, c],
    ]) {
      expect(hotter.minutes).toBeLessThan(cooler.minutes);
      expect(hotter.pullC).toBeLessThan(cooler.pullC);
      expect(hotter.rimMm).toBeGreaterThan(cooler.rimMm);
      expect(hotter.spreadK).toBeGreaterThan(cooler.spreadK);
      expect(hotter.gainMinutes).toBeCloseTo(stay.minutes - hotter.minutes, 9);
    }
  });

  test('a cooler oven is later and more even', () => {
    const { code, stay, changes } = turned(ground, -12);
    expect(code).toBe('cooler');
    expect(changes.map(({ ovenC }) => ovenC)).toEqual([180, 160]);
    expect(changes[1].gainMinutes).toBeLessThan(changes[0].gainMinutes);
    expect(changes[0].gainMinutes).toBeLessThan(0);
    expect(changes[1].rimMm).toBeLessThan(stay.rimMm);
  });

  test('ways out aim at the peak of the better pull where there is one', () => {
    const betterPull = { centreC: plan.pull.centreC + 3, minutes: plan.pull.minutes + 3 };
    const [advice] = adviseOnCourse(ground, {
      nowMinutes: 20,
      centreC: 12,
      beliefs: [],
      lateMinutes: 12,
      betterPull,
    });
    if (advice === undefined || advice.code === 'pull-now') throw new Error('no turn was advised');
    const { stay, changes } = turned(ground, 12);
    expect(advice.stay.pullC).toBeCloseTo(betterPull.centreC, 6);
    expect(advice.stay.minutes).toBeGreaterThan(stay.minutes);
    expect(advice.changes[0].pullC).toBeGreaterThan(changes[0].pullC + 1);
  });

  test('past the planned pull there is nothing to hurry for while a hotter better one is to come', () => {
    const past = (aboveK: number): CourseAdvice | undefined =>
      adviseOnCourse(ground, {
        nowMinutes: plan.pull.minutes,
        centreC: plan.pull.centreC + aboveK,
        beliefs: [],
        betterPull: { centreC: plan.pull.centreC + 3, minutes: plan.pull.minutes + 4 },
      })[0];
    expect(past(2)).toBeUndefined();
    expect(past(5)).toMatchObject({ code: 'pull-now', pastK: 2 });
  });

  // other program: the same cook in two oven stages, planned on a finer mesh
  test.each([220, 240])(
    'what %i °C gains agrees with a plan of both stages within a minute',
    (ovenC) => {
      const { stay, changes } = turned(ground, 12);
      const first = roastIn({ ovenC: 200, until: { minutes: 20 } });
      const twoStages = (then: number): number =>
        planCook(
          roast,
          { ...request, before: [...request.before, first], heat: roastIn({ ovenC: then, until }) },
          MESH,
        ).pull.minutes - 20;
      const gain = twoStages(200) - twoStages(ovenC);
      const change = changes.find((one) => one.ovenC === ovenC);
      expect(Math.abs((change?.gainMinutes ?? Number.NaN) - gain)).toBeLessThan(1);
      expect(Math.abs(stay.minutes - twoStages(200))).toBeLessThan(1.5);
    },
  );

  test('an oven believed to be cool takes longer', () => {
    const cool: Belief = { input: 'ovenOffset', value: -20, standardError: 4, movedBy: -2.5 };
    expect(turned(ground, 12, [cool]).stay.minutes).toBeGreaterThan(
      turned(ground, 12).stay.minutes + 2,
    );
  });

  test('nothing is said of a few minutes, nor of a bath', () => {
    const state = { nowMinutes: 20, centreC: 12, beliefs: [] };
    expect(adviseOnCourse(ground, { ...state, lateMinutes: 4.9 })).toEqual([]);
    expect(adviseOnCourse(ground, { ...state, lateMinutes: -4.9 })).toEqual([]);
    expect(adviseOnCourse(ground, state)).toEqual([]);
    const bathed = planCook(
      roast,
      { ...request, heat: waterBath({ bathC: 58, until }), aim: { doneness: 56 } },
      MESH,
    );
    const bath = courseGround(bathed, cookedRequest(bathed));
    expect(adviseOnCourse(bath, { ...state, lateMinutes: 30 })).toEqual([]);
  });

  test('never an oven beyond 60 to 260 °C', () => {
    const hot = planCook(roast, { ...request, heat: roastIn({ ovenC: 230, until }) }, MESH);
    const { changes } = turned(courseGround(hot, cookedRequest(hot)), 12);
    expect(changes.map(({ ovenC }) => ovenC)).toEqual([250]);
  });

  test('under the strict rules no setting is pulled below the whole-cut guidance', () => {
    const strict = planCook(roast, { ...request, atRisk: true }, MESH);
    const { changes, stay } = turned(courseGround(strict, cookedRequest(strict)), 12);
    for (const { pullC } of [stay, ...changes]) expect(pullC).toBeGreaterThanOrEqual(62.7);
  });
});

describe('a roast past its pull', () => {
  const past = (centreC: number): readonly CourseAdvice[] =>
    adviseOnCourse(ground, { nowMinutes: plan.pull.minutes + 5, centreC, beliefs: [] });

  test('comes out now, and peaks lower without foil', () => {
    const [advice] = past(plan.pull.centreC + 5);
    if (advice?.code !== 'pull-now') throw new Error('it was not told to come out');
    expect(advice.pastK).toBeCloseTo(5, 9);
    expect(advice.openPeakC).toBeLessThan(advice.peakC - 0.3);
    expect(advice.peakC).toBeGreaterThan(plan.peak.centreC + 1);
    expect(advice.openPeakC).toBeGreaterThan(plan.pull.centreC + 5);
  });

  test('is not told of a thermometer’s flicker', () => {
    expect(past(plan.pull.centreC + 0.9)).toEqual([]);
    expect(past(Number.NaN)).toEqual([]);
  });
});
