import {
  type CookOptions,
  CookRun,
  coldestAxis,
  type History,
  type Point,
  type Roast,
  seriesAt,
  stationsAround,
} from '../cook/index.js';
import { RoastError } from '../errors.js';
import { valueAtRadius } from '../heat/index.js';
import {
  cookingLoss,
  cutsOf,
  judgeSafety,
  judgeSlices,
  PORTION_KG,
  SAFETY_LIMITS,
  warningsOf,
} from '../judge/index.js';
import { type Aim, settleAim } from './aim.js';
import { checkRequest } from './checkRequest.js';
import type { Checkpoint, OwnPlanRequest, Peak, Plan, Pull, PullRequest } from './plan.js';
import { searchPull } from './pullSearch.js';
import { putBack } from './putBack.js';
import { trialCook } from './trialCook.js';

// of the oven time: common practice, no source; earlier where the model is likely to be slow (docs/validation.md)
const FIRST_LOOK_SHARE = 0.75;
const SLOW_FIRST_LOOK_SHARE = 0.5;
const PULL_C = [20, 90] as const;
const PUT_BACK_STEP_S = 120;
const PUT_BACK_MISS_K = 3; // as far behind as the rule is given for. Judgement
const PULL_MINUTES = [0, 24 * 60] as const;

/** Temperature of a fixed point in a row [°C], by its axis. */
function axisSeries(history: History, atMm: number): (row: number) => number {
  const between = stationsAround(history.body, atMm);
  const { stations } = history.body.body;
  return (row) => seriesAt(history.axisC, stations, row, between);
}

function checkPull(pull: PullRequest): void {
  const [found, [low, high], unit] =
    'minutes' in pull
      ? ([pull.minutes, PULL_MINUTES, 'min'] as const)
      : (['centreC' in pull ? pull.centreC : pull.reachesC, PULL_C, '°C'] as const);
  if (found >= low && found <= high) return;
  const accepted = `${low} to ${high} ${unit}`;
  throw new RoastError(`the pull is at ${found} ${unit}; it can be ${accepted}`, {
    code: Number.isFinite(found) ? 'out-of-range' : 'not-a-number',
    path: ['pull'],
    found,
    accepted,
  });
}

/**
 * Plans one cook: finds the pull so that the aimed-at slice peaks on target (to 0.1 °C) during what follows, or simulates the pull
 * that was given, and judges the result.
 *
 * @throws RoastError `unreachable`, `unsafe`, `out-of-range`, `unknown-name`, `missing`
 * @example
 * const plan = planCook(tenderloin({ massKg: 2.2 }), {
 *   before: [temper({ minutes: 30 })],
 *   heat: roastIn({ ovenC: 230, until: { minutes: 0 } }),
 *   after: [rest({ minutes: 20 })],
 * })
 */
export function planCook(roast: Roast, request: OwnPlanRequest, options: CookOptions = {}): Plan {
  const plan = planWithoutPutBack(roast, request, options);
  const { heat } = request;
  if (heat.kind !== 'roast' || plan.aim.at === 'coldest' || plan.afterPull.length < 2) return plan;
  // a pull that was given may miss the aim: how far behind it a roast is then says nothing
  if (Math.abs(plan.peak.centreC - plan.aim.targetC) > PUT_BACK_MISS_K) return plan;
  const trial = trialCook(roast, options, PUT_BACK_STEP_S);
  const back = putBack(trial, { ...request, heat }, plan);
  return back === undefined ? plan : { ...plan, putBack: back };
}

/**
 * {@link planCook} without the rule for a roast that fell behind, which costs some more simulations.
 *
 * @example
 * planWithoutPutBack(roast, request).pull.minutes === plan.pull.minutes // => true
 */
export function planWithoutPutBack(
  roast: Roast,
  request: OwnPlanRequest,
  options: CookOptions = {},
): Plan {
  checkRequest(request, roast);
  const atRisk = request.atRisk ?? false;
  const cuts = cutsOf(roast, request.portionKg ?? PORTION_KG);
  const aim = settleAim(roast, cuts, request.aim ?? {}, atRisk);
  const { before, heat, after, pull } = request;
  if (pull !== undefined) checkPull(pull);
  const run = new CookRun(roast, options);
  for (const stage of before) run.run(stage);
  if (pull === undefined) {
    searchPull(run, {
      heat,
      after,
      point: aim.point,
      targetC: aim.targetC,
      ...(aim.at === 'coldest' ? { atLeastAtPullC: SAFETY_LIMITS.wholeCutC } : {}),
    });
  } else {
    run.run({
      ...heat,
      until: 'centreC' in pull ? { reachesC: pull.centreC, at: aim.point } : pull,
    });
    for (const stage of after) run.run(stage);
  }
  const history = run.history();
  const plan = judge(history, before.length, cuts, aim, atRisk);
  if (aim.at === 'coldest') refuseUnsafe(plan);
  return plan;
}

