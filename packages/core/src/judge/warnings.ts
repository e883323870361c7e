import type { History } from '../cook/index.js';
import { CUTS, greatestDiameter } from '../shape/index.js';
import type { Safety } from './safety.js';

/** Something a cook must know, as data; {@link sayWarning} puts it into words. */
export type Warning =
  | { readonly code: 'below-guidance'; readonly coldestC: number; readonly peakC: number }
  | { readonly code: 'fold-below-guidance'; readonly foldC: number }
  | { readonly code: 'strict-rules'; readonly intact: boolean; readonly atRisk: boolean }
  | { readonly code: 'room-time'; readonly minutes: number; readonly limitMinutes: number }
  | {
      readonly code: 'heating-time';
      readonly minutes: number;
      readonly limitMinutes: number;
      readonly reached: boolean;
    }
  | { readonly code: 'cool-oven' | 'slow-oven' | 'hot-oven'; readonly ovenC: number }
  | { readonly code: 'cool-bath'; readonly bathC: number }
  | { readonly code: 'own-surroundings' }
  | { readonly code: 'early-pull' | 'late-pull'; readonly pullC: number }
  | { readonly code: 'thin-piece' | 'thick-piece'; readonly diameterMm: number }
  | { readonly code: 'not-tenderloin' }
  | {
      readonly code: 'unusual-weight';
      readonly massKg: number;
      readonly cut: string;
      readonly lowKg: number;
      readonly highKg: number;
    }
  | { readonly code: 'tape-disagrees'; readonly massKg: number; readonly tapeKg: number }
  | { readonly code: 'length-disagrees'; readonly lengthMm: number; readonly usualMm: number }
  | { readonly code: 'still-rising'; readonly peakC: number; readonly restMinutes: number }
  | { readonly code: 'warm-start'; readonly startC: number };

/** Stable name of a warning. */
export type WarningCode = Warning['code'];

// Where the model was made for, from docs/model.md: outside, the plan still answers but says so.
const MODEL_RANGE = {
  radiusMm: [22, 50],
  ovenC: [100, 260],
  pullC: [35, 70],
  slowOvenC: 135, // below, reports of times down to half the model's: docs/validation.md
  bathC: 54.4, // FSIS 1999 Appendix A has no row below
  fridgeC: 4.4, // USDA FSIS: 40 °F
  tapeShare: 0.15,
  lengthShare: 0.15,
} as const;

/**
 * Warnings that follow from a roast, its history and its safety.
 *
 * @example
 * warningsOf(cook, plan.safety, plan.pull.centreC, plan.peak).map(({ code }) => code)
 */
export function warningsOf(
  history: History,
  safety: Safety,
  pullC: number,
  peak: { readonly centreC: number; readonly endingKPerMinute: number },
): Warning[] {
  const { roast } = history;
  const strict = !roast.intact || safety.atRisk;
  return [
    ...(strict
      ? [{ code: 'strict-rules', intact: roast.intact, atRisk: safety.atRisk } as const]
      : []),
    ...(safety.meetsWholeCutGuidance
      ? []
      : [
          {
            code: 'below-guidance',
            coldestC: safety.coldestC,
            peakC: safety.coldestPeakC,
          } as const,
        ]),
    ...foldWarning(safety),
    ...timeWarnings(safety),
    ...heatWarnings(history, pullC),
    ...shapeWarnings(history),
    ...restWarning(history, peak),
  ];
}

const GUIDANCE_C = 62.8;

function foldWarning(safety: Safety): Warning[] {
  const { foldColdestC } = safety;
  return foldColdestC !== undefined && foldColdestC < GUIDANCE_C
    ? [{ code: 'fold-below-guidance', foldC: foldColdestC }]
    : [];
}

