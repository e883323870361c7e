import type { Stage, StageRecord } from '../cook/index.js';
import type { Plan } from './plan.js';

/**
 * What a step of the timetable is about. `wait` and `rest` are times on the counter; `take-out` is leaving the refrigerator, also when
 * a wait begins with it; `carve` ends the cook and `serve` is when the plates go out; `begin` begins a
 * stage in surroundings of the caller's own.
 */
export type StepKind =
  | 'take-out'
  | 'wait'
  | 'oven-on'
  | 'bath-on'
  | 'pan-on'
  | 'sear'
  | 'into-oven'
  | 'into-bath'
  | 'begin'
  | 'wash'
  | 'first-look'
  | 'pull'
  | 'check'
  | 'rest'
  | 'carve'
  | 'serve';

/** Something to do at a moment. */
export interface Step {
  readonly kind: StepKind;
  /** Minutes since the refrigerator; negative before. */
  readonly atMinutes: number;
  /**
   * For a step about a stage: its index in the history's stages (`oven-on`, `bath-on` and `pan-on`: the stage that is prepared; `pull`:
   * the stage that ends; `carve`: the open end of a rest, where slices are carved within it). For a check: its index in `afterPull`.
   */
  readonly index?: number;
}

/** From the end of the rest until the plates go out [min]: untying and carving. Common practice, no source. */
export const CARVING_MINUTES = 5;

/** Heating a dry pan for a sear [min]. Common practice, no source. */
export const PAN_LEAD_MINUTES = 5;

/**
 * Heating an oven, by its setting [°C]. Common practice, no source: advice for home cooks ranges from 10 to 15 minutes at 175 °C and
 * from 15 to 25 at 230 °C; the long end is taken, because an oven that is not hot yet makes the meat late.
 */
const OVEN_LEAD: readonly { readonly upToC: number; readonly minutes: number }[] = [
  { upToC: 150, minutes: 10 },
  { upToC: 190, minutes: 15 },
  { upToC: 220, minutes: 20 },
  { upToC: Number.POSITIVE_INFINITY, minutes: 25 },
];

/**
 * Minutes an oven needs from cold to a setting [°C].
 *
 * @example
 * ovenLeadMinutes(230) // => 25
 */
export const ovenLeadMinutes = (ovenC: number): number =>
  OVEN_LEAD.find(({ upToC }) => ovenC <= upToC)?.minutes ?? 0;

// Ten litres from 20 °C by a heater of 1 kW: a household bath, judgement. Water 4.19 kJ/(kg K).
const BATH_MINUTES_PER_K = (10 * 4.19) / 1 / 60;
const TAP_C = 20;
const BATH_STEP_MINUTES = 5;

/**
 * Minutes a water bath needs from the tap to a temperature [°C], in fives.
 *
 * @example
 * bathLeadMinutes(56) // => 30
 */
export const bathLeadMinutes = (bathC: number): number =>
  BATH_STEP_MINUTES *
  Math.ceil(Math.max(0, (bathC - TAP_C) * BATH_MINUTES_PER_K) / BATH_STEP_MINUTES);

/**
 * When the plates go out [min since the refrigerator].
 *
 * @example
 * servingMinutes(plan) - plan.pull.atMinutes // => 25
 */
export const servingMinutes = ({ history }: Plan): number =>
  history.seconds[history.rows - 1] / 60 + (carvedWithinRest(history.stages) ? 0 : CARVING_MINUTES);

/** Whether a stage is the open end of a rest, in which slice after slice is carved. */
const carvedIn = (stages: readonly StageRecord[], index: number): boolean =>
  stages[index]?.stage.kind === 'rest' && stages[index - 1]?.stage.kind === 'rest';

const carvedWithinRest = (stages: readonly StageRecord[]): boolean =>
  carvedIn(stages, stages.length - 1);

/** Index of the stage that the pull ends. */
export const pulledStage = ({ history, pull }: Plan): number =>
  history.stages.findIndex(({ lastRow }) => lastRow === pull.row);

const usesOven = (stage: Stage | undefined): boolean =>
  stage?.kind === 'roast' || stage?.kind === 'oven-sear';

/**
 * What to do when, from the first thing that must be switched on to the plates, in order.
 *
 * @example
 * stepsOf(plan).map(({ kind, atMinutes }) => [kind, atMinutes - servingMinutes(plan)])
 */
export function stepsOf(plan: Plan): Step[] {
  const { pull, firstLook, afterPull } = plan;
  const { stages } = plan.history;
  const pulled = pulledStage(plan);
  const steps: Step[] = [
    { kind: 'take-out', atMinutes: 0, ...(stages[0].stage.kind === 'temper' ? { index: 0 } : {}) },
    ...stages.flatMap((record, index) => [
      ...preparation(stages, index),
      // what follows the pull begins with it
      ...(index === pulled + 1 ? [] : beginning(stages, index)),
      ...(index === pulled ? [{ kind: 'wash', atMinutes: record.startS / 60 } as const] : []),
    ]),
    { kind: 'first-look', atMinutes: firstLook.atMinutes },
    { kind: 'pull', atMinutes: pull.atMinutes, index: pulled },
    ...afterPull.map(({ atMinutes }, index): Step => ({ kind: 'check', atMinutes, index })),
  ];
  const endMinutes = stages[stages.length - 1].endS / 60;
  return [
    ...steps.sort((a, b) => a.atMinutes - b.atMinutes), // stable: what happens together stays in the order above
    ...(carvedWithinRest(stages) ? [] : [{ kind: 'carve', atMinutes: endMinutes } as const]),
    { kind: 'serve', atMinutes: servingMinutes(plan) },
  ];
}

const BEGINS: { readonly [K in Stage['kind']]: StepKind } = {
  temper: 'wait',
  'pan-sear': 'sear',
  'oven-sear': 'sear',
  roast: 'into-oven',
  bath: 'into-bath',
  rest: 'rest',
  surroundings: 'begin',
};

function beginning(stages: readonly StageRecord[], index: number): Step[] {
  const { stage, startS } = stages[index];
  if (index === 0 && stage.kind === 'temper') return []; // the refrigerator's door says it
  const kind = carvedIn(stages, index) ? 'carve' : BEGINS[stage.kind];
  return [{ kind, atMinutes: startS / 60, index }];
}

/** What must be switched on before a stage can begin. */
function preparation(stages: readonly StageRecord[], index: number): Step[] {
  const { stage, startS } = stages[index];
  const before = (kind: StepKind, leadMinutes: number): Step[] => [
    { kind, atMinutes: startS / 60 - leadMinutes, index },
  ];
  switch (stage.kind) {
    case 'pan-sear':
      return before('pan-on', PAN_LEAD_MINUTES);
    case 'bath':
      return before('bath-on', bathLeadMinutes(stage.bathC));
    case 'roast':
    case 'oven-sear': {
      const isOn = stages.slice(0, index).some((earlier) => usesOven(earlier.stage));
      const cold = stage.kind === 'roast' && stage.start === 'cold';
      return isOn || cold ? [] : before('oven-on', ovenLeadMinutes(stage.ovenC));
    }
    default:
      return [];
  }
}
