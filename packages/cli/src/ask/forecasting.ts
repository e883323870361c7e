import {
  cookedRequest,
  type Plan,
  type PriorChanges,
  quickInterval,
  withEarlierLook,
} from '@roastsim/core';
import type { PlanOrder } from '../read/planOptions.js';
import type { Forecast } from './forecast.js';
import type { Planned } from './planned.js';

/** Whether the heat ends by the clock, as an option or a stage line says: then nothing about its minutes is in doubt. */
export const goesByClock = ({ request: { pull } }: PlanOrder): boolean =>
  pull !== undefined && 'minutes' in pull;

/**
 * The range of a plan's pull: estimated in a few milliseconds, or from the full ensemble when a share is asked for. Nothing
 * where the pull comes before the middle has warmed.
 *
 * @param sure - share the range covers
 */
export async function forecastOf(
  plan: Plan,
  options: { readonly priors?: PriorChanges; readonly sure?: number },
): Promise<Forecast | undefined> {
  const { sure: level, priors } = options;
  const known = priors === undefined ? {} : { priors };
  const request = cookedRequest(plan);
  const interval = quickInterval(plan, request, known);
  if (interval === undefined) return undefined;
  if (level === undefined) return { interval };
  const { sureForecast } = await import('./sureForecast.js');
  return sureForecast(plan, request, level, known);
}

/** A plan with its range, and with a first look that comes early enough for it; a plan that has no range stays as it is. */
export async function ranged(
  planned: Planned,
  order: PlanOrder,
  options: { readonly priors?: PriorChanges },
): Promise<Planned> {
  if (goesByClock(order)) return planned;
  const forecast = await forecastOf(planned.plan, options);
  if (forecast === undefined) return planned;
  const { interval } = forecast;
  return { ...planned, plan: withEarlierLook(planned.plan, interval), range: interval };
}
