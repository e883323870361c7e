import { RoastError } from '../errors.js';
import type { Surroundings } from '../heat/index.js';
import { LENGTH_MM } from '../shape/index.js';
import { checkName, checkNumber, checkObject } from '../units/index.js';

/** A place in the roast whose temperature is watched. */
export interface Point {
  /** Distance from the first end [mm], 0 to the length of the roast, or wherever the axis is coldest. */
  readonly atMm: number | 'coldest';
  /** Distance off the axis over the radius, 0 (default) to 1: 0.25 imitates the coil of a dial thermometer. */
  readonly offAxis?: number;
}

/** When a stage ends. */
export type Until =
  | { readonly minutes: number }
  | { readonly reachesC: number; readonly at: Point };

/** Out of the refrigerator, waiting on the counter. */
export interface Temper {
  readonly kind: 'temper';
  readonly roomC: number;
  readonly until: Until;
}

/** Rolled over its faces in a hot pan. */
export interface PanSear {
  readonly kind: 'pan-sear';
  readonly panC: number;
  readonly faces: number;
  readonly secondsPerFace: number;
}

/** Browned in an oven at searing heat, its top element glowing. */
export interface OvenSear {
  readonly kind: 'oven-sear';
  readonly ovenC: number;
  readonly until: Until;
}

/** In the oven. */
export interface OvenRoast {
  readonly kind: 'roast';
  readonly ovenC: number;
  readonly fan: boolean;
  /** How the oven stands when the roast comes in from outside; a stage that follows another oven stage runs on from there. */
  readonly start: 'preheated' | 'cold';
  readonly until: Until;
}

/** On the board. */
export interface Rest {
  readonly kind: 'rest';
  readonly roomC: number;
  /** Loosely under foil. */
  readonly tented: boolean;
  readonly until: Until;
}

/** Sealed in a bag in a stirred water bath. */
export interface Bath {
  readonly kind: 'bath';
  readonly bathC: number;
  readonly until: Until;
}

/**
 * In surroundings of the caller's own: a grill, a smoker, a cold store. The one stage that holds a function, so it cannot be stored
 * as JSON or sent to a worker. See {@link inSurroundings}.
 */
export interface OwnSurroundings {
  readonly kind: 'surroundings';
  /** What the outside of the roast sees so many seconds into the stage. */
  readonly at: (seconds: number) => Surroundings;
  readonly until: Until;
}

/** One part of a cook; all but the last are plain data. */
export type Stage = Temper | PanSear | OvenSear | OvenRoast | Rest | Bath | OwnSurroundings;

/**
 * Stages that count as heat from an oven or bath: the pull is the end of the last one.
 *
 * @example
 * cook.stages.filter(({ stage }) => isHeat(stage)).length // => 1
 */
export const isHeat = (stage: Stage): stage is OvenRoast | Bath =>
  stage.kind === 'roast' || stage.kind === 'bath';

/** Room temperature assumed on the counter [°C]. Common practice, no source. */
export const ROOM_C = 21;
/** Room temperature assumed round a resting roast [°C]: a kitchen in use. Common practice, no source. */
export const RESTING_ROOM_C = 22;

/** Ranges accepted, in one place so that messages and checks agree. */
export const ACCEPTED = {
  ovenC: [60, 320],
  panC: [120, 350],
  bathC: [40, 95],
  roomC: [5, 45],
  minutes: [0, 24 * 60],
  faces: [1, 12],
  secondsPerFace: [10, 600],
  reachesC: [0, 120],
} as const satisfies Record<string, readonly [number, number]>;

const UNIT = {
  ovenC: '°C',
  panC: '°C',
  bathC: '°C',
  roomC: '°C',
  minutes: 'min',
  faces: 'faces',
  secondsPerFace: 's',
  reachesC: '°C',
} as const;

