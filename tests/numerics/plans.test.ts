import { CookRun, DEFAULT_SHELLS, DEFAULT_STATIONS, rest, simulate } from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { PLAN_CASES } from '../../packages/cli/src/check/plans/cases.js';
import { PLAN_FIGURES } from '../../packages/cli/src/check/plans/figures.js';
import { REFINED } from '../../packages/cli/src/check/plans/makeReference.js';
import { PLAN_REFERENCES } from '../../packages/cli/src/check/plans/reference.js';
import {
  refined,
  solvedByDefault,
  solvedFinely,
} from '../../packages/cli/src/check/plans/solve.js';

// Finer solutions of this library, extrapolated: data/reference/plans.json says how. They speak for mesh, steps and search alone.
const TIME_SHARE = 0.005;
const TEMPERATURE_K = 0.15;

test('thirty plans, and a reference for each', () => {
  expect(PLAN_CASES.length).toBe(30);
  expect(Object.keys(PLAN_REFERENCES)).toEqual(PLAN_CASES.map(({ id }) => id));
  for (const { id, words } of PLAN_CASES) expect(PLAN_REFERENCES[id].words).toBe(words);
  expect(REFINED).toEqual([1, 2, 4]);
});

test.each(PLAN_CASES)(
  '$words: the reference is surer than what is asked of the default',
  ({ id }) => {
    const { figures } = PLAN_REFERENCES[id];
    for (const name of PLAN_FIGURES) {
      const allowed = name === 'pullMinutes' ? TIME_SHARE * figures[name].value : TEMPERATURE_K;
      expect(figures[name].uncertainty, name).toBeLessThan(allowed / 2);
    }
  },
);

// Three temperatures of 180 miss what is asked, by 0.017 and twice (the spindle's coldest axis is the aimed-at one) 0.022 °C: centre and
// coldest axis at the pull of two plans, whose peak and time are well inside. It is the mesh: stations too far apart for straight lines
// where the axis is steep, or lowest between two. A search that ended 0.014 °C below the aim hid some of it before: 0.006 °C.
const MISSED: readonly string[] = ['thin-medium pullC', 'spindle pullC', 'spindle coldestC'];

test('the defaults are within 0.5 % of the time and 0.15 °C, but for three temperatures that are within 0.18 °C', () => {
  const missed = PLAN_CASES.flatMap((one) => {
    const found = solvedByDefault(one);
    const { figures } = PLAN_REFERENCES[one.id];
    const minutes = figures.pullMinutes.value;
    expect(Math.abs(found.pullMinutes / minutes - 1), one.id).toBeLessThan(TIME_SHARE);
    return PLAN_FIGURES.filter((name) => name !== 'pullMinutes').flatMap((name) => {
      const off = Math.abs(found[name] - figures[name].value);
      expect(off, `${one.id} ${name}`).toBeLessThan(0.18);
      return off < TEMPERATURE_K ? [] : [`${one.id} ${name}`];
    });
  });
  expect(missed).toEqual(MISSED);
});

test('the peak, which a plan promises to 0.1 °C, is within 0.03 °C where it was searched for', () => {
  for (const one of PLAN_CASES.filter(({ request }) => request.pull === undefined)) {
    const off = solvedByDefault(one).peakC - PLAN_REFERENCES[one.id].figures.peakC.value;
    expect(Math.abs(off), one.id).toBeLessThan(0.03);
  }
});

describe('how the references were made', () => {
  test('refined once is the default mesh and step', () => {
    const roast = PLAN_CASES[0].roast;
    const stages = [rest({ minutes: 5 })];
    const ours = simulate(roast, stages, refined(1));
    const usual = simulate(roast, stages);
    expect(ours.steps).toBe(usual.steps);
    expect(ours.axisC).toEqual(usual.axisC);
    const { body } = new CookRun(roast, refined(2)).body;
    expect([body.stations, body.mesh.shells]).toEqual([2 * DEFAULT_STATIONS, 2 * DEFAULT_SHELLS]);
  });

  // Anew, for the quickest two, so that the file cannot drift from the equations unnoticed.
  test.each(['spindle', 'timed'])('%s: the middle mesh gives what the file says', (id) => {
    const one = PLAN_CASES.find((each) => each.id === id);
    if (one === undefined) throw new Error(id);
    const again = solvedFinely(one, 2);
    for (const name of PLAN_FIGURES) {
      expect(
        Math.abs(again[name] - PLAN_REFERENCES[id].figures[name].refined[1]),
        name,
      ).toBeLessThan(1e-3);
    }
  });
});
