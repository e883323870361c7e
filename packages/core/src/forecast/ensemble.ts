import type { CookOptions, Roast } from '../cook/index.js';
import { RoastError } from '../errors.js';
import { bandIndex, type Scale } from '../judge/index.js';
import { normalDeviate, quantileOf, SobolPoints } from '../numerics/index.js';
import { type Plan, type PlanRequest, planCook } from '../plan/index.js';
import { type Advice, adviceFrom, type Share } from './advice.js';
import {
  deviationsOf,
  INPUTS,
  type PriorChanges,
  type Priors,
  priorsFor,
  sizeKnownBy,
} from './priors.js';
import { sharesOf } from './shares.js';
import { type Coarseness, cookLines, type StandIn, standInFor, wholeFigures } from './standIn.js';

/** How an ensemble is made. */
export interface EnsembleOptions extends CookOptions {
  /** Cooks, 16 to 65,536; powers of two are spread best. Default 1024. */
  readonly members?: number;
  /** Any whole number; the same seed gives the same members. */
  readonly seed: number;
  /** What the caller knows better about the doubts. */
  readonly priors?: PriorChanges;
  /** Shares that intervals cover, each above 0 and below 1; default 0.8 and 0.9. */
  readonly levels?: readonly number[];
  /** The plan of the same roast, request and options, when it is at hand. */
  readonly plan?: Plan;
  readonly coarseness?: Coarseness;
}

/** Everything a member needs, as plain data that can be handed to a worker. */
export interface EnsembleSetup {
  /**
   * Lines that stand in for the roast.
   *
   * @internal
   */
  readonly standIn: StandIn;
  readonly priors: Priors;
  readonly scale: Scale;
  readonly members: number;
  readonly seed: number;
  readonly levels: readonly number[];
}

/** Members `from` up to, not including, `to`; one number per member, slices member by member. */
export interface EnsembleChunk {
  readonly from: number;
  readonly to: number;
  /** Minutes from the beginning of the first oven or bath stage to the pull; Infinity where it is never reached. */
  readonly minutes: Float64Array;
  readonly peakC: Float64Array;
  readonly riseK: Float64Array;
  readonly lossFraction: Float64Array;
  readonly slicePeaksC: Float64Array;
}

/** An interval that holds a share `level` of the members, as much below it as above. */
export interface Interval {
  readonly level: number;
  readonly low: number;
  readonly high: number;
}

/** A figure of a cook that is not known exactly. */
export interface Spread {
  /** Half of the members lie below. */
  readonly likely: number;
  readonly intervals: readonly Interval[];
}

/** How a slice may come out. */
export interface SliceSpread {
  readonly peakC: Spread;
  /** Share of the members in each band of the plan's scale, from the rarest up. */
  readonly bandShares: readonly number[];
}

/** What may come out of a plan when its pull temperature is waited for. */
export interface Ensemble {
  readonly members: number;
  /** Members whose thermometer never reached the pull temperature: their minutes count as infinite. */
  readonly unreached: number;
  /** Minutes from the beginning of the first oven or bath stage to the pull. */
  readonly minutes: Spread;
  readonly peakC: Spread;
  readonly riseK: Spread;
  readonly lossFraction: Spread;
  readonly slices: readonly SliceSpread[];
  /** Which doubts the spread of the minutes comes from, the greatest first. */
  readonly shares: readonly Share[];
  readonly advice: readonly Advice[];
}

const MEMBERS = [16, 65_536] as const;
const LEVELS = [0.8, 0.9] as const;

function checked(found: number, field: string, low: number, high: number, whole: boolean): number {
  if (found >= low && found <= high && (!whole || Number.isInteger(found))) return found;
  const accepted = `${whole ? 'a whole number from ' : ''}${low} to ${high}`;
  throw new RoastError(`${field} is ${found}; it can be ${accepted}`, {
    code: Number.isFinite(found) ? 'out-of-range' : 'not-a-number',
    path: [field],
    found,
    accepted,
  });
}

/**
 * Prepares an ensemble: plans the cook unless the plan is given, and the lines that stand in for the roast.
 *
 * @throws RoastError as `planCook`, and `out-of-range` for the options, or for a pull so early that there is no `quickInterval` either
 * @example
 * prepareEnsemble(roast, request, { seed: 1, members: 64, plan }).members // => 64
 */
export function prepareEnsemble(
  roast: Roast,
  request: PlanRequest,
  options: EnsembleOptions,
): EnsembleSetup {
  const { members = 1024, seed, priors, levels = LEVELS, plan, coarseness, ...cook } = options;
  checked(members, 'members', ...MEMBERS, true);
  checked(seed, 'seed', Number.MIN_SAFE_INTEGER, Number.MAX_SAFE_INTEGER, true);
  for (const level of levels) checked(level, 'levels', 0.01, 0.999, false);
  const nominal = plan ?? planCook(roast, request, cook);
  const known = priorsFor(roast, request.heat, priors);
  const startSpreadK = known.start.spread;
  return {
    standIn: standInFor(nominal, request, cook, { ...coarseness, startSpreadK }),
    priors: known,
    scale: nominal.aim.scale,
    members,
    seed,
    levels,
  };
}

/** The point of a member in standard deviations, written into `z`. */
function drawInto(points: SobolPoints, member: number, z: Float64Array): Float64Array {
  points.at(member, z);
  for (let i = 0; i < z.length; i++) z[i] = normalDeviate(z[i]);
  return z;
}

/**
 * Cooks members `from` up to, not including, `to`. Pure: the same setup and range give the same numbers anywhere.
 *
 * @example
 * const setup = prepareEnsemble(roast, request, { seed: 1, members: 16, plan })
 * ensembleChunk(setup, 0, 4).minutes.length // => 4
 */
