import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { type CookOptions, checkPoint, type Point, type Roast } from '../cook/index.js';
import { RoastError } from '../errors.js';
import { normalDeviate, quantileOf } from '../numerics/index.js';
import { type Plan, type PlanRequest, planCook } from '../plan/index.js';
import { betterPull, MET_K } from './betterPull.js';
import type { Interval } from './ensemble.js';
import { mostLikely } from './fitSearch.js';
import {
  type Look,
  METER,
  normalEquations,
  predictAt,
  type Slopes,
  slopesAt,
  type Task,
} from './fitTask.js';
import type { Prediction } from './lineModel.js';
import {
  deviationOf,
  type InputName,
  type PriorChanges,
  type Priors,
  priorsFor,
  upright,
} from './priors.js';
import { type Reading, type Sample, thinned } from './readings.js';
import { type StandIn, standInFor } from './standIn.js';

/** How a log is fitted. */
export interface FitOptions extends CookOptions {
  /** The plan of the same roast, request and options, when it is at hand. */
  readonly plan?: Plan;
  /** What the caller knows better about the doubts. */
  readonly priors?: PriorChanges;
  /** Share the intervals cover, above 0 and below 1; default 0.9. */
  readonly level?: number;
  /** Where the second thermometer is; default the aimed-at place. */
  readonly second?: { readonly atMm: number };
  /** Time the remaining minutes count from, since the first oven or bath stage began; default that of the latest reading. */
  readonly nowMinutes?: number;
  /** When the roast was taken out, once it was. */
  readonly pulledAtMinutes?: number;
}

/** A figure with the interval that is believed to hold it. */
export interface Estimate extends Interval {
  readonly likely: number;
}

/** What a log says about one input. */
export interface Belief {
  readonly input: InputName;
  /** A factor, a shift or a distance, as its prior's form says. */
  readonly value: number;
  /** In the same unit; the prior's spread where the log says nothing. */
  readonly standardError: number;
  /** How far the log moved it [standard deviations of the prior]. */
  readonly movedBy: number;
}

/** The pull after which the aimed-at axis would peak where it was planned to. */
export interface BetterPull {
  /** What the thermometer shows then [°C]. */
  readonly centreC: number;
  /** Likely, since the first oven or bath stage began [min]. */
  readonly minutes: number;
}

/** What a thermometer's log makes of a cook. */
export interface LogFit {
  readonly nowMinutes: number;
  /** Minutes from the beginning of the first oven or bath stage until the thermometer shows the pull temperature. */
  readonly pullMinutes: Estimate;
  /** The same from now on; 0 once it is there. */
  readonly remainingMinutes: Estimate;
  /** Peak of the aimed-at axis [°C] after the pull; past the planned pull, of a roast that is taken out now. */
  readonly peakC: Estimate;
  /** Where the pull as planned is believed to miss the planned peak: the pull that would meet it, which may be past already. */
  readonly betterPull?: BetterPull;
  readonly beliefs: readonly Belief[];
  /** Size of what the fit leaves over what it expects: about 1 or less where model and log agree. */
  readonly misfit: number;
  /** The log contradicts the model and what was said about the roast: intervals are widened, trust the thermometer. */
  readonly contradicts: boolean;
  /** Samples (medians of a minute) that were used. */
  readonly samples: number;
  /** Where the fit ended, in standard deviations of the priors: a good start for the next. */
  readonly at: readonly number[];
}

/** Doubts a log is fitted by; the others change a reading by less than it errs. */
const FITTED: readonly InputName[] = [
  'size',
  'modelTime',
  'conductivity',
  'vent',
  'ovenOffset',
  'wallOffset',
  'probe',
  'heatCapacity',
  'film',
  'crustVapour',
  'start',
  'emissivity',
];

