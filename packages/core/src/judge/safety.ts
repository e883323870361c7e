import { coldestAxis, type History, type StageRecord } from '../cook/index.js';
import { LETHALITY, leastLogReduction } from './lethality.js';

/** Published limits the plan is held against; sources in docs/model.md and data/published/safety-guidance.json. */
export const SAFETY_LIMITS = {
  /** Whole cuts: this at the coldest spot before the heat ends, then the rest (USDA FSIS: 145 °F and 3 minutes). */
  wholeCutC: 62.8,
  wholeCutRestMinutes: 3,
  /** Taken from anything predicted after the pull: carryover is the model's weakest number (docs/model.md). */
  marginAfterPullK: 3,
  /** Perishable food out of the refrigerator (USDA FSIS: 2 h, 1 h above 32.2 °C / 90 °F). */
  roomMinutes: 120,
  hotRoomMinutes: 60,
  hotRoomC: 32.2,
  /** At or below this it is not out of the refrigerator (USDA FSIS: 40 °F). */
  coldC: 4.4,
  /** Coldest spot from 10 to 54.4 °C (FSIS 2021 cooking guideline, 50 to 130 °F in 6 h; from memory). */
  heatingFromC: 10,
  heatingToC: 54.4,
  heatingMinutes: 360,
} as const;

/** What the history means for safety. */
export interface Safety {
  /** Smallest log reduction of Salmonella on any axis, capped at what may be claimed. */
  readonly logReduction: number;
  /** The cap was reached: "more than". */
  readonly logReductionCapped: boolean;
  /** The coldest axis met the whole-cut guidance with the margin on everything predicted after the pull. */
  readonly meetsWholeCutGuidance: boolean;
  /** Minutes at room temperature: before the heat, and after the peak. */
  readonly roomMinutes: number;
  readonly roomBeforeMinutes: number;
  readonly roomAfterMinutes: number;
  readonly roomLimitMinutes: number;
  /** Minutes the coldest axis took from 10 to 54.4 °C, or until the end when it never got there. */
  readonly heatingMinutes: number;
  readonly heatingReached: boolean;
  readonly heatingLimitMinutes: number;
  /** Coldest axis at the pull, and the peak at that station [°C]. */
  readonly coldestC: number;
  readonly coldestPeakC: number;
  /** Coldest axis of the doubled part of a folded tail at the pull [°C]: outside surface lies in there. */
  readonly foldColdestC?: number;
  readonly intact: boolean;
  readonly atRisk: boolean;
}

const CROSSING_K = 1e-5; // a stage that ends on reaching a temperature ends this close to it

/** What the judge must know beside the history. */
export interface SafetyContext {
  /** Row of the pull and of the aimed-at slice's peak. */
  readonly pullRow: number;
  readonly peakRow: number;
  readonly atRisk: boolean;
  readonly limits?: Readonly<Record<keyof typeof SAFETY_LIMITS, number>>;
}

/**
 * Judges a cook's safety. Everything is taken on the axis, without any probe offset.
 *
 * @example
 * judgeSafety(cook, { pullRow: plan.pull.row, peakRow: plan.peak.row, atRisk: false }).meetsWholeCutGuidance // => false
 */
export function judgeSafety(history: History, context: SafetyContext): Safety {
  const limits = context.limits ?? SAFETY_LIMITS;
  const { pullRow, peakRow, atRisk } = context;
  const { body, roast, seconds } = history;
  const { stations } = body.body;
  const pullS = seconds[pullRow];
  const { station, axisC: coldestC } = coldestAxis(history, pullRow);
  let coldestPeakC = coldestC;
  for (let row = pullRow; row < history.rows; row++) {
    coldestPeakC = Math.max(coldestPeakC, history.axisC[row * stations + station]);
  }
  const logs = leastLogReduction(history, pullS, limits.marginAfterPullK);

  const room = roomTime(history, pullRow, peakRow, limits);
  const heating = heatingTime(history, limits.heatingFromC, limits.heatingToC);
  const fold = foldColdest(history, pullRow);
  return {
    logReduction: Math.min(logs, LETHALITY.claimedUpTo),
    logReductionCapped: logs > LETHALITY.claimedUpTo,
    meetsWholeCutGuidance: meetsGuidance(history, pullRow, limits),
    roomMinutes: room.before + room.after,
    roomBeforeMinutes: room.before,
    roomAfterMinutes: room.after,
    roomLimitMinutes: room.hottestC > limits.hotRoomC ? limits.hotRoomMinutes : limits.roomMinutes,
    heatingMinutes: heating.minutes,
    heatingReached: heating.reached,
    heatingLimitMinutes: limits.heatingMinutes,
    coldestC,
    coldestPeakC,
    ...(fold === undefined ? {} : { foldColdestC: fold }),
    intact: roast.intact,
    atRisk,
  };
}

