import {
  axisAt,
  type CookOptions,
  CookRun,
  coldestAxis,
  isHeat,
  linesOf,
  type Roast,
  type RoastBody,
  thickened,
} from '../cook/index.js';
import { RoastError } from '../errors.js';
import type { Plan, PlanRequest } from '../plan/index.js';
import { areaAt } from '../shape/index.js';
import { type Deviations, NO_DEVIATION } from './priors.js';
import { varied } from './vary.js';

/** What a forecast keeps of one cook. */
export interface CookFigures {
  /** Minutes of the last oven or bath stage up to the pull; Infinity where the temperature is never reached. */
  readonly heatMinutes: number;
  /** Axis of the aimed-at place at the pull and at its peak [°C]; NaN where there was no pull. */
  readonly pullCentreC: number;
  readonly peakC: number;
  /** Hottest each line's axis became [°C]. */
  readonly linePeaksC: readonly number[];
  /** Share of the raw mass that is lost. */
  readonly lossFraction: number;
}

/** How coarsely the stand-in is computed. */
export interface Coarseness {
  /** Shells of a line; default 12. */
  readonly shells?: number;
  /** Longest step [s]; default 40. */
  readonly longestStepS?: number;
}

/** How much of the roast is kept. */
interface Only extends Coarseness {
  readonly aimOnly?: boolean;
  readonly timesOnly?: boolean;
}

/**
 * A few radial lines that stand in for a whole roast, and what to correct them by: their own figures and the whole roast's for the
 * same undisturbed cook. Plain data, so that it can be handed to a worker.
 */
export interface StandIn {
  readonly roast: Roast;
  readonly request: PlanRequest;
  readonly options: CookOptions;
  readonly body: RoastBody;
  /** Place aimed at [mm] and the index of its line. */
  readonly aimMm: number;
  readonly aimLine: number;
  /** What the thermometer shows at the pull [°C]. */
  readonly pullC: number;
  /** Minutes from the beginning of the first oven or bath stage to that of the last. */
  readonly earlierMinutes: number;
  /** Middles of the slices [mm] and radii there over that of the aimed-at place. */
  readonly slices: readonly {
    readonly atMm: number;
    readonly peakC: number;
    readonly radius: number;
  }[];
  /** Radii of the lines over that of the aimed-at one. */
  readonly lineRadii: readonly number[];
  readonly whole: CookFigures;
  readonly lines: CookFigures;
}

const SHELLS = 12;
const LONGEST_STEP_S = 40;
const FIRST_STEP_S = 2;
const SAME_PLACE = 0.02; // of the radius: lines closer than that tell nothing new

/** Places of the lines: the aim, the thickest and the thinnest slice, as far as they differ. */
function placesOf(plan: Plan, aimMm: number): number[] {
  const { profile } = plan.roast;
  const radius = (mm: number): number => Math.sqrt(areaAt(profile, mm / 1000));
  const middles = plan.slices.map((slice) => slice.middleMm);
  const places = [aimMm];
  for (const sign of [1, -1]) {
    const far = middles.reduce(
      (best, mm) => (sign * radius(mm) > sign * radius(best) ? mm : best),
      aimMm,
    );
    if (Math.abs(radius(far) / radius(aimMm) - 1) > SAME_PLACE) places.push(far);
  }
  return places.sort((a, b) => a - b);
}

const LEAST_MINUTES = 1; // of the last oven or bath stage: below, there is no time to be in doubt about
const LEAST_RISE_K = 1; // of the middle up to the pull: about what a thermometer errs. Judgement
const START_DEVIATIONS = 2; // of the start's doubt: a cook in twenty would otherwise begin at the pull temperature. Judgement
const LEAST_LINE_SHARE = 0.25; // of the whole roast's minutes: quicker lines do not stand for it. Judgement

/**
 * Whether the pull comes before the middle has warmed by more than is in doubt about the start: the thermometer may then show the
 * pull temperature at once, and minutes to it mean nothing.
 *
 * @param startSpreadK - standard deviation of the start temperature
 */
export function pulledTooEarly({ history, pull, aim }: Plan, startSpreadK = 0): boolean {
  if (!(pull.heatMinutes >= LEAST_MINUTES)) return true;
  const row = history.stages.find(({ stage }) => isHeat(stage))?.firstRow ?? 0;
  const riseK = pull.centreC - axisAt(history, aim.point, row);
  return !(riseK >= Math.max(LEAST_RISE_K, START_DEVIATIONS * startSpreadK));
}

const tooEarly = (plan: Plan): RoastError =>
  new RoastError('the pull comes too early: there is nothing to forecast', {
    code: 'out-of-range',
    path: ['pull'],
    found: plan.pull.heatMinutes,
    accepted: 'a pull after the middle has warmed by some kelvin',
  });

