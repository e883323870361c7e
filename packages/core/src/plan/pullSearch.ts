import type { CookRun, Point, Stage } from '../cook/index.js';
import { RoastError } from '../errors.js';
import { HeatPath } from './heatPath.js';
import { peakOver } from './peakOver.js';
import type { OwnPlanRequest } from './plan.js';

/** What the pull is searched for. */
export interface PullGoal {
  /** The last stage that heats; its own ending is replaced by the pull. */
  readonly heat: OwnPlanRequest['heat'];
  /** What follows the pull. */
  readonly after: readonly Stage[];
  readonly point: Point;
  /** Peak wished for at the point [°C]. */
  readonly targetC: number;
  /** The point must have reached this before the pull [°C]. */
  readonly atLeastAtPullC?: number;
}

const TOLERANCE_K = 0.02; // a fifth of what the plan promises
const LOOK_BACK_K = 40; // places are kept once the point is this close below the target
const TRIES = 20;
const FAR_S = 600; // the secant is trusted this far beyond the last try
const SHARE_ARRIVING = 0.5; // of the cross-section's lead over the axis that still arrives; only for the first try

/**
 * Finds when to pull so that the point peaks at the target afterwards. The oven is run once, keeping where it stood after every
 * step; each try goes back to one of those places and runs only what follows the pull. Tries follow the secant, inside the bracket
 * they have left.
 *
 * The cook must stand at the beginning of the heat stage; it is left at the end of the cook with the pull that was found.
 *
 * @throws RoastError `unreachable` when the target is never reached, or passed even without any heat
 */
export function searchPull(run: CookRun, goal: PullGoal): void {
  const { point, targetC, after, heat, atLeastAtPullC } = goal;
  const path = new HeatPath(run, heat, point, targetC - LOOK_BACK_K);
  const missBy = (pullS: number): number => {
    path.pullAt(pullS);
    return peakOver(run, after, point) - targetC;
  };

  let lowS = 0;
  if (atLeastAtPullC !== undefined) {
    lowS = path.until(atLeastAtPullC, () => false);
    // the point must be there before the heat ends, even if the peak then passes the target
    if (missBy(lowS) >= -TOLERANCE_K) return;
  }
  let lead = run.temperatureOf(point);
  let leadS = lowS;
  let slope = 0; // K of peak per second of pull
  let pullS = path.until(targetC, (atS) => {
    const axisC = run.temperatureOf(point);
    const leadNow = axisC + SHARE_ARRIVING * (run.meanOf(point) - axisC);
    if (atS > leadS) slope = (leadNow - lead) / (atS - leadS);
    lead = leadNow;
    leadS = atS;
    return leadNow >= targetC;
  });
  pullS = Math.max(pullS, lowS);
  let highS = Number.POSITIVE_INFINITY;
  let miss = missBy(pullS);
  for (let tries = 0; Math.abs(miss) > TOLERANCE_K && tries < TRIES; tries++) {
    if (miss > 0) highS = pullS;
    else lowS = pullS;
    if (miss > 0 && pullS === 0) throw passedAnyway(miss + targetC, targetC);
    let nextS = Math.max(0, pullS - miss / slope);
    if (highS === Number.POSITIVE_INFINITY && !(nextS < pullS + FAR_S)) {
      // a centre that creeps: pulled when it is there it cannot peak lower, and it says so if it never gets there
      highS = path.until(targetC, () => false);
      nextS = Math.min(nextS, highS);
    }
    if (nextS < lowS) nextS = (lowS + Math.min(pullS, highS)) / 2;
    if (!(nextS <= highS) || nextS === pullS) nextS = (lowS + highS) / 2;
    const next = missBy(nextS);
    const secant = (next - miss) / (nextS - pullS);
    if (secant > 0) slope = secant;
    pullS = nextS;
    miss = next;
  }
}

const passedAnyway = (peakC: number, targetC: number): RoastError =>
  new RoastError(
    `even without the oven the middle climbs to ${peakC.toFixed(1)} °C, past the ${targetC.toFixed(1)} °C aimed at`,
    {
      code: 'unreachable',
      path: ['doneness'],
      found: targetC,
      accepted: `above ${peakC.toFixed(1)} °C, or less searing and tempering`,
    },
  );
