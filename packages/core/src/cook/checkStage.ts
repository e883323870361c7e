import { RoastError } from '../errors.js';
import { lengthOf } from '../shape/index.js';
import { checkName, checkNumber, checkObject } from '../units/index.js';
import type { Roast } from './roast.js';
import { checkFigure, type Point, STARTS, type Stage, type Until } from './stages.js';

const KINDS: readonly Stage['kind'][] = [
  'temper',
  'pan-sear',
  'oven-sear',
  'roast',
  'rest',
  'bath',
  'surroundings',
];
const ROUNDING_MM = 1.5; // a place read off a length in tenths of an inch is still on the roast

/**
 * Whether a place is on the roast: 0 to its length along it, 0 to 1 of the radius off its axis.
 *
 * @throws RoastError `out-of-range`, `not-a-number` or `missing`
 */
export function checkPoint(point: Point, { profile }: Pick<Roast, 'profile'>, path: Path): void {
  checkObject(point, path, 'the place of the thermometer', "a point: { atMm: 'coldest' }");
  const { atMm, offAxis } = point;
  if (atMm !== 'coldest') {
    const at = [...path, 'atMm'];
    if (typeof atMm === 'string') checkName(atMm, ['coldest'], at, 'the place of the thermometer');
    const lengthMm = 1000 * lengthOf(profile);
    if (!(atMm >= 0 && atMm <= lengthMm + ROUNDING_MM)) {
      const longest = Math.round(10 * lengthMm) / 10;
      checkNumber(atMm, [0, longest], at, 'the thermometer along the roast', 'mm');
    }
  }
  if (offAxis !== undefined) {
    checkNumber(
      offAxis,
      [0, 1],
      [...path, 'offAxis'],
      'the thermometer off the axis',
      'of the radius',
    );
  }
}

type Path = readonly (string | number)[];

/** The ending of a stage; how long and how hot is the maker's business, so that searches may look farther. */
export function checkEnding(
  until: Until,
  roast: Pick<Roast, 'profile'>,
  path: Path = ['until'],
): void {
  checkObject(until, path, 'the ending of a stage', '{ minutes } or { reachesC, at }');
  if ('minutes' in until) {
    const at = [...path, 'minutes'];
    checkNumber(until.minutes, [0, Number.POSITIVE_INFINITY], at, 'the length of a stage', 'min');
    return;
  }
  const { reachesC, at } = until;
  const any = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const;
  checkNumber(reachesC, any, [...path, 'reachesC'], 'the temperature the meat is to reach', '°C');
  checkPoint(at, roast, [...path, 'at']);
}

/**
 * A stage as it is about to run: a literal never went through a maker.
 *
 * @throws RoastError `unknown-name`, `missing`, `out-of-range`, `not-a-number`
 */
export function checkStage(stage: Stage, roast: Pick<Roast, 'profile'>): void {
  checkObject(stage, [], 'a stage', "an object with a kind: { kind: 'rest', ... }");
  checkName(stage.kind, KINDS, ['kind'], 'the kind of a stage');
  if (stage.kind !== 'pan-sear') checkEnding(stage.until, roast);
  switch (stage.kind) {
    case 'temper':
    case 'rest':
      checkFigure('roomC', stage.roomC);
      return;
    case 'pan-sear':
      checkFigure('panC', stage.panC);
      checkFigure('faces', stage.faces);
      checkFigure('secondsPerFace', stage.secondsPerFace);
      return;
    case 'roast':
      checkName(stage.start, STARTS, ['start'], 'how the oven starts');
      checkFigure('ovenC', stage.ovenC);
      return;
    case 'oven-sear':
      checkFigure('ovenC', stage.ovenC);
      return;
    case 'bath':
      checkFigure('bathC', stage.bathC);
      return;
    case 'surroundings':
      if (typeof stage.at === 'function') return;
      throw new RoastError('the surroundings of a stage are no function of its seconds', {
        code: stage.at === undefined ? 'missing' : 'unreadable',
        path: ['at'],
        found: stage.at,
        accepted: 'a function of the seconds into the stage',
      });
  }
}