const SAYING: Readonly<Record<keyof typeof ACCEPTED, string>> = {
  ovenC: 'the oven is set to',
  panC: 'the pan is at',
  bathC: 'the water bath is at',
  roomC: 'the room is at',
  minutes: 'a stage lasts',
  faces: 'the roast is seared on',
  secondsPerFace: 'each face is seared for',
  reachesC: 'the meat is to reach',
};

/** Checks one figure of a stage against {@link ACCEPTED}. */
export function checkFigure(field: keyof typeof ACCEPTED, found: number): number {
  const [low, high] = ACCEPTED[field];
  if (typeof found === 'number' && found >= low && found <= high) return found;
  const accepted = `${low} to ${high} ${UNIT[field]}`;
  throw new RoastError(`${SAYING[field]} ${found} ${UNIT[field]}; accepted is ${accepted}`, {
    code: Number.isFinite(found) ? 'out-of-range' : 'not-a-number',
    path: [field],
    found,
    accepted,
    ...(field === 'ovenC' && found < low && found * 10 <= high && found * 10 >= low
      ? { hint: `${found} looks like a slip for ${found * 10}` }
      : {}),
  });
}

const ALONG_MM = [0, LENGTH_MM[1]] as const; // the roast itself, once it is known, may be shorter

function checkUntil(until: Until): Until {
  checkObject(until, ['until'], 'the ending of a stage', '{ minutes } or { reachesC, at }');
  if ('minutes' in until) {
    checkFigure('minutes', until.minutes);
    return until;
  }
  checkFigure('reachesC', until.reachesC);
  const at = ['until', 'at'];
  checkObject(until.at, at, 'the place of the thermometer', "a point: { atMm: 'coldest' }");
  const { atMm } = until.at;
  if (typeof atMm === 'string') {
    checkName(atMm, ['coldest'], [...at, 'atMm'], 'the place of the thermometer');
  } else {
    checkNumber(atMm, ALONG_MM, [...at, 'atMm'], 'the thermometer along the roast', 'mm');
  }
  const off = until.at.offAxis ?? 0;
  if (!(off >= 0 && off <= 1)) {
    throw new RoastError(
      `the thermometer is ${off} of the radius off the axis; 0 to 1 is possible`,
      {
        code: 'out-of-range',
        path: ['until', 'at', 'offAxis'],
        found: off,
        accepted: '0 to 1',
      },
    );
  }
  return until;
}

/** How an oven may stand when the roast comes in. */
export const STARTS = ['preheated', 'cold'] as const;

/** How long: minutes, or any other ending. */
export type Ending = { readonly minutes: number } | { readonly until: Until };

const endingOf = (options: Ending): Until =>
  checkUntil('until' in options ? options.until : { minutes: options.minutes });

/**
 * Waits on the counter: `temper({ minutes: 30 })`.
 *
 * @example
 * temper({ minutes: 30 }).roomC // => 21
 */
export const temper = (options: Ending & { roomC?: number }): Temper => ({
  kind: 'temper',
  roomC: checkFigure('roomC', options.roomC ?? ROOM_C),
  until: endingOf(options),
});

/**
 * Sears in a pan, face after face; default four faces, 90 s each, at 230 °C (engineering judgement).
 *
 * @example
 * searInPan({ panC: 230, faces: 4, secondsPerFace: 90 })
 */
export function searInPan(
  options: { panC?: number; faces?: number; secondsPerFace?: number } = {},
): PanSear {
  const faces = checkFigure('faces', options.faces ?? 4);
  if (!Number.isInteger(faces)) {
    throw new RoastError(`the roast is seared on ${faces} faces; it takes a whole number`, {
      code: 'out-of-range',
      path: ['faces'],
      found: faces,
      accepted: 'a whole number from 1 to 12',
    });
  }
  return {
    kind: 'pan-sear',
    panC: checkFigure('panC', options.panC ?? 230),
    faces,
    secondsPerFace: checkFigure('secondsPerFace', options.secondsPerFace ?? 90),
  };
}

