import type { CookRun } from '../cook/index.js';
import { bracketedRoot } from '../numerics/index.js';
import { HeatPath } from './heatPath.js';
import { peakOver } from './peakOver.js';
import type { Plan, PlanRequest, PutBack } from './plan.js';

const BEHIND_K = 3; // more than a probe's error, less than a band
const LONGEST_MINUTES = 20;
const TRIAL_MINUTES = 3; // of earlier pull, to see how much the reading answers
const CHECK_MINUTES = 10; // into the rest
const TOLERANCE_K = 0.1;

/**
 * Simulates a roast that was pulled too early: by so much that the thermometer is {@link BEHIND_K} behind ten minutes into the
 * rest; then finds how long it must go back for its peak to come out as planned.
 *
 * @param run - a {@link trialCook} at its beginning
 * @returns nothing when a longer oven time hardly shows ten minutes later
 */
export function putBack(run: CookRun, request: PlanRequest, plan: Plan): PutBack | undefined {
  for (const stage of request.before) run.run(stage);
  const { heatMinutes } = plan.pull;
  const { point } = plan.aim;
  const { heat } = request;
  // by then even an oven that was started cold is hot
  const hot = heat.kind === 'roast' ? { ...heat, start: 'preheated' as const } : heat;
  const [resting] = request.after;
  if (resting?.kind !== 'rest') return undefined;
  const path = new HeatPath(run, heat, point, Number.NEGATIVE_INFINITY);
  const readingAfter = (minutes: number): number => {
    path.pullAt(60 * Math.max(0, minutes));
    run.run({ ...resting, until: { minutes: CHECK_MINUTES } });
    return run.temperatureOf(point);
  };
  const planned = readingAfter(heatMinutes);
  const wishedC = Math.max(planned, peakOver(run, [resting], point, { pastK: TOLERANCE_K }));
  const answer = (planned - readingAfter(heatMinutes - TRIAL_MINUTES)) / TRIAL_MINUTES;
  if (answer * heatMinutes < 2 * BEHIND_K) return undefined;
  readingAfter(heatMinutes - BEHIND_K / answer);
  const waiting = run.save();
  const missing = (minutes: number): number => {
    run.restore(waiting);
    if (minutes > 0) run.run({ ...hot, until: { minutes } });
    return peakOver(run, [resting], point, { pastK: TOLERANCE_K }) - wishedC;
  };
  const low = missing(0);
  if (low >= 0) return undefined;
  let longMinutes = BEHIND_K / answer; // as long as it was pulled early: the heat lost meanwhile comes on top
  let high = missing(longMinutes);
  while (high < 0 && longMinutes < LONGEST_MINUTES) {
    longMinutes *= 2;
    high = missing(longMinutes);
  }
  if (high < 0) return undefined;
  const root = bracketedRoot(missing, 0, low, longMinutes, high, TOLERANCE_K, 8);
  return { behindK: BEHIND_K, minutes: root.x };
}
