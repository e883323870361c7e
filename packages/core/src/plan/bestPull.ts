import type { CookOptions, Point } from '../cook/index.js';
import { type Cut, misfitOf, type Seating, type SettledWish, seatGuests } from '../judge/index.js';
import type { Way, WaysOfOneOven } from './guestWays.js';
import { type PullSample, PullSampler, peaksBeforeCarving, throughThree } from './pullSamples.js';

/** A pull and what it does to every slice. */
export interface PullOutcome {
  /** Seconds since the heat stage began. */
  readonly pullS: number;
  /** Axis of the watched point at the pull [°C]. */
  readonly centreC: number;
  /** Hottest that each slice's centre becomes before it is carved [°C]. */
  readonly peakC: Float64Array;
}

/** A pull with everybody seated. */
export interface SeatedPull extends PullOutcome {
  readonly seating: Seating;
}

/** Which pulls are looked at. */
export interface PullWindow {
  /** Axis of the watched point [°C]. */
  readonly fromC: number;
  readonly toC: number;
  /** Seconds since the heat stage began. */
  readonly earliestS: number;
  readonly latestS: number;
}

const ROUNDING_K = 0.01; // misfits that round to the same are one and the same

const rounds = (misfitK: number): number => Math.round(misfitK / ROUNDING_K);

/**
 * Which of two seatings is better: more wishes met, then less misfit, then centres nearer to the targets.
 *
 * @returns below 0 when `a` is better
 */
export function compareSeatings(a: Seating, b: Seating): number {
  if (a.met !== b.met) return b.met - a.met;
  // rounded, not compared within a tolerance: small steps would add up, and the best depend on the order
  return rounds(a.misfitK) - rounds(b.misfitK) || a.offTargetK - b.offTargetK;
}

/** How closely pulls are looked at. */
export interface PullGrid {
  /** Pulls that are simulated, at evenly spaced temperatures of the watched point; peaks between them follow a parabola. */
  readonly samples: number;
  /** Between pulls [s]; more where a slow oven would make them too many. */
  readonly stepS: number;
  /** Pulls that are looked at. */
  readonly most: number;
}

/**
 * Pulls of a window, for ways that share an oven.
 *
 * @returns for each way its pulls, earliest first; none when the window closes before it opens
 */
export function pullsWithin(
  ways: WaysOfOneOven,
  cuts: readonly Cut[],
  point: Point,
  window: PullWindow,
  grid: PullGrid,
  options: CookOptions,
): PullOutcome[][] {
  const [first] = ways;
  const middlesMm = cuts.map(({ middleMm }) => middleMm);
  const sampler = new PullSampler(first, middlesMm, point, options);
  const fromS = Math.max(window.earliestS, sampler.reaches(window.fromC, window.latestS));
  if (!(fromS <= window.latestS)) return ways.map(() => []);
  const toS = Math.max(
    fromS,
    Math.min(window.latestS, sampler.reaches(window.toC, window.latestS)),
  );
  const alone = toS - fromS < grid.stepS;
  // evenly in warmth: a slow oven spends most of its time on the last few degrees
  const warmths = (count: number): number[] =>
    alone
      ? [fromS]
      : evenly(sampler.centreAt(fromS), sampler.centreAt(toS), count).map((centreC) =>
          sampler.timeOf(centreC),
        );
  const sampledS = warmths(grid.samples);
  const count = 1 + Math.ceil((toS - fromS) / grid.stepS);
  const pulledS = count > grid.most ? warmths(grid.most) : evenly(fromS, toS, count);
  const known = new Map<Way['after'], PullSample[]>();
  return ways.map(({ after, carving }) => {
    let samples = known.get(after);
    if (samples === undefined) {
      samples = sampledS.map((pullS) => sampler.sample(pullS, after));
      known.set(after, samples);
    }
    const centresC = samples.map(({ centreC }) => centreC);
    const peaks = samples.map((sample) => peaksBeforeCarving(sample, carving));
    const ofSlice = middlesMm.map((_, slice) => peaks.map((peakC) => peakC[slice]));
    return pulledS.map((pullS) => {
      const centreC = alone ? centresC[0] : sampler.centreAt(pullS);
      const peakC = Float64Array.from(ofSlice, (peaksC) => throughThree(centresC, peaksC, centreC));
      return { pullS, centreC, peakC };
    });
  });
}

const evenly = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) =>
    count === 1 ? from : from + (i / (count - 1)) * (to - from),
  );

/** The same pulls with the guests seated. */
export const seated = (
  pulls: readonly PullOutcome[],
  wishes: readonly SettledWish[],
): SeatedPull[] => pulls.map((pull) => ({ ...pull, seating: seatGuests(pull.peakC, wishes) }));

/**
 * The pull with the best seating; the earliest among equals, none of none. Nobody is seated at a pull that cannot be better than what
 * was found before.
 */
export function bestOf(
  pulls: readonly PullOutcome[],
  wishes: readonly SettledWish[],
): SeatedPull | undefined {
  let best: SeatedPull | undefined;
  for (const pull of pulls) {
    if (best !== undefined && !mayBeat(best.seating, pull, wishes)) continue;
    const seating = seatGuests(pull.peakC, wishes);
    if (best === undefined || compareSeatings(seating, best.seating) < 0) {
      best = { ...pull, seating };
    }
  }
  return best;
}

/** Whether a pull might be better than a seating: it could at most give everybody the slice they like best. */
function mayBeat(
  { met, misfitK }: Seating,
  { peakC }: PullOutcome,
  wishes: readonly SettledWish[],
): boolean {
  let mostMet = 0;
  let leastMisfitK = 0;
  for (const wish of wishes) {
    let least = Number.POSITIVE_INFINITY;
    for (const slicePeakC of peakC) least = Math.min(least, misfitOf(wish, slicePeakC));
    if (least === 0) mostMet++;
    leastMisfitK += least;
  }
  return mostMet > met || (mostMet === met && rounds(leastMisfitK) <= rounds(misfitK));
}