/** A log tells where the probe sits and how cold the roast began, so both may be farther off than before a cook. Judgement. */
const LOG_PRIORS: PriorChanges = {
  probe: { spread: 0.16, source: 'judgement: left in by hand' },
  start: { spread: 3, source: 'judgement: on the way and on the counter' },
};

const OVEN_SETTLED_MINUTES = { preheated: 12, cold: 35 } as const; // door or warming no longer seen
const FUTURE_SPREAD = 0.01; // of the remaining time: what goes wrong from now on
const CALM_SPREAD = 0.04; // of the model's time; of what doubt there is beyond...
const STAYING_SHARE = 0.5; // ...so much remains for the rest of the cook, whatever the log has shown
const STEPS = 80; // of a stage that takes as long as planned
const STEP_S = [40, 120] as const;
const LEAST_MINUTES = 0.01; // to a pull: a logarithm needs some
const WIDE_MISFIT = 2;
const WIDE_STRAIN = 3.5; // standard deviations of a prior

function checkOptions({ level = 0.9, nowMinutes, pulledAtMinutes }: FitOptions): void {
  const check = (found: number, field: string, low: number, high: number): void => {
    if (found >= low && found <= high) return;
    throw new RoastError(`${field} is ${found}; it can be ${low} to ${high}`, {
      code: Number.isFinite(found) ? 'out-of-range' : 'not-a-number',
      path: [field],
      found,
      accepted: `${low} to ${high}`,
    });
  };
  check(level, 'level', 0.01, 0.999);
  if (nowMinutes !== undefined) check(nowMinutes, 'nowMinutes', -24 * 60, 24 * 60);
  if (pulledAtMinutes !== undefined) check(pulledAtMinutes, 'pulledAtMinutes', 0, 24 * 60);
}

/** The oven's true minus set temperature as an oven thermometer says once the oven has settled [K]. */
function measuredOffset(samples: readonly Sample[], { heat }: PlanRequest): number | undefined {
  if (heat.kind !== 'roast') return undefined;
  const settled = samples
    .filter(
      ({ minutes, ovenC }) => minutes > OVEN_SETTLED_MINUTES[heat.start] && !Number.isNaN(ovenC),
    )
    .map(({ ovenC }) => ovenC - heat.ovenC)
    .sort((a, b) => a - b);
  return settled.length === 0 ? undefined : quantileOf(settled, 0.5);
}

/** What is fitted, ready to be fitted again with more readings. */
export interface FitGround {
  readonly standIn: StandIn;
  /** The plan peaks at its target, and safety did not choose the pull. */
  readonly searched: boolean;
  readonly priors: Priors;
  readonly request: PlanRequest;
  readonly second: Point;
}

/** What of a fit depends on the plan alone. */
export function fitGround(roast: Roast, request: PlanRequest, options: FitOptions): FitGround {
  checkOptions(options);
  const { plan, priors, level: _l, second, nowMinutes: _n, pulledAtMinutes: _p, ...cook } = options;
  if (second !== undefined) checkPoint(second, roast, ['second']);
  const nominal = plan ?? planCook(roast, request, cook);
  const stepS = (60 * nominal.pull.heatMinutes) / STEPS;
  const standIn = standInFor(nominal, request, cook, {
    aimOnly: true,
    longestStepS: Math.min(STEP_S[1], Math.max(STEP_S[0], stepS)),
  });
  const all = priorsFor(roast, request.heat, { ...LOG_PRIORS, ...priors });
  return {
    standIn,
    searched:
      nominal.aim.at !== 'coldest' && Math.abs(nominal.peak.centreC - nominal.aim.targetC) <= MET_K,
    priors: { ...all, modelTime: upright(all.modelTime) },
    request,
    second: { atMm: second?.atMm ?? standIn.aimMm },
  };
}

