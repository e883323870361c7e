import type { Bath, CookRun, OvenRoast, Point, Snapshot, Stage } from '../cook/index.js';
import { RoastError } from '../errors.js';
import { bracketedRoot } from '../numerics/index.js';

/** What the pull is searched for. */
export interface PullGoal {
  /** The last oven or bath stage; its own ending is replaced by the pull. */
  readonly heat: OvenRoast | Bath;
  /** What follows the pull. */
  readonly after: readonly Stage[];
  readonly point: Point;
  /** Peak wished for at the point [°C]. */
  readonly targetC: number;
  /** The point must have reached this before the pull [°C]. */
  readonly atLeastAtPullC?: number;
}

/** A pull that was found. */
export interface FoundPull {
  /** Minutes since the heat stage began. */
  readonly minutes: number;
  /** How much the peak rises per minute of later pull [K/min], from the search's last two tries. */
  readonly peakKPerMinute: number;
}

const TOLERANCE_K = 0.02; // a fifth of what the plan promises
const PAST_PEAK_K = 0.03; // a fall beyond rounding: the peak is behind
const LOOK_BACK_K = 30; // snapshots are kept once the point is this close below the target
const TRIES = 12;

/**
 * Finds when to pull so that the point peaks at the target afterwards. The oven is run once, keeping where it stood after every
 * step; each try goes back to one of those places and runs only what follows the pull.
 *
 * The cook must stand at the beginning of the heat stage; it is left at the end of the cook with the pull that was found.
 *
 * @throws RoastError `unreachable` when the target is never reached, or passed even without any heat
 */
export function searchPull(run: CookRun, goal: PullGoal): FoundPull {
  const { heat, after, point, targetC } = goal;
  const startS = run.atS;
  const start = run.save();
  const kept: Snapshot[] = [start];
  const ceilingC = Math.max(targetC, goal.atLeastAtPullC ?? targetC);
  run.run(
    { ...heat, until: { reachesC: ceilingC, at: point } },
    {
      onStep: () => {
        if (run.temperatureOf(point) > targetC - LOOK_BACK_K) kept.push(run.save());
        return false;
      },
    },
  );
  const latestS = run.atS - startS;

  let slope = 0;
  let previous: { x: number; peakC: number } | undefined;
  const peakAfter = (pullS: number): number => {
    pullAt(run, kept, heat, startS, pullS);
    const peakC = runAfter(run, after, point);
    if (previous !== undefined && Math.abs(pullS - previous.x) > 1) {
      slope = (60 * (peakC - previous.peakC)) / (pullS - previous.x);
    }
    previous = { x: pullS, peakC };
    return peakC - targetC;
  };

  const settle = (pullS: number): FoundPull => {
    pullAt(run, kept, heat, startS, pullS);
    for (const stage of after) run.run(stage);
    return { minutes: pullS / 60, peakKPerMinute: slope };
  };

  if (goal.atLeastAtPullC !== undefined) {
    // the point must be there before the heat ends, even if the peak then passes the target
    const floorS = timeOf(run, kept, heat, startS, point, goal.atLeastAtPullC, latestS);
    if (peakAfter(floorS) >= -TOLERANCE_K) return settle(floorS);
  }
  const guessS = guessFrom(kept, run, point, targetC, latestS, startS);
  let lowS = guessS;
  let low = peakAfter(lowS);
  while (low > 0) {
    if (lowS === 0) {
      throw new RoastError(
        `even without the oven the middle climbs to ${(low + targetC).toFixed(1)} °C, past the ${targetC.toFixed(1)} °C aimed at`,
        {
          code: 'unreachable',
          path: ['doneness'],
          found: targetC,
          accepted: `above ${(low + targetC).toFixed(1)} °C, or less searing and tempering`,
        },
      );
    }
    lowS = lowS < 60 ? 0 : lowS * 0.8;
    low = peakAfter(lowS);
  }
  if (low > -TOLERANCE_K) return settle(lowS);
  let highS = Math.min(latestS, guessS > lowS ? guessS : lowS + 240);
  let high = peakAfter(highS);
  while (high < 0 && highS < latestS) {
    lowS = highS;
    low = high;
    highS = Math.min(latestS, highS + 360);
    high = peakAfter(highS);
  }
  if (high < 0) return settle(highS); // nothing climbs after the pull: pulled at the target
  const root = bracketedRoot(peakAfter, lowS, low, highS, high, TOLERANCE_K, TRIES);
  return settle(root.x);
}

/** Puts the cook at a pull `pullS` seconds into the heat stage. */
function pullAt(
  run: CookRun,
  kept: readonly Snapshot[],
  heat: OvenRoast | Bath,
  startS: number,
  pullS: number,
): void {
  let index = 0;
  while (index + 1 < kept.length && kept[index + 1].clock.atS - startS <= pullS) index++;
  run.restore(kept[index]);
  run.run({ ...heat, until: { minutes: pullS / 60 } }, { resume: index > 0 });
}

/** Runs what follows the pull, up to the point's peak; returns the peak [°C]. */
function runAfter(run: CookRun, after: readonly Stage[], point: Point): number {
  // follow one place: "coldest" is settled at the pull
  const followed = run.fixed(point);
  let peakC = run.temperatureOf(followed);
  for (const [index, stage] of after.entries()) {
    const last = index === after.length - 1;
    run.run(stage, {
      onStep: () => {
        const nowC = run.temperatureOf(followed);
        if (nowC > peakC) peakC = nowC;
        return last && nowC < peakC - PAST_PEAK_K;
      },
    });
  }
  return peakC;
}

/** When the point passes a temperature in the heat stage [s since its start]. */
function timeOf(
  run: CookRun,
  kept: readonly Snapshot[],
  heat: OvenRoast | Bath,
  startS: number,
  point: Point,
  tempC: number,
  latestS: number,
): number {
  run.restore(kept[0]);
  run.run({ ...heat, until: { reachesC: tempC, at: point } });
  return Math.min(latestS, run.atS - startS);
}

/** First try: half of what the cross-section's mean is ahead of the axis still arrives. Only a starting point. */
function guessFrom(
  kept: readonly Snapshot[],
  run: CookRun,
  point: Point,
  targetC: number,
  latestS: number,
  startS: number,
): number {
  for (const snapshot of kept.slice(1)) {
    run.restore(snapshot);
    const axisC = run.temperatureOf(point);
    if (axisC + SHARE_ARRIVING * (run.meanOf(point) - axisC) >= targetC) {
      return snapshot.clock.atS - startS;
    }
  }
  return latestS;
}

const SHARE_ARRIVING = 0.5;