/** Heat ends with the last stage that adds any; what happens after the pull counts with the margin. */
function meetsGuidance(
  history: History,
  pullRow: number,
  limits: Readonly<Record<keyof typeof SAFETY_LIMITS, number>>,
): boolean {
  const { stages } = history;
  // what follows the pull elsewhere than on a board or in a pan may chill: nothing is claimed for it
  if (stages.some(({ stage, firstRow }) => stage.kind === 'surroundings' && firstRow > pullRow)) {
    return false;
  }
  const lastHeat = stages.findLastIndex(
    ({ stage }) => stage.kind !== 'rest' && stage.kind !== 'temper',
  );
  if (lastHeat < 0) return false;
  const restS = stages
    .slice(lastHeat + 1)
    .reduce((sum, { startS, endS }) => sum + (endS - startS), 0);
  if (restS < 60 * limits.wholeCutRestMinutes) return false;
  const atPullC = coldestAxis(history, pullRow).axisC;
  const endRow = stages[lastHeat].lastRow;
  const predictedC =
    endRow > pullRow ? coldestAxis(history, endRow).axisC - limits.marginAfterPullK : atPullC;
  return Math.max(atPullC, predictedC) >= limits.wholeCutC - CROSSING_K;
}

/** Time at room temperature [min] and the hottest of the rooms [°C]. */
interface RoomTime {
  before: number;
  after: number;
  hottestC: number;
}

function roomTime(
  history: History,
  pullRow: number,
  peakRow: number,
  limits: Readonly<Record<keyof typeof SAFETY_LIMITS, number>>,
): RoomTime {
  const peakS = history.seconds[peakRow];
  const room: RoomTime = { before: 0, after: 0, hottestC: Number.NEGATIVE_INFINITY };
  for (const record of history.stages) {
    const { stage, startS, endS } = record;
    if (stage.kind === 'temper' || stage.kind === 'rest') {
      room.hottestC = Math.max(room.hottestC, stage.roomC);
    }
    if (stage.kind === 'temper') room.before += (endS - startS) / 60;
    if (stage.kind === 'rest') room.after += Math.max(0, endS - Math.max(startS, peakS)) / 60;
    if (stage.kind === 'surroundings') addOwn(room, history, record, pullRow, peakRow, limits);
  }
  return room;
}

/** Own surroundings are a room wherever their air neither keeps cold nor cooks. A step counts when it does so at either end. */
function addOwn(
  room: RoomTime,
  { seconds, airC }: History,
  { firstRow, lastRow }: StageRecord,
  pullRow: number,
  peakRow: number,
  limits: Readonly<Record<keyof typeof SAFETY_LIMITS, number>>,
): void {
  const isRoom = (row: number): boolean =>
    airC[row] > limits.coldC && airC[row] < limits.heatingToC;
  for (let row = firstRow + 1; row <= lastRow; row++) {
    const ends = [row - 1, row].filter(isRoom);
    if (ends.length === 0) continue;
    const minutes = (seconds[row] - seconds[row - 1]) / 60;
    if (row <= pullRow) room.before += minutes;
    else if (row > peakRow) room.after += minutes;
    else continue;
    room.hottestC = Math.max(room.hottestC, ...ends.map((end) => airC[end]));
  }
}

function heatingTime(
  history: History,
  fromC: number,
  toC: number,
): { minutes: number; reached: boolean } {
  const { seconds, rows } = history;
  let fromS: number | undefined;
  for (let row = 0; row < rows; row++) {
    const { axisC } = coldestAxis(history, row);
    if (fromS === undefined && axisC >= fromC) fromS = seconds[row];
    if (axisC >= toC) return { minutes: (seconds[row] - (fromS ?? 0)) / 60, reached: true };
  }
  return { minutes: fromS === undefined ? 0 : (seconds[rows - 1] - fromS) / 60, reached: false };
}

function foldColdest(history: History, row: number): number | undefined {
  const { doubledFromM } = history.roast;
  if (doubledFromM === undefined) return undefined;
  const { atM, body } = history.body;
  let coldest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < body.stations; i++) {
    if (atM[i] >= doubledFromM) {
      coldest = Math.min(coldest, history.axisC[row * body.stations + i]);
    }
  }
  return coldest;
}