/** A given pull or a rest too short must not slip past the rules that leave no choice. */
function refuseUnsafe({ safety }: Plan): void {
  if (safety.meetsWholeCutGuidance) return;
  const { wholeCutC, wholeCutRestMinutes } = SAFETY_LIMITS;
  const here =
    safety.coldestC < wholeCutC
      ? `it is ${safety.coldestC.toFixed(1)} °C at the pull`
      : 'the rest is too short';
  throw new RoastError(
    `${safety.intact ? 'with people at risk' : 'for meat that is not intact'} the coldest spot must reach ${wholeCutC} °C ` +
      `(145 °F) before the heat ends and rest ${wholeCutRestMinutes} minutes; here ${here}`,
    {
      code: 'unsafe',
      path: ['pull'],
      found: safety.coldestC,
      accepted: `a later pull, and a rest of at least ${wholeCutRestMinutes} min`,
    },
  );
}

function judge(
  history: History,
  heatIndex: number,
  cuts: ReturnType<typeof cutsOf>,
  aim: Aim,
  atRisk: boolean,
): Plan {
  const { roast, seconds, stages } = history;
  const heatRecord = stages[heatIndex];
  const pullRow = heatRecord.lastRow;
  const atMm = placeOf(history, aim.point, pullRow);
  const axis = axisSeries(history, atMm);
  const peakRow = highestRow(history, axis, pullRow);
  const firstHeat = stages.find(({ stage }) => stage.kind === 'roast' || stage.kind === 'bath');
  const heatStartS = firstHeat?.startS ?? heatRecord.startS;
  const pullS = seconds[pullRow];
  const pull: Pull = {
    atMinutes: pullS / 60,
    minutes: (pullS - heatStartS) / 60,
    heatMinutes: (pullS - heatRecord.startS) / 60,
    row: pullRow,
    centreC: axis(pullRow),
    coldestC: coldestAxis(history, pullRow).axisC,
    readingAtQuarterRadiusC: fieldAt(history, heatRecord.endFieldC, atMm, 0.25),
  };
  const peak: Peak = {
    atMinutes: seconds[peakRow] / 60,
    row: peakRow,
    centreC: axis(peakRow),
    riseC: axis(peakRow) - pull.centreC,
    endingKPerMinute: endingSlope(history, axis),
  };
  const at = (s: number): Checkpoint => ({
    atMinutes: s / 60,
    centreC: interpolate(history, axis, s),
  });
  const safety = judgeSafety(history, { pullRow, peakRow, atRisk });
  const warnings = warningsOf(history, safety, pull.centreC, peak);
  const slow = warnings.some(({ code }) => code === 'slow-oven' || code === 'cool-oven');
  const lookShare = slow ? SLOW_FIRST_LOOK_SHARE : FIRST_LOOK_SHARE;
  return {
    roast,
    history,
    aim,
    pull,
    peak,
    firstLook: at(heatRecord.startS + lookShare * (pullS - heatRecord.startS)),
    afterPull: restChecks(history).map(at),
    slices: judgeSlices(history, cuts, aim.scale),
    loss: cookingLoss(history),
    safety,
    warnings,
  };
}

const REST_CHECKS_S = [300, 600] as const;

/** When to look during the rest [s since the refrigerator]. */
function restChecks({ stages }: History): number[] {
  const resting = stages.find(({ stage }) => stage.kind === 'rest');
  if (resting === undefined) return [];
  return REST_CHECKS_S.map((s) => resting.startS + s).filter((s) => s <= resting.endS);
}

/** Place of a point along the length [mm]; "coldest" as it is in `row`. */
const placeOf = (history: History, point: Point, row: number): number =>
  point.atMm === 'coldest'
    ? 1000 * history.body.atM[coldestAxis(history, row).station]
    : point.atMm;

function highestRow(history: History, axis: (row: number) => number, fromRow: number): number {
  let best = fromRow;
  for (let row = fromRow; row < history.rows; row++) if (axis(row) > axis(best)) best = row;
  return best;
}

function endingSlope(history: History, axis: (row: number) => number): number {
  const last = history.rows - 1;
  const span = history.seconds[last] - history.seconds[last - 1];
  return span > 0 ? (60 * (axis(last) - axis(last - 1))) / span : 0;
}

/** Temperature of a stored field at a place and a fraction of the radius [°C]. */
function fieldAt(history: History, fieldC: Float64Array, atMm: number, fraction: number): number {
  const { mesh } = history.body.body;
  const { station, next, part } = stationsAround(history.body, atMm);
  const value = (index: number): number =>
    valueAtRadius(mesh, fieldC, fraction, index * (mesh.shells + 1));
  return value(station) + part * (value(next) - value(station));
}

function interpolate(history: History, axis: (row: number) => number, s: number): number {
  const { seconds, rows } = history;
  if (rows < 2) return axis(0); // a cook of no minutes
  let row = 1;
  while (row < rows - 1 && seconds[row] < s) row++;
  const span = seconds[row] - seconds[row - 1];
  const part = span > 0 ? (s - seconds[row - 1]) / span : 1;
  return axis(row - 1) + part * (axis(row) - axis(row - 1));
}