/**
 * Sears in a hot oven; default 8 min at 250 °C (engineering judgement).
 *
 * @example
 * searInOven({ ovenC: 250, minutes: 8 })
 */
export const searInOven = (
  options: { ovenC?: number; minutes?: number; until?: Until } = {},
): OvenSear => ({
  kind: 'oven-sear',
  ovenC: checkFigure('ovenC', options.ovenC ?? 250),
  until: checkUntil(options.until ?? { minutes: options.minutes ?? 8 }),
});

/**
 * Roasts; default a still oven, preheated.
 *
 * @example
 * roastIn({ ovenC: 120, fan: true, until: centreReaches(52) })
 */
export const roastIn = (options: {
  ovenC: number;
  until: Until;
  fan?: boolean;
  start?: 'preheated' | 'cold';
}): OvenRoast => ({
  kind: 'roast',
  ovenC: checkFigure('ovenC', options.ovenC),
  fan: options.fan ?? false,
  start: checkName(options.start ?? 'preheated', STARTS, ['start'], 'how the oven starts'),
  until: checkUntil(options.until),
});

/**
 * Rests; default loosely tented with foil in a kitchen at 22 °C.
 *
 * @example
 * rest({ minutes: 20 }).tented // => true
 */
export const rest = (options: Ending & { tented?: boolean; roomC?: number }): Rest => ({
  kind: 'rest',
  roomC: checkFigure('roomC', options.roomC ?? RESTING_ROOM_C),
  tented: options.tented ?? true,
  until: endingOf(options),
});

/**
 * Cooks in a water bath.
 *
 * @example
 * waterBath({ bathC: 56, until: { minutes: 120 } })
 */
export const waterBath = (options: { bathC: number; until: Until }): Bath => ({
  kind: 'bath',
  bathC: checkFigure('bathC', options.bathC),
  until: checkUntil(options.until),
});

/**
 * Cooks, rests or cools in surroundings that the caller describes, as a function of the seconds since the stage began; `inAir` makes
 * them from a film of moist air. The same for side and end faces.
 *
 * The function is asked several times a step and in no order, so it must give the same answer for the same second. Where it jumps,
 * make two stages: every stage begins with short steps. Accepted: air -40 to 400 °C, walls -40 to 1000 °C, film 0 to 5000 W/(m²·K),
 * radiation factor 0 to 1, vapour 0 to 101 325 Pa, its resistance from 1e4 Pa·m²·s/kg up.
 *
 * Safety is judged by the figures, and strictly: minutes in air of 4.4 to 54.4 °C before the pull or after the peak count as room
 * time, and a stage of this kind after the pull leaves the whole-cut guidance unmet.
 *
 * @throws RoastError `out-of-range` or `not-a-number` for the ending, at once; for the surroundings, when the stage runs
 * @example
 * // a lid grill that falls from 250 to 180 °C within the hour
 * const grill = inSurroundings({
 *   at: (seconds) => {
 *     const airC = Math.max(180, 250 - (70 * seconds) / 3600)
 *     return inAir({ airC, wallC: airC + 20, filmWPerM2K: 12, radiationFactor: 0.9, vapourPa: 4000 })
 *   },
 *   until: centreReaches(50),
 * })
 * const grilled = simulate(roast, [grill])
 */
export const inSurroundings = (options: {
  at: (seconds: number) => Surroundings;
  until: Until;
}): OwnSurroundings => ({
  kind: 'surroundings',
  at: options.at,
  until: checkUntil(options.until),
});

/**
 * Ends when the axis of the coldest station, or the point given, reaches `reachesC` [°C].
 *
 * @example
 * roastIn({ ovenC: 230, until: centreReaches(49) })
 * roastIn({ ovenC: 230, until: centreReaches(49, { atMm: 200 }) })
 */
export const centreReaches = (reachesC: number, at: Point = { atMm: 'coldest' }): Until => ({
  reachesC,
  at,
});