/**
 * Prepares the lines that stand in for a plan's roast; nothing for a pull so early that lines and roast have nothing in common.
 *
 * @param coarseness - `aimOnly` keeps the aimed-at place alone, `timesOnly` looks no further than the pull
 * @throws RoastError `unreachable` where the lines never reach the pull temperature
 */
export function standInIfAny(
  plan: Plan,
  request: PlanRequest,
  options: CookOptions = {},
  coarseness: Only = {},
): StandIn | undefined {
  if (pulledTooEarly(plan)) return undefined;
  const { roast, history, pull, aim } = plan;
  const aimMm =
    aim.point.atMm === 'coldest'
      ? 1000 * history.body.atM[coldestAxis(history, pull.row).station]
      : aim.point.atMm;
  const places = coarseness.aimOnly ? [aimMm] : placesOf(plan, aimMm);
  const body = linesOf(roast, places, coarseness.shells ?? SHELLS);
  const aimLine = places.indexOf(aimMm);
  const aimArea = areaAt(roast.profile, aimMm / 1000);
  const coarse: StandIn = {
    roast,
    request,
    options: {
      ...options,
      longestStepS: coarseness.longestStepS ?? LONGEST_STEP_S,
      firstStepS: FIRST_STEP_S,
      fields: false,
    },
    body,
    aimMm,
    aimLine,
    pullC: pull.centreC,
    earlierMinutes: pull.minutes - pull.heatMinutes,
    slices: plan.slices.map((slice) => ({
      atMm: slice.middleMm,
      peakC: slice.peakCentreC,
      radius: Math.sqrt(areaAt(roast.profile, slice.middleMm / 1000) / aimArea),
    })),
    lineRadii: Array.from(body.body.radiusM, (r) => r / body.body.radiusM[aimLine]),
    whole: {
      heatMinutes: pull.heatMinutes,
      pullCentreC: pull.centreC,
      peakC: plan.peak.centreC,
      linePeaksC: [],
      lossFraction: plan.loss.fraction,
    },
    lines: NO_FIGURES,
  };
  const lines = coarseness.timesOnly
    ? { ...NO_FIGURES, heatMinutes: cookMinutes(coarse, NO_DEVIATION) }
    : cookLines(coarse, NO_DEVIATION);
  if (lines.heatMinutes === Number.POSITIVE_INFINITY) {
    throw new RoastError(
      `the middle only just reaches ${pull.centreC.toFixed(1)} °C in this oven: its time cannot be forecast`,
      {
        code: 'unreachable',
        path: ['pull'],
        found: pull.centreC,
        accepted: 'a lower aim or more heat',
      },
    );
  }
  return lines.heatMinutes < LEAST_LINE_SHARE * pull.heatMinutes ? undefined : { ...coarse, lines };
}

/**
 * {@link standInIfAny}, for who cannot do without.
 *
 * @param startSpreadK - standard deviation of the start temperature, where a pull within its doubt is to be refused
 * @throws RoastError `out-of-range` for a pull before the middle has warmed, `unreachable` as there
 */
export function standInFor(
  plan: Plan,
  request: PlanRequest,
  options: CookOptions,
  coarseness: Only & { readonly startSpreadK?: number },
): StandIn {
  const { startSpreadK, ...only } = coarseness;
  if (pulledTooEarly(plan, startSpreadK)) throw tooEarly(plan);
  const standIn = standInIfAny(plan, request, options, only);
  if (standIn === undefined) throw tooEarly(plan);
  return standIn;
}

const NO_FIGURES: CookFigures = {
  heatMinutes: Number.POSITIVE_INFINITY,
  pullCentreC: Number.NaN,
  peakC: Number.NaN,
  linePeaksC: [],
  lossFraction: Number.NaN,
};

/** A cook of the lines with deviations, fresh from the refrigerator. */
export function linesRun(standIn: StandIn, by: Deviations): CookRun {
  const { roast, options } = varied(standIn.roast, standIn.options, by);
  return new CookRun(roast, { ...options, body: thickened(standIn.body, by.size) });
}

/** The same at the beginning of the last oven or bath stage. */
function startLines(standIn: StandIn, by: Deviations): CookRun {
  const run = linesRun(standIn, by);
  for (const stage of standIn.request.before) run.run(stage);
  return run;
}

