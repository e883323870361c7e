import type { CookRun, Point, Stage } from '../cook/index.js';
import { RoastError } from '../errors.js';
import { HeatPath } from './heatPath.js';
import { peakOver, type Rough, TRIAL_STRIDE } from './peakOver.js';
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
const NEAR_K = 0.1; // from here the secant alone leads within the tolerance
const LOOK_BACK_K = 40; // places are kept once the point is this close below the target
const TRIES = 20;
const FAR_S = 600; // the secant is trusted this far beyond the last try
const SHARE_ARRIVING = 0.6; // of the cross-section's lead over the axis that still arrives: 0.5 to 0.7 mostly; only for the first try
const ROUGH = { stride: TRIAL_STRIDE, pastK: 0.1 } as const;

/** Peak minus target [K] after a pull so many seconds into the stage. */
type Miss = (pullS: number) => number;

/** Where a search stands: a pull, how far its peak misses [K], and how much it answers [K of peak per second of pull]. */
interface Try {
  readonly pullS: number;
  readonly miss: number;
  readonly slope: number;
}

/**
 * Finds when to pull so that the point peaks at the target afterwards. The oven is run once, keeping where it stood after every
 * step; each try goes back to one of those places and runs only what follows the pull. Tries follow the secant, inside the bracket
 * they have left: first rough ones with long steps until one comes near, then in full.
 *
 * The cook must stand at the beginning of the heat stage; it is left at the end of the cook with the pull that was found.
 *
 * @throws RoastError `unreachable` when the target is never reached, or passed even without any heat
 */
export function searchPull(run: CookRun, goal: PullGoal): void {
  const { point, targetC, after, heat, atLeastAtPullC } = goal;
  const path = new HeatPath(run, heat, point, targetC - LOOK_BACK_K);
  const missBy =
    (rough: Rough): Miss =>
    (pullS) => {
      path.pullAt(pullS);
      return peakOver(run, after, point, rough) - targetC;
    };
  const inFull = missBy({});

  let lowS = 0;
  if (atLeastAtPullC !== undefined) {
    lowS = path.until(atLeastAtPullC, () => false);
    // the point must be there before the heat ends, even if the peak then passes the target
    if (inFull(lowS) >= -TOLERANCE_K) return;
  }
  // the first try; the peak then answers the pull about as the mean of the cross-section answers time
  let meanC = run.meanOf(point);
  let meanS = lowS;
  let slope = 0;
  const pullS = path.until(targetC, (atS) => {
    const axisC = run.temperatureOf(point);
    const nowC = run.meanOf(point);
    if (atS > meanS) slope = (nowC - meanC) / (atS - meanS);
    meanC = nowC;
    meanS = atS;
    return axisC + SHARE_ARRIVING * (nowC - axisC) >= targetC;
  });

  /** Tries from `firstS` on until one misses by no more than `enoughK`. */
  const closeIn = (missAt: Miss, firstS: number, slopeKPerS: number, enoughK: number): Try => {
    let pullS = firstS;
    let slope = slopeKPerS;
    let earliestS = lowS;
    let latestS = Number.POSITIVE_INFINITY;
    let miss = missAt(pullS);
    for (let tries = 0; Math.abs(miss) > enoughK && tries < TRIES; tries++) {
      if (miss > 0) latestS = pullS;
      else earliestS = pullS;
      if (miss > 0 && pullS === 0) throw passedAnyway(miss + targetC, targetC);
      let nextS = Math.max(0, pullS - miss / slope);
      if (latestS === Number.POSITIVE_INFINITY && !(nextS < pullS + FAR_S)) {
        // a centre that creeps: pulled when it is there it cannot peak lower, and it says so if it never gets there
        latestS = path.until(targetC, () => false);
        nextS = Math.min(nextS, latestS);
      }
      if (nextS < earliestS) nextS = (earliestS + Math.min(pullS, latestS)) / 2;
      if (!(nextS <= latestS) || nextS === pullS) nextS = (earliestS + latestS) / 2;
      const next = missAt(nextS);
      const secant = (next - miss) / (nextS - pullS);
      if (secant > 0) slope = secant;
      pullS = nextS;
      miss = next;
    }
    return { pullS, miss, slope };
  };

  const near = closeIn(missBy(ROUGH), Math.max(pullS, lowS), slope, NEAR_K);
  const leftS = near.slope > 0 ? near.miss / near.slope : 0;
  closeIn(inFull, Math.max(lowS, near.pullS - leftS), near.slope, TOLERANCE_K);
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
