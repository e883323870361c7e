import {
  type Advice,
  type PriorChanges,
  priorsFor,
  quickInterval,
  sizeKnownBy,
} from '../forecast/index.js';
import type { Plan, PlanRequest } from '../plan/index.js';

/** What a measurement would do to the interval of a plan. */
export interface Narrowing {
  readonly advice: Advice;
  /** Share of the interval's width that would go away, 0 to 1. */
  readonly share: number;
}

const OVEN_LOOK_K = 2; // what is left of the thermostat's doubt after a look at an oven thermometer. Judgement

/**
 * What measuring the girth and looking at an oven thermometer would do to the minutes of a plan: the interval computed again with
 * the doubt that is left then. The most useful first; what is measured already is left out. Empty where there is no interval.
 *
 * @throws RoastError `out-of-range` for the level
 * @example
 * whatNarrows(plan, request)[0].advice // => 'measure-girth'
 */
export function whatNarrows(
  plan: Plan,
  request: PlanRequest,
  options: { readonly level?: number; readonly priors?: PriorChanges } = {},
): Narrowing[] {
  const { heat } = request;
  const known = priorsFor(plan.roast, heat, options.priors);
  const taped = priorsFor({ ...plan.roast, tapeMassKg: plan.roast.massKg }, heat);
  const width = (priors?: PriorChanges): number => {
    const interval = quickInterval(plan, request, {
      ...options,
      ...(priors === undefined ? {} : { priors: { ...options.priors, ...priors } }),
    });
    return interval === undefined ? 0 : interval.highMinutes - interval.lowMinutes;
  };
  const now = width();
  if (!(now > 0 && now < Number.POSITIVE_INFINITY)) return [];
  const narrowed = (advice: Advice, priors: PriorChanges): Narrowing => ({
    advice,
    share: Math.max(0, 1 - width(priors) / now),
  });
  const found: Narrowing[] = [];
  if (sizeKnownBy(plan.roast) !== 'tape' && known.size.spread > taped.size.spread) {
    found.push(narrowed('measure-girth', { size: { spread: taped.size.spread } }));
  }
  if (heat.kind === 'roast' && known.ovenOffset.spread > OVEN_LOOK_K) {
    found.push(narrowed('oven-thermometer', { ovenOffset: { spread: OVEN_LOOK_K } }));
  }
  return found.sort((a, b) => b.share - a.share);
}
