import {
  ACCEPTED,
  bodyOf,
  type CookOptions,
  CookRun,
  type History,
  type OvenRoast,
  type Stage,
  thickened,
} from '../cook/index.js';
import { RoastError } from '../errors.js';
import {
  type Belief,
  type BetterPull,
  type Deviations,
  NO_DEVIATION,
  varied,
} from '../forecast/index.js';
import { judgeSafety, judgeSlices, SAFETY_LIMITS } from '../judge/index.js';
import { type Plan, type PlanRequest, peakOver, searchPull } from '../plan/index.js';

/** What of the advice depends on the plan alone. */
export interface CourseGround {
  readonly plan: Plan;
  readonly request: PlanRequest;
  readonly options: CookOptions;
  /** Minutes of the plan's last heat stage over those of the coarse mesh. */
  readonly stretch: number;
}

/** Where a cook stands. Minutes count from the beginning of the first oven or bath stage. */
export interface CourseState {
  readonly nowMinutes: number;
  /** What the thermometer shows [°C]; NaN where it shows nothing. */
  readonly centreC: number;
  /** What the fit of the log found. */
  readonly beliefs: readonly Belief[];
  /** How much later than wished the roast would be served [min]; negative: earlier. */
  readonly lateMinutes?: number;
  /** The pull that the fit finds better than the planned one. */
  readonly betterPull?: BetterPull;
}

/** A setting of the oven from now on, with the pull that comes out at the same peak as the oven left alone. */
export interface OvenChange {
  readonly ovenC: number;
  /** From now to the pull. */
  readonly minutes: number;
  /** Sooner than with the oven left alone [min]; negative: later. */
  readonly gainMinutes: number;
  /** What the thermometer shows at that pull [°C]: after a hotter oven the roast climbs farther, so it is pulled earlier. */
  readonly pullC: number;
  /** Of the aimed-at slice, else the middle one: the ring that is done through [mm], and the share of its face in its band. */
  readonly rimMm: number;
  readonly evenness: number;
  /** Between the peaks of the most and the least done slice [K]. */
  readonly spreadK: number;
}

/** What a cook can do about a plan that went wrong. */
export type CourseAdvice =
  | {
      readonly code: 'hotter' | 'cooler';
      readonly lateMinutes: number;
      /** The oven left as it is. */
      readonly stay: OvenChange;
      readonly changes: readonly OvenChange[];
    }
  | {
      readonly code: 'pull-now';
      /** Above the planned pull, or the better one if that is hotter [K]. */
      readonly pastK: number;
      /** Peak when it rests as planned, and when it rests without foil [°C]. */
      readonly peakC: number;
      readonly openPeakC: number;
    };

const COARSE = { stations: 6, shells: 12, longestStepS: 40, fields: false } as const; // differences only
const STEPS_K = [20, 40] as const;
const WORTH_MINUTES = 5; // off by less, leave the oven alone. Judgement
const GAIN_MINUTES = 0.5; // less is not worth turning a knob
const HOTTEST_C = 260; // the model's range: docs/model.md
const PAST_K = 1; // past the pull by more than a thermometer's error

/**
 * Prepares advice: the plan once more on the coarse mesh, to be compared with.
 *
 * @example
 * const mesh = { stations: 8, shells: 12 }
 * const ground = courseGround(planCook(roast, request, mesh), request, mesh)
 */
export function courseGround(
  plan: Plan,
  request: PlanRequest,
  options: CookOptions = {},
): CourseGround {
  const run = new CookRun(plan.roast, { ...options, ...COARSE });
  for (const stage of request.before) run.run(stage);
  const startS = run.atS;
  run.run({ ...request.heat, until: { reachesC: plan.pull.centreC, at: plan.aim.point } });
  const minutes = (run.atS - startS) / 60;
  return { plan, request, options, stretch: minutes > 0 ? plan.pull.heatMinutes / minutes : 1 };
}

/**
 * What to do when a plan goes wrong; empty while it goes well. Everything is simulated on a mesh of 6 stations and 12 shells, with
 * the roast and the oven as the log's fit believes them to be, from where the cook stands now:
 *
 * - late (or early) by 5 minutes or more: the oven turned up (or down) by 20 and 40 K within 60 to 260 °C, its air and walls
 *   following as an oven's do, each with the pull after which the axis peaks as it would with the oven left alone and the planned
 *   pull temperature waited for, or the better one where there is one;
 * - the thermometer past the pull, and past the better one where there is one: the peak when the roast is pulled now and rests as planned, and when it rests without foil.
 *
 * @example
 * const mesh = { stations: 8, shells: 12 }
 * const ground = courseGround(planCook(roast, request, mesh), request, mesh)
 * // nothing is known better than before, and it would be 10 min late
 * const advice = adviseOnCourse(ground, { nowMinutes: 15, centreC: 12, beliefs: [], lateMinutes: 10 })
 * advice.map(({ code }) => code) // => ['hotter']
 */
export function adviseOnCourse(ground: CourseGround, state: CourseState): CourseAdvice[] {
  const { request } = ground;
  const { lateMinutes = 0, centreC, betterPull } = state;
  const plannedC = ground.plan.pull.centreC;
  const pastK = centreC - Math.max(plannedC, betterPull?.centreC ?? plannedC);
  if (pastK > PAST_K) return [pullNow(ground, state, pastK)];
  if (Math.abs(lateMinutes) < WORTH_MINUTES || request.heat.kind !== 'roast') return [];
  return turnOven(ground, state, request.heat, lateMinutes);
}

