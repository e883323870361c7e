import {
  cookedRequest,
  type Plan,
  type PlanRequest,
  planCook,
  rest,
  roastIn,
  searInOven,
  seriesAt,
  stationsAround,
  temper,
  tenderloin,
  timetable,
  whatNarrows,
  withEarlierLook,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { intervalOf } from '../support/intervalOf.js';

const MESH = { stations: 12, shells: 16 } as const;
const request: PlanRequest = {
  before: [temper({ minutes: 30 })],
  heat: roastIn({ ovenC: 200, until: { minutes: 0 } }),
  after: [rest({ minutes: 20 })],
};
const roast = tenderloin({ massKg: 2.2 });
const plan = planCook(roast, request, MESH);

describe('what a measurement narrows', () => {
  test('by weight alone the tape comes first, and its share is what the interval says', () => {
    const [first, second] = whatNarrows(plan, request);
    expect(first.advice).toBe('measure-girth');
    expect(second.advice).toBe('oven-thermometer');
    const width = (spread?: number): number => {
      const { lowMinutes, highMinutes } = intervalOf(plan, request, {
        ...(spread === undefined ? {} : { priors: { size: { spread } } }),
      });
      return highMinutes - lowMinutes;
    };
    expect(first.share).toBeCloseTo(1 - width(0.03) / width(), 9);
    expect(first.share).toBeGreaterThan(0.2);
  });

  test('what is measured is not advised', () => {
    const taped = planCook(tenderloin({ massKg: 2.2, girths: [{ sizeMm: 270 }] }), request, MESH);
    expect(whatNarrows(taped, request).map(({ advice }) => advice)).toEqual(['oven-thermometer']);
    const checked = whatNarrows(plan, request, { priors: { ovenOffset: { spread: 1 } } });
    expect(checked.map(({ advice }) => advice)).toEqual(['measure-girth']);
  });
});

describe('the first look', () => {
  const heatStart = plan.pull.atMinutes - plan.pull.minutes;

  test('comes no later than the low end, with the temperature of that moment', () => {
    const lowMinutes = 0.5 * plan.pull.minutes;
    const { firstLook } = withEarlierLook(plan, { lowMinutes });
    expect(firstLook.atMinutes).toBeCloseTo(heatStart + lowMinutes, 9);
    const { history, aim } = plan;
    if (aim.point.atMm === 'coldest') throw new Error('the aim is at a place');
    const row = history.seconds.findIndex((s) => s >= 60 * firstLook.atMinutes);
    const stations = history.body.body.stations;
    const at = stationsAround(history.body, aim.point.atMm);
    expect(firstLook.centreC).toBeGreaterThanOrEqual(
      seriesAt(history.axisC, stations, row - 1, at),
    );
    expect(firstLook.centreC).toBeLessThanOrEqual(seriesAt(history.axisC, stations, row, at));
  });

  test('stays where it is early enough, and never comes before the heat', () => {
    const lowMinutes = 0.9 * plan.pull.minutes;
    const { firstLook } = withEarlierLook(plan, { lowMinutes });
    expect(firstLook.atMinutes).toBe(plan.firstLook.atMinutes);
    expect(firstLook.spareMinutes).toBeCloseTo(heatStart + lowMinutes - firstLook.atMinutes, 9);
    expect(withEarlierLook(plan, { lowMinutes: -5 }).firstLook.atMinutes).toBeCloseTo(heatStart, 9);
  });
});

test('a first look slips no further than to the earliest likely pull', () => {
  const slackOf = (looking: Plan): number | undefined =>
    timetable(looking, MESH).steps.find(({ kind }) => kind === 'first-look')?.toleranceMinutes;
  const free = slackOf(plan) ?? 0;
  expect(free).toBeGreaterThan(2);
  const looked = plan.firstLook.atMinutes - (plan.pull.atMinutes - plan.pull.minutes);
  expect(slackOf(withEarlierLook(plan, { lowMinutes: looked + 2 }))).toBe(2);
  expect(slackOf(withEarlierLook(plan, { lowMinutes: looked + 2 * free }))).toBe(free);
});

test('the stages of a plan are found again', () => {
  const seared = { ...request, before: [temper({ minutes: 30 }), searInOven()] };
  const { before, heat, after } = cookedRequest(planCook(roast, seared, MESH));
  expect(before).toEqual(seared.before);
  expect(heat).toMatchObject({ kind: 'roast', ovenC: 200 });
  expect(after).toEqual(seared.after);
});
