import {
  fahrenheit,
  inches,
  isHeat,
  type Plan,
  type Point,
  RESTING_ROOM_C,
  ROOM_C,
  type Stage,
  type UnitSystem,
  type Until,
} from '@roastsim/core';
import { readDuration, readLength, readTemperature } from '../read/index.js';

/** How a line is written. */
export interface LineStyle {
  readonly units: UnitSystem;
  /** Where the thermometer stands: its place is not written. */
  readonly probe?: Point;
  /** The last oven or bath ends `to pull`. */
  readonly pullSearched?: boolean;
}

const COLDEST: Point = { atMm: 'coldest' };

/**
 * A whole cook in one line, as docs/stage-line.md has it and `--stages` reads it. Every figure is written in a short way that
 * reads back as exactly the same number, but for those below a millionth, which are 0.
 */
export function stageLineText(stages: readonly Stage[], style: LineStyle): string {
  const last = stages.findLastIndex(isHeat);
  return stages
    .map((stage, i) => stageText(stage, style, style.pullSearched === true && i === last))
    .join(', ');
}

/** The line of a plan as it went: the pull after its time, to the second, where it was found or given as a time. */
export function planLine({ history, aim, pull }: Plan, units: UnitSystem): string {
  const stages = history.stages.map(({ stage, lastRow }) =>
    lastRow === pull.row && stage.kind !== 'pan-sear' && 'minutes' in stage.until
      ? { ...stage, until: { minutes: Math.round(60 * pull.heatMinutes) / 60 } }
      : stage,
  );
  return stageLineText(stages, { units, probe: aim.point });
}

function stageText(stage: Stage, style: LineStyle, toPull: boolean): string {
  const temp = (tempC: number): string => temperatureWord(tempC, style.units);
  const words: string[] = [];
  const room = (roomC: number, usualC: number): void => {
    if (roomC !== usualC) words.push('at', temp(roomC));
  };
  switch (stage.kind) {
    case 'temper':
      words.push('counter', ...endWords(stage.until, style));
      room(stage.roomC, ROOM_C);
      break;
    case 'pan-sear':
      words.push('pan', temp(stage.panC), `${stage.faces}x${plainNumber(stage.secondsPerFace)}s`);
      break;
    case 'oven-sear':
      words.push('oven-sear', temp(stage.ovenC), ...endWords(stage.until, style));
      break;
    case 'roast':
      words.push('oven', temp(stage.ovenC));
      if (stage.fan) words.push('fan');
      if (stage.start === 'cold') words.push('from cold');
      words.push(...(toPull ? ['to pull'] : endWords(stage.until, style)));
      break;
    case 'bath':
      words.push('bath', temp(stage.bathC));
      words.push(...(toPull ? ['to pull'] : endWords(stage.until, style)));
      break;
    case 'rest':
      words.push('rest', ...endWords(stage.until, style), stage.tented ? 'foil' : 'open');
      room(stage.roomC, RESTING_ROOM_C);
      break;
    case 'surroundings': // only a program makes one, and no line reads it back
      words.push('own surroundings', ...endWords(stage.until, style));
      break;
  }
  return words.join(' ');
}

function endWords(until: Until, { units, probe = COLDEST }: LineStyle): string[] {
  if ('minutes' in until) return [durationWord(until.minutes)];
  const { atMm, offAxis = 0 } = until.at;
  const words = ['to', temperatureWord(until.reachesC, units)];
  if (atMm === probe.atMm && offAxis === (probe.offAxis ?? 0)) return words;
  if (atMm === 'coldest') words.push('coldest');
  else if (atMm !== probe.atMm || offAxis === 0) words.push('at', lengthWord(atMm, units));
  if (offAxis > 0) words.push('off-axis', plainNumber(offAxis));
  return words;
}

/** The first of some ways to write a value that reads back as it; else the last. */
function exact(
  value: number,
  ways: readonly string[],
  read: (text: string, option: string) => number,
): string {
  return ways.find((way) => read(way, '') === value) ?? ways[ways.length - 1];
}

const LEAST = 1e-6; // of any unit: below, a number would need an exponent, and nothing is that small

/** A number in full, without an exponent. */
const plainNumber = (value: number): string => (value < LEAST ? '0' : String(value));

const DIGITS = [0, 1, 2, 3, 4] as const;

/** A value rounded to ever more digits, then in full. */
const rounded = (value: number, unit: string): string[] => [
  ...DIGITS.map((digits) => `${plainNumber(Number(value.toFixed(digits)))}${unit}`),
  `${plainNumber(value)}${unit}`,
];

const temperatureWord = (tempC: number, units: UnitSystem): string =>
  exact(
    tempC,
    [...(units === 'us' ? rounded(fahrenheit(tempC), 'F') : []), ...rounded(tempC, 'C')],
    readTemperature,
  );

function lengthWord(lengthMm: number, units: UnitSystem): string {
  if (lengthMm < LEAST) return '0mm'; // no length for the reader of lengths, but a place
  const short = units === 'us' ? rounded(inches(lengthMm), 'in') : rounded(lengthMm / 10, 'cm');
  return exact(
    lengthMm,
    [...short.filter((way) => !/^0\D/.test(way)), `${plainNumber(lengthMm)}mm`],
    readLength,
  );
}

const LONG_MINUTES = 100; // from here on hours are easier to read

function durationWord(minutes: number): string {
  const seconds = Math.round(60 * minutes);
  const wholeMinutes = Math.floor(seconds / 60);
  const hours =
    wholeMinutes < LONG_MINUTES && wholeMinutes % 60 !== 0 ? 0 : Math.floor(wholeMinutes / 60);
  const parts = [
    [hours, 'h'],
    [wholeMinutes - 60 * hours, 'min'],
    [seconds - 60 * wholeMinutes, 's'],
  ] as const;
  const split = parts.filter(([count]) => count > 0).map(([count, unit]) => `${count}${unit}`);
  return exact(minutes, [split.join(' ') || '0min', `${plainNumber(minutes)}min`], readDuration);
}