/** The cook as the fit believes it went, up to now; and how many minutes one of its minutes stands for. */
function upToNow(ground: CourseGround, { nowMinutes, beliefs }: CourseState) {
  const { plan, request, options } = ground;
  const by: Deviations = {
    ...NO_DEVIATION,
    ...Object.fromEntries(beliefs.map(({ input, value }) => [input, value])),
  };
  const { roast, options: changed } = varied(plan.roast, { ...options, ...COARSE }, by);
  const run = new CookRun(roast, { ...changed, body: thickened(bodyOf(roast, COARSE), by.size) });
  for (const stage of request.before) run.run(stage);
  const stretch = by.modelTime * ground.stretch;
  const earlier = plan.pull.minutes - plan.pull.heatMinutes; // of heat before the last heat stage
  const minutes = Math.max(0, nowMinutes - earlier) / stretch;
  run.run({ ...request.heat, until: { minutes } });
  return { run, stretch, probe: { ...plan.aim.point, offAxis: Math.min(1, by.probe) } };
}

function pullNow(ground: CourseGround, state: CourseState, pastK: number): CourseAdvice {
  const { plan, request } = ground;
  const { run, probe } = upToNow(ground, state);
  // the simulated meat may be a little behind or ahead of the thermometer; what it adds after the pull is what counts
  const shiftK = state.centreC - run.temperatureOf(probe);
  const now = run.save();
  const peakAfter = (stages: readonly Stage[]): number => {
    run.restore(now);
    return peakOver(run, stages, plan.aim.point) + shiftK;
  };
  return {
    code: 'pull-now',
    pastK,
    peakC: peakAfter(request.after),
    openPeakC: peakAfter(
      request.after.map((stage) => (stage.kind === 'rest' ? { ...stage, tented: false } : stage)),
    ),
  };
}

function turnOven(
  ground: CourseGround,
  state: CourseState,
  heat: OvenRoast,
  lateMinutes: number,
): CourseAdvice[] {
  const { plan, request } = ground;
  const { run, stretch, probe } = upToNow(ground, state);
  const { aim } = plan;
  const now = run.save();
  const nowS = run.atS;
  /** Minutes of model time to the pull in an oven set to `ovenC`; nothing where there is no such pull. */
  const minutesTo = (search: () => void): number | undefined => {
    run.restore(now);
    try {
      search();
    } catch (error) {
      // past the peak already, or never there: no way to offer
      if (error instanceof RoastError && error.code === 'unreachable') return undefined;
      throw error;
    }
    return (run.history().stages[request.before.length + 1].endS - nowS) / 60;
  };
  const cook = (ovenC: number, minutes: number): Omit<OvenChange, 'gainMinutes'> => {
    run.restore(now);
    run.run({ ...heat, ovenC, until: { minutes } });
    const pullC = run.temperatureOf(probe);
    for (const stage of request.after) run.run(stage);
    return { ovenC, minutes: stretch * minutes, pullC, ...outcome(plan, run.history()) };
  };
  const left = minutesTo(() =>
    run.run({
      ...heat,
      until: { reachesC: state.betterPull?.centreC ?? plan.pull.centreC, at: probe },
    }),
  );
  if (left === undefined) return [];
  const peakC = peakOver(run, request.after, aim.point);
  const stay = cook(heat.ovenC, left);
  const sign = lateMinutes > 0 ? 1 : -1;
  const changes = STEPS_K.map((k) => heat.ovenC + sign * k)
    .filter((ovenC) => ovenC >= ACCEPTED.ovenC[0] && ovenC <= HOTTEST_C)
    .flatMap((ovenC): OvenChange[] => {
      const minutes = minutesTo(() =>
        searchPull(run, {
          heat: { ...heat, ovenC },
          after: request.after,
          point: aim.point,
          targetC: peakC,
          ...(aim.at === 'coldest' ? { atLeastAtPullC: SAFETY_LIMITS.wholeCutC } : {}),
        }),
      );
      if (minutes === undefined) return [];
      const change = cook(ovenC, minutes);
      const gainMinutes = stay.minutes - change.minutes;
      const safe = heatsInTime(plan, run.history());
      return safe && sign * gainMinutes >= GAIN_MINUTES ? [{ ...change, gainMinutes }] : [];
    });
  if (changes.length === 0) return [];
  const code = sign > 0 ? 'hotter' : 'cooler';
  return [{ code, lateMinutes, stay: { ...stay, gainMinutes: 0 }, changes }];
}

/** How evenly a cook comes out. */
function outcome(
  { slices: cuts, aim }: Plan,
  history: History,
): Pick<OvenChange, 'rimMm' | 'evenness' | 'spreadK'> {
  const slices = judgeSlices(history, cuts, aim.scale);
  const wanted = slices[aim.slice < 0 ? Math.floor((slices.length - 1) / 2) : aim.slice];
  const peaks = slices.map(({ peakCentreC }) => peakCentreC);
  return {
    rimMm: wanted.rimMm,
    evenness: wanted.evenness,
    spreadK: Math.max(...peaks) - Math.min(...peaks),
  };
}

/** A cooler oven must not leave the middle lukewarm for longer than is safe. */
function heatsInTime({ safety: { atRisk } }: Plan, history: History): boolean {
  const row = history.rows - 1;
  const { heatingMinutes, heatingLimitMinutes } = judgeSafety(history, {
    pullRow: row,
    peakRow: row,
    atRisk,
  });
  return heatingMinutes <= heatingLimitMinutes;
}
