import {
  cookedRequest,
  type Ensemble,
  type Narrowing,
  type Plan,
  type PriorChanges,
  type QuickInterval,
  quickInterval,
} from '@roastsim/core';

/** How surely a plan's pull is known. */
export interface Forecast {
  readonly interval: QuickInterval;
  /** Where it was asked for. */
  readonly sure?: SureForecast;
}

/** A plan cooked many times over. */
export interface SureForecast {
  readonly level: number;
  readonly seed: number;
  readonly ensemble: Ensemble;
  readonly narrowings: readonly Narrowing[];
}

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
