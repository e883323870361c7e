import {
  type CookOptions,
  type CookRun,
  type Point,
  type Stage,
  seriesAt,
  stationsAround,
  temper,
  type Until,
} from '../cook/index.js';
import { RoastError } from '../errors.js';
import { SAFETY_LIMITS } from '../judge/index.js';
import { peakOver } from './peakOver.js';
import type { Plan } from './plan.js';
import { CARVING_MINUTES, pulledStage, type Step, type StepKind } from './steps.js';
import { trialCook } from './trialCook.js';

/** How far a step may slip, earlier or later, and where that comes from. */
export interface Tolerance {
  /** Above 0. */
  readonly toleranceMinutes: number;
  /** The simulation, a published limit of safety, or judgement. */
  readonly toleranceFrom: 'simulated' | 'limit' | 'judgement';
}

/** Slips that do no harm [min]. All judgement. */
const JUDGED: { readonly [K in StepKind]: number } = {
  'take-out': 5,
  wait: 5,
  'oven-on': 5,
  'bath-on': 10,
  'pan-on': 2,
  sear: 5,
  'into-oven': 5, // everything after it, serving too, moves as far
  'into-bath': 5,
  begin: 5,
  wash: 10,
  'first-look': 5,
  pull: 1,
  check: 1,
  rest: 2,
  carve: 2,
  serve: 5,
};

// What a slip may cost; judgement. A kelvin is a third of the way from a usual target to the edge of its band.
const PULL_MOVES_MINUTES = 2;
const PEAK_MOVES_K = 1;
const READING_MOVES_K = 1;
const COOLS_K = 3; // a roast this far below its peak is still hot

const TRIAL_STEP_S = 60;
const ROUNDING = 1e-6; // a difference of two times is not exact
const TRIAL_WAIT_MINUTES = 15;
const TRIAL_PULL_MINUTES = 2;
const LONGEST_REST_MINUTES = 60;

/** A step's slip is given in half minutes, never as less than half of one. */
const RANGE: { readonly [K in StepKind]?: readonly [low: number, high: number] } = {
  'take-out': [1, 30],
  pull: [0.5, 15],
  check: [0.5, 5],
  'first-look': [0.5, 15],
  carve: [1, 30],
};

const settled = (
  kind: StepKind,
  minutes: number,
  toleranceFrom: Tolerance['toleranceFrom'],
): Tolerance => {
  const [low, high] = RANGE[kind] ?? [0.5, Number.POSITIVE_INFINITY];
  const halves = Math.floor(2 * minutes + ROUNDING) / 2; // down: rather strict than lax
  return { toleranceMinutes: Math.min(high, Math.max(low, halves)), toleranceFrom };
};

const judged = (kind: StepKind): Tolerance => ({
  toleranceMinutes: JUDGED[kind],
  toleranceFrom: 'judgement',
});

/** How far each step may slip. Simulates a few coarse variants of the plan's cook. */
export function tolerancesOf(
  plan: Plan,
  steps: readonly Step[],
  options: CookOptions,
): readonly Tolerance[] {
  const trial = tryOut(plan, options);
  const { pull } = plan;
  const { atMinutes, spareMinutes = Number.POSITIVE_INFINITY } = plan.firstLook;
  const about: { readonly [K in StepKind]?: (step: Step) => Tolerance } = {
    'take-out': () => takingOut(plan, trial),
    'first-look': () =>
      settled('first-look', Math.min(spareMinutes, (pull.atMinutes - atMinutes) / 2), 'simulated'),
    pull: () => pulling(trial),
    check: ({ atMinutes }) => checking(plan, atMinutes),
    carve: ({ index }) => (index === undefined ? carving(plan, trial) : judged('carve')),
  };
  return steps.map((step) => about[step.kind]?.(step) ?? judged(step.kind));
}

/** What a few variants of the plan's cook show. */
interface Trial {
  /** The pull comes so much sooner for a minute more on the counter [-]; absent where it cannot be told. */
  readonly pullPerWait?: number;
  /** The peak moves so much for a minute of pull [K/min]; absent without heat. */
  readonly peakPerPull?: number;
  /** Minutes the rest can go on; absent when the cook does not end with one. */
  readonly restGoesOnMinutes?: number;
}

function tryOut(plan: Plan, options: CookOptions): Trial {
  const { aim, pull, history } = plan;
  const stages = history.stages.map(({ stage }) => stage);
  const pulled = pulledStage(plan);
  const before = stages.slice(0, pulled);
  const after = stages.slice(pulled + 1);
  const run = trialCook(plan.roast, options, TRIAL_STEP_S);
  const cold = run.save();
  for (const stage of before) run.run(stage);
  const begun = run.save();
  /** Heats; returns how long [min]. */
  const heat = (until: Until): number => {
    const startS = run.atS;
    run.run({ ...stages[pulled], until } as Stage);
    return (run.atS - startS) / 60;
  };

  const there = { reachesC: pull.centreC, at: aim.point };
  const [first] = before;
  let heatMinutes = pull.heatMinutes;
  let pullPerWait: number | undefined;
  try {
    heatMinutes = heat(there);
    if (first?.kind === 'temper') {
      run.restore(cold);
      run.run(temper({ minutes: TRIAL_WAIT_MINUTES, roomC: first.roomC }));
      for (const stage of before) run.run(stage);
      pullPerWait = Math.abs(heatMinutes - heat(there)) / TRIAL_WAIT_MINUTES;
    }
  } catch (error) {
    // a centre that creeps may miss its pull by a hair on another mesh
    if (!(error instanceof RoastError && error.code === 'unreachable')) throw error;
  }
  const peakAfter = (minutes: number): number => {
    run.restore(begun);
    heat({ minutes });
    return peakOver(run, after, aim.point);
  };
  const earlier = Math.min(TRIAL_PULL_MINUTES, heatMinutes / 2);
  const earlierC = earlier > 0 ? peakAfter(heatMinutes - earlier) : undefined;
  run.restore(begun);
  heat({ minutes: heatMinutes });
  const point = run.fixed(aim.point);
  const peakC = peakOver(run, after, point);
  return {
    ...(pullPerWait === undefined ? {} : { pullPerWait }),
    ...(earlierC === undefined ? {} : { peakPerPull: (peakC - earlierC) / earlier }),
    ...restOn(run, after[after.length - 1], point, peakC),
  };
}