function timeWarnings(safety: Safety): Warning[] {
  const found: Warning[] = [];
  if (safety.roomMinutes > safety.roomLimitMinutes) {
    found.push({
      code: 'room-time',
      minutes: safety.roomMinutes,
      limitMinutes: safety.roomLimitMinutes,
    });
  }
  if (safety.heatingMinutes > safety.heatingLimitMinutes) {
    found.push({
      code: 'heating-time',
      minutes: safety.heatingMinutes,
      limitMinutes: safety.heatingLimitMinutes,
      reached: safety.heatingReached,
    });
  }
  return found;
}

function heatWarnings(history: History, pullC: number): Warning[] {
  const found: Warning[] = [];
  const { ovenC, pullC: pull } = MODEL_RANGE;
  for (const { stage } of history.stages) {
    if (stage.kind === 'roast' && stage.ovenC < ovenC[0]) {
      found.push({ code: 'cool-oven', ovenC: stage.ovenC });
    } else if (stage.kind === 'roast' && stage.ovenC < MODEL_RANGE.slowOvenC) {
      found.push({ code: 'slow-oven', ovenC: stage.ovenC });
    }
    if (stage.kind === 'roast' && stage.ovenC > ovenC[1]) {
      found.push({ code: 'hot-oven', ovenC: stage.ovenC });
    }
    if (stage.kind === 'bath' && stage.bathC < MODEL_RANGE.bathC) {
      found.push({ code: 'cool-bath', bathC: stage.bathC });
    }
  }
  if (history.stages.some(({ stage }) => stage.kind === 'surroundings')) {
    found.push({ code: 'own-surroundings' });
  }
  if (pullC < pull[0]) found.push({ code: 'early-pull', pullC });
  if (pullC > pull[1]) found.push({ code: 'late-pull', pullC });
  if (history.roast.startC > MODEL_RANGE.fridgeC) {
    found.push({ code: 'warm-start', startC: history.roast.startC });
  }
  return found;
}

function shapeWarnings(history: History): Warning[] {
  const { roast } = history;
  const found: Warning[] = [];
  const diameterMm = 1000 * greatestDiameter(roast.profile);
  if (diameterMm / 2 < MODEL_RANGE.radiusMm[0]) found.push({ code: 'thin-piece', diameterMm });
  if (diameterMm / 2 > MODEL_RANGE.radiusMm[1]) found.push({ code: 'thick-piece', diameterMm });
  if (roast.cut === 'other') found.push({ code: 'not-tenderloin' });
  else {
    const [lowKg, highKg] = CUTS[roast.cut].usualKg;
    if (roast.massKg < lowKg || roast.massKg > highKg) {
      found.push({ code: 'unusual-weight', massKg: roast.massKg, cut: roast.cut, lowKg, highKg });
    }
  }
  const { tapeMassKg, usualLengthMm } = roast;
  if (tapeMassKg !== undefined && Math.abs(roast.massKg / tapeMassKg - 1) > MODEL_RANGE.tapeShare) {
    found.push({ code: 'tape-disagrees', massKg: roast.massKg, tapeKg: tapeMassKg });
  }
  if (usualLengthMm !== undefined) {
    const lengthMm = 1000 * roast.profile.atM[roast.profile.atM.length - 1];
    if (Math.abs(lengthMm / usualLengthMm - 1) > MODEL_RANGE.lengthShare) {
      found.push({ code: 'length-disagrees', lengthMm, usualMm: usualLengthMm });
    }
  }
  return found;
}

const STILL_RISING_K_PER_MIN = 0.15; // below, a few minutes more or less do not change the slice

function restWarning(
  history: History,
  peak: { readonly centreC: number; readonly endingKPerMinute: number },
): Warning[] {
  const last = history.stages.at(-1);
  if (last?.stage.kind !== 'rest' || peak.endingKPerMinute < STILL_RISING_K_PER_MIN) return [];
  return [
    {
      code: 'still-rising',
      peakC: peak.centreC,
      restMinutes: (last.endS - last.startS) / 60,
    },
  ];
}
