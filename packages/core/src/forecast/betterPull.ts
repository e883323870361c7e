import { deviationsAt, type Task } from './fitTask.js';
import { type Prediction, predict } from './lineModel.js';

const MISSED_K = 1; // of the planned peak: what a cook would act upon. Judgement
const FARTHEST_K = 8; // of another pull: a log that asks for more is not believed. Judgement
const ANSWER = 0.7; // K of peak for a kelvin of pull, for the first try. Judgement
const PULL_TRIES = 5;
/** A peak this near is the wished one [K]. */
export const MET_K = 0.1;

/**
 * The pull that brings the peak where it was planned, by the secant; absent where the plan misses its own target, where safety chose
 * the pull, once the roast is out, and where the planned pull does well enough.
 */
export function betterPull(
  task: Task,
  z: Float64Array,
): { readonly centreC: number; readonly laterMinutes: number } | undefined {
  const { standIn, pulledAtMinutes, searched } = task;
  if (pulledAtMinutes !== undefined || !searched) return undefined;
  const wishedC = standIn.whole.peakC;
  // without the readings, which may go on past the pull
  const pulledAt = (pullC: number): Prediction =>
    predict({ ...standIn, pullC }, deviationsAt(task, z), {
      minutes: new Float64Array(0),
      peak: true,
    });
  const planned = pulledAt(standIn.pullC);
  const missed = planned.peakC - wishedC;
  if (!(Math.abs(missed) >= MISSED_K)) return undefined;
  let before = { pullC: standIn.pullC, miss: missed };
  let pullC = standIn.pullC - Math.min(FARTHEST_K, Math.max(-FARTHEST_K, missed / ANSWER));
  for (let tries = 0; tries < PULL_TRIES; tries++) {
    if (Math.abs(pullC - standIn.pullC) > FARTHEST_K) return undefined;
    const there = pulledAt(pullC);
    const miss = there.peakC - wishedC;
    if (!Number.isFinite(miss)) return undefined;
    if (Math.abs(miss) < MET_K) {
      return { centreC: pullC, laterMinutes: there.pullMinutes - planned.pullMinutes };
    }
    const slope = (miss - before.miss) / (pullC - before.pullC);
    if (!(slope > 0)) return undefined;
    before = { pullC, miss };
    pullC -= miss / slope;
  }
  return undefined;
}