/** Fits samples on prepared ground, from a first guess in standard deviations. */
export function fitSamples(
  ground: FitGround,
  samples: readonly Sample[],
  options: Pick<FitOptions, 'level' | 'nowMinutes' | 'pulledAtMinutes'>,
  guess?: readonly number[],
): LogFit & { readonly cost: number } {
  const hasSecond = samples.some(({ secondC }) => !Number.isNaN(secondC));
  const task: Task = {
    standIn: ground.standIn,
    searched: ground.searched,
    priors: ground.priors,
    samples,
    minutes: Float64Array.from(samples, ({ minutes }) => minutes),
    second: hasSecond ? ground.second : undefined,
    pulledAtMinutes: options.pulledAtMinutes,
    ovenOffsetK: measuredOffset(samples, ground.request),
    names: [
      ...FITTED,
      ...(hasSecond ? (['secondProbe'] as const) : []),
      ...(options.pulledAtMinutes === undefined ? [] : (['modelRise'] as const)),
    ],
  };
  const start = Float64Array.from(task.names, (_, i) => guess?.[i] ?? 0);
  const { z, look } = mostLikely(task, start);
  return { ...concluded(task, z, look, options), cost: look.cost };
}

/** Turns the end of a search into figures and intervals. */
function concluded(
  task: Task,
  z: Float64Array,
  look: Look,
  options: Pick<FitOptions, 'level' | 'nowMinutes'>,
): LogFit {
  const { samples, priors, names } = task;
  const level = options.level ?? 0.9;
  const nowMinutes = options.nowMinutes ?? samples.at(-1)?.minutes ?? 0;
  const base = predictAt(task, z, true);
  const slopes = slopesAt(task, z, base, true);
  const { normal } = normalEquations(task, z, look, slopes);
  const covariance = new CholeskyDecomposition(normal).solve(Matrix.eye(z.length));
  const varianceOf = (slope: readonly number[]): number => {
    const column = Matrix.columnVector(slope.map((x) => (Number.isFinite(x) ? x : 0)));
    return column.transpose().mmul(covariance).mmul(column).get(0, 0);
  };
  const misfit = misfitOf(look);
  const strained = z.some((x) => Math.abs(x) > WIDE_STRAIN) || Math.abs(look.oven) > WIDE_STRAIN;
  const contradicts = misfit > WIDE_MISFIT || strained;
  const wider = contradicts ? Math.max(misfit, WIDE_MISFIT) : 1;
  const deviate = normalDeviate((1 + level) / 2);

  const pull = pullOf(task, base, look, slopes, nowMinutes, varianceOf);
  const spread = deviate * wider * pull.logSpread;
  const pullMinutes: Estimate = {
    level,
    low: pull.minutes < Number.POSITIVE_INFINITY ? pull.minutes * Math.exp(-spread) : nowMinutes,
    likely: pull.minutes,
    high: pull.minutes * Math.exp(spread),
  };
  const rest = (minutes: number): number => Math.max(0, minutes - nowMinutes);
  const riseK = base.peakC - task.standIn.pullC;
  const peakK =
    deviate *
    wider *
    Math.sqrt(
      varianceOf(slopes.map(({ peak }) => peak)) +
        (names.includes('modelRise') ? 0 : (priors.modelRise.spread * riseK) ** 2) +
        look.centre.driftVariance,
    );
  const better = contradicts ? undefined : betterPull(task, z);
  return {
    nowMinutes,
    pullMinutes,
    remainingMinutes: {
      level,
      low: rest(pullMinutes.low),
      likely: rest(pullMinutes.likely),
      high: rest(pullMinutes.high),
    },
    peakC: { level, low: base.peakC - peakK, likely: base.peakC, high: base.peakC + peakK },
    ...(better === undefined
      ? {}
      : {
          betterPull: {
            centreC: better.centreC,
            minutes: pull.minutes + better.laterMinutes, // what is left of the drift moves both
          },
        }),
    beliefs: names.flatMap((name, i) =>
      name === 'secondProbe' ? [] : [beliefOf(name, priors, z[i], covariance.get(i, i))],
    ),
    misfit,
    contradicts,
    samples: samples.length,
    at: [...z],
  };
}

