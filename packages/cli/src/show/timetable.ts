import {
  durationText,
  type Plan,
  riseText,
  type Stage,
  type StageRecord,
  type Step,
  type StepKind,
  stepsOf,
  type TimedStep,
  temperatureText,
  type UnitSystem,
} from '@roastsim/core';

/** One line of the timetable. */
export interface Row {
  readonly kind: StepKind;
  /** Since the refrigerator; negative before. */
  readonly minutes: number;
  /** How far it may slip, where that was computed. */
  readonly toleranceMinutes?: number;
  readonly text: string;
  readonly strong?: boolean;
}

/**
 * What to do when, from the first thing to switch on to the plates, in words.
 *
 * @param steps - steps with their tolerances; without them the lines have none
 * @param span - goes behind the pull's temperature
 */
export const timetableRows = (
  plan: Plan,
  units: UnitSystem,
  steps: readonly (Step | TimedStep)[] = stepsOf(plan),
  span = '',
): Row[] =>
  steps.map((step) => ({
    kind: step.kind,
    minutes: step.atMinutes,
    ...('toleranceMinutes' in step ? { toleranceMinutes: step.toleranceMinutes } : {}),
    text: stepText(plan, step, units, span),
    ...(step.kind === 'pull' ? { strong: true } : {}),
  }));

/** A step in a sentence or two. */
function stepText(plan: Plan, step: Step, units: UnitSystem, span: string): string {
  const { history, pull, firstLook, roast } = plan;
  const temp = (c: number): string => temperatureText(c, units);
  const about = step.index === undefined ? undefined : history.stages[step.index];
  switch (step.kind) {
    case 'take-out':
      return about === undefined
        ? 'Take the roast out of the refrigerator.'
        : stageText(about, units);
    case 'oven-on':
    case 'bath-on':
    case 'pan-on':
      return about === undefined ? '' : preparationText(about.stage, temp);
    case 'wash':
      return 'Wash hands, board, knives and probe after the raw meat.';
    case 'first-look':
      return `First look: about ${temp(firstLook.centreC)}. From here on, check often.`;
    case 'pull': {
      const next = history.stages[(step.index ?? history.stages.length) + 1];
      return `PULL at ${temp(pull.centreC)}${span}. ${next === undefined ? '' : stageText(next, units)}`.trim();
    }
    case 'check':
      return checkText(plan, step.index ?? 0, units);
    case 'carve':
      if (about !== undefined) {
        const end = plan.carving?.from === 'last-end' ? 'thin' : 'thick';
        return `Foil off${roast.tied ? ', untie' : ''}; carve one slice a minute from the ${end} end.`;
      }
      return roast.tied ? 'Untie and carve.' : 'Carve.';
    case 'serve':
      return 'Serve.';
    default:
      return about === undefined ? '' : stageText(about, units);
  }
}

function checkText({ afterPull, putBack, aim }: Plan, index: number, units: UnitSystem): string {
  const temp = (c: number): string => temperatureText(c, units);
  const shows = `Should show ${temp(afterPull[index].centreC)}.`;
  if (index !== 1 || putBack === undefined) return shows;
  return (
    `${shows} ${riseText(putBack.behindK, units)} behind: ` +
    `${durationText(Math.max(1, putBack.minutes))} more oven. Ahead: foil off, carve at ` +
    `${temp(aim.targetC)}.`
  );
}

function preparationText(stage: Stage, temp: (c: number) => string): string {
  switch (stage.kind) {
    case 'pan-sear':
      return `Heat a dry pan to ${temp(stage.panC)}.`;
    case 'bath':
      return `Heat the water bath to ${temp(stage.bathC)}.`;
    case 'roast':
    case 'oven-sear':
      return `Oven on, ${temp(stage.ovenC)}${stage.kind === 'roast' && stage.fan ? ', fan on' : ''}.`;
    default:
      return '';
  }
}

function stageText({ stage, startS, endS }: StageRecord, units: UnitSystem): string {
  const temp = (c: number): string => temperatureText(c, units);
  const length = durationText((endS - startS) / 60);
  const text: { [K in Stage['kind']]: (s: Extract<Stage, { kind: K }>) => string } = {
    temper: (s) => `Out of the refrigerator: salt, pat dry, ${length} at ${temp(s.roomC)}.`,
    'pan-sear': (s) =>
      `Sear in a pan at ${temp(s.panC)}: ${s.faces} sides, ${s.secondsPerFace} s each.`,
    'oven-sear': (s) => `Sear under the glowing element, oven at ${temp(s.ovenC)}, ${length}.`,
    roast: (s) =>
      `Into the ${s.start === 'cold' ? 'cold oven, set to' : 'hot oven,'} ${temp(s.ovenC)}${s.fan ? ', fan on' : ''}.`,
    bath: (s) => `Sealed in a bag, into the water bath at ${temp(s.bathC)}.`,
    rest: (s) => `Rest ${length}${s.tented ? ' under loose foil' : ' uncovered'}, off the hot pan.`,
    surroundings: () => `Into its own surroundings, ${length}.`,
  };
  return (text[stage.kind] as (s: Stage) => string)(stage);
}
