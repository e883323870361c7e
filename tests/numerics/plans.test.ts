import { DEFAULT_SHELLS, DEFAULT_STATIONS, rest, simulate } from '@roastsim/core';
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

test('the defaults are within 0.5 % of the time and 0.15 °C', () => {
  for (const one of PLAN_CASES) {
    const found = solvedByDefault(one);
    const { figures } = PLAN_REFERENCES[one.id];
    const minutes = figures.pullMinutes.value;
    expect(Math.abs(found.pullMinutes / minutes - 1), one.id).toBeLessThan(TIME_SHARE);
    for (const name of PLAN_FIGURES.filter((each) => each !== 'pullMinutes')) {
      const off = Math.abs(found[name] - figures[name].value);
      expect(off, `${one.id} ${name}`).toBeLessThan(TEMPERATURE_K);
    }
  }
});

test('the peak, which a plan promises to 0.1 °C, is within 0.03 °C where it was searched for', () => {
  for (const one of PLAN_CASES.filter(({ request }) => request.pull === undefined)) {
    const off = solvedByDefault(one).peakC - PLAN_REFERENCES[one.id].figures.peakC.value;
    expect(Math.abs(off), one.id).toBeLessThan(0.03);
  }
});

describe('how the references were made', () => {
  test('refined, a cook has finer steps and a finer mesh than any gets by default', () => {
    const stages = [rest({ minutes: 5 })];
    const [{ roast }] = PLAN_CASES;
    const [once, twice] = [1, 2].map((times) => simulate(roast, stages, refined(times)));
    expect(twice.steps).toBeGreaterThan(1.5 * once.steps);
    expect(once.steps).toBe(simulate(roast, stages).steps);
    const { stations, mesh } = twice.body.body;
    expect([stations, mesh.shells]).toEqual([80, 64]);
    expect(stations).toBeGreaterThan(DEFAULT_STATIONS);
    expect(mesh.shells).toBeGreaterThan(DEFAULT_SHELLS);
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