/**
 * When the thermometer shows the pull temperature: the model's time, moved by what is left of the drift by then; and the standard
 * deviation of its logarithm.
 */
function pullOf(
  task: Task,
  base: Prediction,
  look: Look,
  slopes: Slopes,
  nowMinutes: number,
  varianceOf: (slope: readonly number[]) => number,
): { readonly minutes: number; readonly logSpread: number } {
  if (task.pulledAtMinutes !== undefined) return { minutes: task.pulledAtMinutes, logSpread: 0 };
  const modelMinutes = base.pullMinutes;
  if (modelMinutes === Number.POSITIVE_INFINITY) return { minutes: modelMinutes, logSpread: 1 };
  const lastMinutes = task.samples.at(-1)?.minutes ?? nowMinutes;
  const ahead = Math.max(0, modelMinutes - lastMinutes);
  const kept = task.samples.length > 0 ? Math.exp(-ahead / METER.driftMinutes) : 0;
  // warm enough from the beginning, as the log has it: no slope to move a pull along
  if (!(base.pullSlope > 0 && modelMinutes > 0)) return { minutes: LEAST_MINUTES, logSpread: 0 };
  const minutes = Math.max(
    LEAST_MINUTES,
    modelMinutes - (kept * look.centre.driftK) / base.pullSlope,
  );
  const slope = slopes.map(
    ({ centre, logPull }) =>
      logPull + (kept * look.centre.driftOf(centre)) / (base.pullSlope * modelMinutes),
  );
  const drift =
    kept * kept * look.centre.driftVariance + (1 - kept * kept) * METER.driftK * METER.driftK;
  const wild = Math.max(0, task.priors.modelTime.spread - CALM_SPREAD);
  const future = (FUTURE_SPREAD + STAYING_SHARE * wild) * Math.max(0, minutes - nowMinutes);
  const variance =
    varianceOf(slope) + (drift / base.pullSlope ** 2 + future * future) / (minutes * minutes);
  return { minutes, logSpread: Math.sqrt(variance) };
}

/** Median size of the whitened residuals over that of a standard normal distribution. */
function misfitOf({ centre, second }: Look): number {
  const sizes = [...centre.residuals, ...(second?.residuals ?? [])]
    .filter((x) => x !== 0)
    .map(Math.abs)
    .sort((a, b) => a - b);
  return sizes.length === 0 ? 0 : quantileOf(sizes, 0.5) / normalDeviate(0.75);
}

function beliefOf(input: InputName, priors: Priors, z: number, variance: number): Belief {
  const spread = Math.sqrt(variance);
  const prior = priors[input];
  const high = deviationOf(prior, z + spread);
  const low = deviationOf(prior, z - spread);
  return {
    input,
    value: deviationOf(prior, z),
    standardError: (high - low) / 2,
    movedBy: z,
  };
}

/**
 * Fits a thermometer's log: which oven, size and probe explain it best, given what was known before; and when the thermometer will
 * show the plan's pull temperature. Readings may come in any order, with gaps, repeats and spikes; without any, the answer is what
 * was known before the cook.
 *
 * @throws RoastError as `planCook`, and `out-of-range` for the options, or for a pull before the middle has warmed by a kelvin
 * @example
 * const readings = [0, 5, 10, 15].map((minutes) => ({ minutes, centreC: 6 + 0.05 * minutes ** 1.5 }))
 * const { remainingMinutes, contradicts } = fitLog(roast, request, readings, { plan })
 */
export function fitLog(
  roast: Roast,
  request: PlanRequest,
  readings: readonly Reading[],
  options: FitOptions = {},
): LogFit {
  const ground = fitGround(roast, request, options);
  const { cost: _, ...fit } = fitSamples(ground, thinned(readings), options);
  return fit;
}
