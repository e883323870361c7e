import { type CookOptions, type History, planWithoutPutBack, simulate } from '@roastsim/core';
import type { PlanCase } from './cases.js';
import { aimOf, figuresOf, type PlanFigures } from './figures.js';

// where the references begin; their own, so that another default leaves them as they are
const STATIONS = 40;
const SHELLS = 32;
const LONGEST_STEP_S = 20;
const FIRST_STEP_S = 1;
const MET_K = 1e-5;
const TRIES = 12;

/** 40 stations, 32 shells and steps up to 20 s, refined by a factor: so many times the stations and shells, steps so much shorter. */
export const refined = (times: number): CookOptions => ({
  stations: times * STATIONS,
  shells: times * SHELLS,
  longestStepS: LONGEST_STEP_S / times,
  firstStepS: FIRST_STEP_S / times,
});

/** A case as a person gets it: default mesh, default steps, the library's own search for the pull. */
export const solvedByDefault = (one: PlanCase): PlanFigures =>
  figuresOf(one, planWithoutPutBack(one.roast, one.request).history);

/**
 * A case solved on a refined mesh. Where the pull is not given, it is the one after which the aimed-at slice peaks on target to
 * 1e-5 K: a tighter search than the library's, so that its tolerance counts among the errors of the default.
 *
 * @throws Error when the search does not settle
 */
export function solvedFinely(one: PlanCase, times: number): PlanFigures {
  const { roast, request } = one;
  const options = refined(times);
  if (request.pull !== undefined) {
    return figuresOf(one, planWithoutPutBack(roast, request, options).history);
  }
  const { before, heat, after } = request;
  const { targetC } = aimOf(one);
  const cook = (minutes: number): History =>
    simulate(roast, [...before, { ...heat, until: { minutes } }, ...after], options);
  // the default's pull and one a little earlier begin a secant
  let { pullMinutes } = solvedByDefault(one);
  let figures = figuresOf(one, cook(pullMinutes));
  let miss = figures.peakC - targetC;
  let earlierMinutes = 0.99 * pullMinutes;
  let earlierMiss = figuresOf(one, cook(earlierMinutes)).peakC - targetC;
  for (let tries = 0; Math.abs(miss) > MET_K; tries++) {
    if (tries === TRIES) throw new Error(`${one.id}: the pull does not settle`);
    const next = pullMinutes - (miss * (pullMinutes - earlierMinutes)) / (miss - earlierMiss);
    earlierMinutes = pullMinutes;
    earlierMiss = miss;
    pullMinutes = next;
    figures = figuresOf(one, cook(pullMinutes));
    miss = figures.peakC - targetC;
  }
  return figures;
}