/** Cooks the lines until the thermometer shows the pull temperature; returns the minutes it took, Infinity if it never does. */
function cookToPull(run: CookRun, standIn: StandIn, by: Deviations): number {
  const startS = run.atS;
  const at = { atMm: standIn.aimMm, offAxis: Math.min(1, by.probe) };
  try {
    run.run({ ...standIn.request.heat, until: { reachesC: standIn.pullC, at } });
  } catch (error) {
    if (error instanceof RoastError && error.code === 'unreachable')
      return Number.POSITIVE_INFINITY;
    throw error;
  }
  return (run.atS - startS) / 60;
}

/** Minutes of the last oven or bath stage up to the pull, by the lines. */
export const cookMinutes = (standIn: StandIn, by: Deviations): number =>
  cookToPull(startLines(standIn, by), standIn, by);

/** Cooks the lines until the thermometer shows the pull temperature, and through what follows. */
export function cookLines(standIn: StandIn, by: Deviations): CookFigures {
  const run = startLines(standIn, by);
  const heatMinutes = cookToPull(run, standIn, by);
  if (heatMinutes === Number.POSITIVE_INFINITY) return NO_FIGURES;
  return { heatMinutes, ...afterPull(run, standIn) };
}

/** Runs what follows the pull; calls `each` after every step. */
export function afterPull(
  run: CookRun,
  standIn: StandIn,
  each: () => void = () => undefined,
): Omit<CookFigures, 'heatMinutes'> {
  const aim = { atMm: standIn.aimMm };
  const pullCentreC = run.temperatureOf(aim);
  let peakC = pullCentreC;
  const onStep = (): boolean => {
    peakC = Math.max(peakC, run.temperatureOf(aim));
    each();
    return false;
  };
  for (const stage of standIn.request.after) run.run(stage, { onStep });
  const { hottestC, evaporatedKg, drippedKg } = run.state;
  const nodes = run.body.body.mesh.shells + 1;
  const linePeaksC = Array.from(standIn.lineRadii, (_, line) => hottestC[line * nodes]);
  const sum = (values: Float64Array): number => values.reduce((a, b) => a + b, 0);
  return {
    pullCentreC,
    peakC,
    linePeaksC,
    lossFraction: (sum(evaporatedKg) + sum(drippedKg)) / sum(standIn.body.rawKg),
  };
}

/** The lines' minutes as the whole roast would take them, from the first oven or bath stage on, with the model's own error. */
export function wholeMinutes(standIn: StandIn, heatMinutes: number, by: Deviations): number {
  const { whole, lines, earlierMinutes } = standIn;
  const corrected = (heatMinutes / lines.heatMinutes) * whole.heatMinutes;
  return Math.max(earlierMinutes, by.modelTime * (earlierMinutes + corrected));
}

/** A cook as the whole roast would have it: the lines' change carried over to the whole roast's figures. */
export interface MemberFigures {
  /** Minutes from the beginning of the first oven or bath stage to the pull. */
  readonly minutes: number;
  readonly peakC: number;
  readonly riseK: number;
  readonly lossFraction: number;
  readonly slicePeaksC: readonly number[];
}

/** Corrects the lines' figures to the whole roast and adds the errors of the model itself. */
export function wholeFigures(
  standIn: StandIn,
  figures: CookFigures,
  by: Deviations,
): MemberFigures {
  const { whole, lines } = standIn;
  const pullCentreC = figures.pullCentreC + whole.pullCentreC - lines.pullCentreC;
  const riseK =
    (figures.peakC -
      figures.pullCentreC +
      whole.peakC -
      whole.pullCentreC -
      (lines.peakC - lines.pullCentreC)) *
    by.modelRise;
  const peakC = pullCentreC + riseK;
  const extraK = peakC - (whole.peakC + figures.peakC - lines.peakC); // of the model's own error in the rise
  return {
    minutes: wholeMinutes(standIn, figures.heatMinutes, by),
    peakC,
    riseK,
    lossFraction: (figures.lossFraction / lines.lossFraction) * whole.lossFraction,
    slicePeaksC: standIn.slices.map(
      ({ peakC: nominalC, radius }) => nominalC + changeAt(standIn, figures, radius) + extraK,
    ),
  };
}

/** How much a slice's peak moved: straight lines in the radius between the lines that were cooked. */
function changeAt({ lineRadii, lines }: StandIn, figures: CookFigures, radius: number): number {
  const known = lineRadii
    .map((r, i) => ({ r, change: figures.linePeaksC[i] - lines.linePeaksC[i] }))
    .sort((a, b) => a.r - b.r);
  if (radius <= known[0].r) return known[0].change;
  for (let i = 1; i < known.length; i++) {
    const [low, high] = [known[i - 1], known[i]];
    if (radius <= high.r) {
      return low.change + ((radius - low.r) / (high.r - low.r)) * (high.change - low.change);
    }
  }
  return known[known.length - 1].change;
}
