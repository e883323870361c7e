import { cookedRequest, type Plan, type PriorChanges, quickInterval } from '@roastsim/core';
import type { Forecast } from './forecast.js';

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
