import {
  cookedRequest,
  type Plan,
  type PriorChanges,
  quickInterval,
  withEarlierLook,
} from '@roastsim/core';
import type { PlanWords } from '../read/planOptions.js';
import type { Forecast } from './forecast.js';
import type { Planned } from './planned.js';

/**
 * The range of a plan's pull: estimated in a few milliseconds, or from the full ensemble when a share is asked for.
 *
 * @param sure - share the range covers
 */
export async function forecastOf(
  plan: Plan,
  options: { readonly priors?: PriorChanges; readonly sure?: number },
): Promise<Forecast> {
  const { sure: level, priors } = options;
  const known = priors === undefined ? {} : { priors };
  const request = cookedRequest(plan);
  if (level === undefined) return { interval: quickInterval(plan, request, known) };
  const { sureForecast } = await import('./sureForecast.js');
  return sureForecast(plan, request, level, known);
}

/** A plan with its range, and with a first look that comes early enough for it; a plan that goes by the clock stays as it is. */
export async function ranged(
  planned: Planned,
  { time }: PlanWords,
  options: { readonly priors?: PriorChanges },
): Promise<Planned> {
  if (time !== undefined) return planned;
  const { interval } = await forecastOf(planned.plan, options);
  return { ...planned, plan: withEarlierLook(planned.plan, interval), range: interval };
}