/** Rests on until the centre has climbed a kelvin past its peak or fallen three below it. */
function restOn(
  run: CookRun,
  resting: Stage | undefined,
  point: Point,
  peakC: number,
): Pick<Trial, 'restGoesOnMinutes'> {
  if (resting?.kind !== 'rest') return {};
  const startS = run.atS;
  const onStep = (): boolean => {
    const nowC = run.temperatureOf(point);
    return nowC > peakC + PEAK_MOVES_K || nowC < peakC - COOLS_K;
  };
  run.run({ ...resting, until: { minutes: LONGEST_REST_MINUTES } }, { onStep });
  return { restGoesOnMinutes: (run.atS - startS) / 60 };
}

/** More or less time on the counter moves the pull; so much of it that the pull moves by two minutes. */
function takingOut({ history, safety }: Plan, { pullPerWait }: Trial): Tolerance {
  const [first] = history.stages;
  if (pullPerWait === undefined) return judged('take-out'); // without a wait everything moves with it
  const waits = (first.endS - first.startS) / 60; // later than that there is no wait left
  return withRoom('take-out', Math.min(PULL_MOVES_MINUTES / pullPerWait, waits), safety);
}

/** What is left of the time at room temperature, carving counted [min]. */
const roomLeft = ({ roomMinutes, roomLimitMinutes }: Plan['safety']): number =>
  roomLimitMinutes - roomMinutes - CARVING_MINUTES;

/** Tolerance from the simulation, unless the time at room temperature ends before. */
function withRoom(kind: StepKind, minutes: number, safety: Plan['safety']): Tolerance {
  const room = roomLeft(safety);
  return room < minutes ? settled(kind, room, 'limit') : settled(kind, minutes, 'simulated');
}

/** So many minutes that the peak moves by a kelvin. */
function pulling({ peakPerPull }: Trial): Tolerance {
  if (peakPerPull === undefined) return judged('pull');
  return settled('pull', peakPerPull > 0 ? PEAK_MOVES_K / peakPerPull : Infinity, 'simulated');
}

/** So many minutes that the reading to expect moves by a kelvin. */
function checking(plan: Plan, atMinutes: number): Tolerance {
  const axis = aimedAxis(plan);
  const { seconds, rows } = plan.history;
  let row = 1;
  while (row < rows - 1 && seconds[row] < 60 * atMinutes) row++;
  while (row > 1 && seconds[row] === seconds[row - 1]) row--;
  const slope = (60 * (axis(row) - axis(row - 1))) / (seconds[row] - seconds[row - 1]);
  return settled('check', READING_MOVES_K / Math.abs(slope), 'simulated');
}

/** Axis of the aimed-at place in a row of the history [°C]. */
function aimedAxis({ history, aim, pull }: Plan): (row: number) => number {
  const { stations } = history.body.body;
  if (aim.point.atMm !== 'coldest') {
    const at = stationsAround(history.body, aim.point.atMm);
    return (row) => seriesAt(history.axisC, stations, row, at);
  }
  const ofPull = history.axisC.subarray(pull.row * stations, (pull.row + 1) * stations);
  const station = ofPull.indexOf(Math.min(...ofPull));
  return (row) => history.axisC[row * stations + station];
}

/**
 * A rest may end sooner as long as the centre is within a kelvin of where it ends, and go on until it has climbed a kelvin past the
 * peak, fallen three below it, or used up its time at room temperature.
 */
function carving(plan: Plan, { restGoesOnMinutes }: Trial): Tolerance {
  if (restGoesOnMinutes === undefined) return judged('carve');
  const { history, safety } = plan;
  const last = history.stages[history.stages.length - 1];
  const axis = aimedAxis(plan);
  const endC = axis(last.lastRow);
  let row = last.lastRow;
  while (row > last.firstRow && Math.abs(axis(row - 1) - endC) <= PEAK_MOVES_K) row--;
  const needed = safety.meetsWholeCutGuidance ? SAFETY_LIMITS.wholeCutRestMinutes : 0;
  const earliestS = Math.max(history.seconds[row], last.startS + 60 * needed);
  const earlierMinutes = Math.max(0, last.endS - earliestS) / 60;
  return withRoom('carve', Math.min(restGoesOnMinutes, earlierMinutes), safety);
}
