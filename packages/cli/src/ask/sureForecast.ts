import {
  type Plan,
  type PlanRequest,
  type PriorChanges,
  prepareEnsemble,
  whatNarrows,
} from '@roastsim/core';
import { runEnsemble } from '../pool/runEnsemble.js';
import type { Forecast } from './forecast.js';

const SEED = 1; // any: the same plan gets the same answer every time

/** The range of a plan's pull that covers a share `level` of the full ensemble, and what else the ensemble says. */
export async function sureForecast(
  plan: Plan,
  request: PlanRequest,
  level: number,
  known: { readonly priors?: PriorChanges },
): Promise<Forecast> {
  const ensemble = await runEnsemble(
    prepareEnsemble(plan.roast, request, { ...known, plan, seed: SEED, levels: [level] }),
  );
  const { likely, intervals } = ensemble.minutes;
  return {
    interval: {
      lowMinutes: intervals[0].low,
      likelyMinutes: likely,
      highMinutes: intervals[0].high,
      level,
      shares: ensemble.shares,
      advice: ensemble.advice,
    },
    sure: {
      level,
      seed: SEED,
      ensemble,
      narrowings: whatNarrows(plan, request, { ...known, level }),
    },
  };
}