export function ensembleChunk(setup: EnsembleSetup, from: number, to: number): EnsembleChunk {
  const { standIn, priors } = setup;
  const count = Math.max(0, to - from);
  const slices = standIn.slices.length;
  const chunk = {
    from,
    to,
    minutes: new Float64Array(count),
    peakC: new Float64Array(count),
    riseK: new Float64Array(count),
    lossFraction: new Float64Array(count),
    slicePeaksC: new Float64Array(count * slices),
  };
  const points = new SobolPoints(INPUTS.length, setup.seed);
  const z = new Float64Array(INPUTS.length);
  for (let i = 0; i < count; i++) {
    const by = deviationsOf(priors, drawInto(points, from + i, z));
    const figures = wholeFigures(standIn, cookLines(standIn, by), by);
    chunk.minutes[i] = figures.minutes;
    chunk.peakC[i] = figures.peakC;
    chunk.riseK[i] = figures.riseK;
    chunk.lossFraction[i] = figures.lossFraction;
    chunk.slicePeaksC.set(figures.slicePeaksC, i * slices);
  }
  return chunk;
}

function spreadOf(values: ArrayLike<number>, levels: readonly number[]): Spread {
  const sorted = Float64Array.from(values)
    .filter((value) => !Number.isNaN(value))
    .sort();
  if (sorted.length === 0) sorted.fill(Number.NaN);
  const at = (p: number): number => (sorted.length === 0 ? Number.NaN : quantileOf(sorted, p));
  return {
    likely: at(0.5),
    intervals: levels.map((level) => ({
      level,
      low: at((1 - level) / 2),
      high: at((1 + level) / 2),
    })),
  };
}

/**
 * Puts chunks together, in whatever order they come in.
 *
 * @throws RoastError `contradiction` when the chunks do not cover every member once
 * @example
 * const setup = prepareEnsemble(roast, request, { seed: 1, members: 16, plan })
 * const parts = [ensembleChunk(setup, 0, 8), ensembleChunk(setup, 8, 16)] // in two workers, say
 * mergeChunks(setup, parts).members // => 16
 */
export function mergeChunks(setup: EnsembleSetup, chunks: readonly EnsembleChunk[]): Ensemble {
  const { standIn, priors, scale, members, levels } = setup;
  const ordered = [...chunks]
    .filter((chunk) => chunk.to > chunk.from)
    .sort((a, b) => a.from - b.from);
  const gap = ordered.findIndex((chunk, i) => chunk.from !== (i === 0 ? 0 : ordered[i - 1].to));
  if (gap >= 0 || ordered.at(-1)?.to !== members) {
    throw new RoastError('the parts of the ensemble do not cover every member once', {
      code: 'contradiction',
      path: ['chunks'],
      found: ordered.map(({ from, to }) => [from, to]),
      accepted: `ranges from 0 to ${members} without gap or overlap`,
    });
  }
  const gather = (pick: (chunk: EnsembleChunk) => Float64Array): Float64Array => {
    const parts = ordered.map(pick);
    const all = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
    let at = 0;
    for (const part of parts) {
      all.set(part, at);
      at += part.length;
    }
    return all;
  };
  const minutes = gather((chunk) => chunk.minutes);
  const peaks = gather((chunk) => chunk.slicePeaksC);
  const count = standIn.slices.length;
  const shares = sharesOf(pointsOf(setup), minutes);
  return {
    members,
    unreached: minutes.reduce((n, value) => n + (value === Number.POSITIVE_INFINITY ? 1 : 0), 0),
    minutes: spreadOf(minutes, levels),
    peakC: spreadOf(
      gather((chunk) => chunk.peakC),
      levels,
    ),
    riseK: spreadOf(
      gather((chunk) => chunk.riseK),
      levels,
    ),
    lossFraction: spreadOf(
      gather((chunk) => chunk.lossFraction),
      levels,
    ),
    slices: standIn.slices.map((_, slice) => {
      const peakC = minutes.map((_, member) => peaks[member * count + slice]);
      return { peakC: spreadOf(peakC, levels), bandShares: bandSharesOf(peakC, scale) };
    }),
    shares,
    advice: adviceFrom(shares, priors, sizeKnownBy(standIn.roast)),
  };
}

function bandSharesOf(peakC: Float64Array, scale: Scale): number[] {
  const reached = peakC.filter((value) => !Number.isNaN(value));
  const counts = scale.bands.map(() => 0);
  for (const value of reached) counts[bandIndex(scale, value)]++;
  return counts.map((n) => (reached.length === 0 ? 0 : n / reached.length));
}

/** Points of all members in standard deviations, row by row. */
function pointsOf({ seed, members }: EnsembleSetup): Float64Array[] {
  const points = new SobolPoints(INPUTS.length, seed);
  return Array.from({ length: members }, (_, member) =>
    drawInto(points, member, new Float64Array(INPUTS.length)),
  );
}

/**
 * Cooks a plan many times, each time with other values of everything that is not known exactly, and says what comes out. The cook
 * of every member waits until the thermometer shows the plan's pull temperature.
 *
 * @throws RoastError as `planCook`, and `out-of-range` for the options, or for a pull so early that there is no `quickInterval` either
 * @example
 * const { minutes } = ensemble(roast, request, { seed: 1 })
 * minutes.likely, minutes.intervals[1].low, minutes.intervals[1].high // 90 %
 */
export function ensemble(roast: Roast, request: PlanRequest, options: EnsembleOptions): Ensemble {
  const setup = prepareEnsemble(roast, request, options);
  return mergeChunks(setup, [ensembleChunk(setup, 0, setup.members)]);
}
