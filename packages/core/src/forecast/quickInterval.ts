import type { CookOptions } from '../cook/index.js';
import { RoastError } from '../errors.js';
import { normalDeviate } from '../numerics/index.js';
import type { Plan, PlanRequest } from '../plan/index.js';
import { type Advice, adviceFrom, type Share } from './advice.js';
import {
  deviationsOf,
  INPUTS,
  type InputName,
  type PriorChanges,
  type Priors,
  priorsFor,
  sizeKnownBy,
} from './priors.js';
import {
  cookMinutes,
  pulledTooEarly,
  type StandIn,
  standInIfAny,
  wholeMinutes,
} from './standIn.js';

/** Minutes to the pull without an ensemble. */
export interface QuickInterval {
  /** Minutes from the beginning of the first oven or bath stage to the pull; `high` is infinite where it may never come. */
  readonly lowMinutes: number;
  readonly likelyMinutes: number;
  readonly highMinutes: number;
  readonly level: number;
  /** Rough first-order shares, the greatest first. */
  readonly shares: readonly Share[];
  readonly advice: readonly Advice[];
}

const COARSE = { shells: 10, longestStepS: 90, aimOnly: true, timesOnly: true } as const;
const STEP = Math.sqrt(3); // standard deviations: the outer nodes of three-point Gauss-Hermite quadrature
const NEVER_MINUTES = 24 * 60; // what a cook that never gets there counts as

// A doubt whose effect on log time is straight takes one cook, a bent one two; the rest changes time by less than 0.5 %.
const BENT: readonly InputName[] = ['ovenOffset', 'wallOffset', 'vent', 'probe', 'film'];
const STRAIGHT: readonly InputName[] = [
  'size',
  'conductivity',
  'heatCapacity',
  'crustVapour',
  'start',
  'emissivity',
];

/** What an input does to log time: slope z + bend z²/2. */
interface Part {
  readonly input: InputName;
  readonly slope: number;
  readonly bend: number;
}

/**
 * Low, likely and high minutes to the pull from some fifteen cooks of one coarse line: slope and curvature of log time along each
 * input that matters, the distribution of the sum by the expansion of Cornish and Fisher (1937, from memory).
 *
 * Nothing where a range of minutes would mean nothing: the roast is pulled within a minute, or before its middle has warmed by a
 * kelvin and by twice the doubt about the start (3 K unless `priors.start` says otherwise), so that the thermometer may show the
 * pull temperature from the beginning.
 *
 * @param options - as the plan was computed with; `level` is the share the interval covers, above 0 and below 1; default 0.9
 * @throws RoastError `out-of-range` for the level
 * @example
 * const range = quickInterval(plan, request)
 * range !== undefined && range.lowMinutes < plan.pull.minutes && plan.pull.minutes < range.highMinutes // => true
 */
export function quickInterval(
  plan: Plan,
  request: PlanRequest,
  options: CookOptions & { readonly level?: number; readonly priors?: PriorChanges } = {},
): QuickInterval | undefined {
  const { level = 0.9, priors: changes, ...cook } = options;
  if (!(level >= 0.01 && level <= 0.999)) {
    throw new RoastError(`the interval covers ${level}; it can cover 0.01 to 0.999`, {
      code: Number.isFinite(level) ? 'out-of-range' : 'not-a-number',
      path: ['level'],
      found: level,
      accepted: '0.01 to 0.999',
    });
  }
  const priors = priorsFor(plan.roast, request.heat, changes);
  if (pulledTooEarly(plan, priors.start.spread)) return undefined;
  const standIn = standInIfAny(plan, request, cook, COARSE);
  const expansion = standIn === undefined ? undefined : expansionOf(standIn, priors);
  if (expansion === undefined) return undefined;
  const { middle, parts, never } = expansion;
  const variances = parts.map(({ slope, bend }) => slope ** 2 + bend ** 2 / 2);
  const variance = variances.reduce((a, b) => a + b, 0);
  const spread = Math.sqrt(variance);
  const mean = parts.reduce((sum, { bend }) => sum + bend / 2, middle);
  // third and fourth cumulants of slope z + bend (z² - 1)/2
  const third = parts.reduce((sum, { slope, bend }) => sum + 3 * slope ** 2 * bend + bend ** 3, 0);
  const skew = spread > 0 ? third / spread ** 3 : 0;
  const minutesAt = (p: number): number => {
    const z = normalDeviate(p);
    return Math.exp(mean + spread * (z + ((z * z - 1) * skew) / 6));
  };
  const highMinutes = minutesAt((1 + level) / 2);
  const shares = parts
    .map(({ input }, i) => ({ input, share: variance > 0 ? variances[i] / variance : 0 }))
    .sort((a, b) => b.share - a.share);
  return {
    lowMinutes: minutesAt((1 - level) / 2),
    likelyMinutes: minutesAt(0.5),
    highMinutes: never || highMinutes > NEVER_MINUTES ? Number.POSITIVE_INFINITY : highMinutes,
    level,
    shares,
    advice: adviceFrom(shares, priors, sizeKnownBy(plan.roast)),
  };
}

/** Log minutes at the middle of all priors, what each input adds, and whether some cook never got there. */
interface Expansion {
  readonly middle: number;
  readonly parts: readonly Part[];
  readonly never: boolean;
}

/** Nothing where some cook is at the pull temperature from the beginning: its time has no logarithm. */
function expansionOf(standIn: StandIn, priors: Priors): Expansion | undefined {
  const z = new Float64Array(INPUTS.length);
  let never = false;
  let atOnce = false;
  const logMinutes = (input: InputName | undefined, at: number): number => {
    if (input !== undefined) z[INPUTS.indexOf(input)] = at;
    const by = deviationsOf(priors, z);
    z.fill(0);
    const minutes = wholeMinutes(standIn, cookMinutes(standIn, by), by);
    if (!(minutes > 0)) atOnce = true;
    if (minutes < NEVER_MINUTES) return Math.log(minutes);
    never = true;
    return Math.log(NEVER_MINUTES);
  };
  const middle = logMinutes(undefined, 0);
  const bent = (input: InputName, up: number, down: number): Part => ({
    input,
    slope: (up - down) / (2 * STEP),
    bend: (up + down) / (STEP * STEP),
  });
  const { modelTime } = priors;
  const parts = [
    bent('modelTime', STEP * modelTime.spread, -STEP * (modelTime.spreadBelow ?? modelTime.spread)),
    ...BENT.map((input) =>
      bent(input, logMinutes(input, STEP) - middle, logMinutes(input, -STEP) - middle),
    ),
    ...STRAIGHT.map((input) => ({ input, slope: logMinutes(input, 1) - middle, bend: 0 })),
  ];
  return atOnce ? undefined : { middle, parts, never };
}
