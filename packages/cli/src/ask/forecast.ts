import type { Ensemble, Narrowing, QuickInterval } from '@roastsim/core';

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
