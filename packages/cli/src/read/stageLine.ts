import {
  isHeat,
  lengthOf,
  lengthText,
  type Point,
  type Roast,
  RoastError,
  rest,
  roastIn,
  type Stage,
  searInOven,
  searInPan,
  temper,
  type Until,
  waterBath,
} from '@roastsim/core';
import { nearest } from './nearest.js';
import { type Draft, readDraft } from './stageReader.js';
import { FORMS, STAGE_NAMES, STAGES_ACCEPTED, type TypedKind } from './stageWords.js';
import { LIST_LIMIT, plainText, printable, type Reading, refuse } from './text.js';
import type { UnitSystem } from './units.js';

/** A whole cook, read from one line; docs/stage-line.md has the grammar. */
export interface StageLine {
  readonly stages: readonly Stage[];
  /** The last oven or bath stage ends when a plan finds it: its own `until` says nothing. */
  readonly pullSearched: boolean;
}

const MOST_STAGES = 24;
const SEPARATOR = /(?:;|,(?!\d)|(?<!\d),)(?: ?then\b)?|\bthen\b/i; // a comma between two digits is a decimal comma

/**
 * Reads a whole cook out of one line: `counter 30min, pan 230C 4x90s, oven 150C fan to pull, rest 20min foil`.
 *
 * @param option - the option the text was given to, `--stages`
 * @param probe - where the thermometer stands whose temperature ends a stage when the line does not say where: `to 45C`
 * @param roast - the one that is cooked, where it is known: a place in the line must lie on it
 * @throws RoastError naming the option, the stage, the word in it and the nearest right one
 */
export function readStageLine(
  text: string,
  option: string,
  probe: Point,
  roast?: Roast,
): StageLine {
  const whole = { option, text, accepted: 'stages like "counter 30min, oven 230C, rest 20min"' };
  const parts = plainText(whole, LIST_LIMIT)
    .split(SEPARATOR)
    .map((part) => part.trim());
  if (parts.includes('')) refuse(whole, 'missing', 'there is a comma with no stage beside it');
  if (parts.length > MOST_STAGES) {
    refuse(whole, 'out-of-range', `${parts.length} stages are more than ${MOST_STAGES}`);
  }
  const read = parts.map((part) => readStage(part, option, probe));
  if (roast !== undefined) {
    const units = lineUnits(text) ?? 'metric';
    for (const { stage, reading } of read) checkPlace(stage, roast, reading, units);
  }
  const last = read.findLastIndex(({ stage }) => isHeat(stage));
  for (const [i, { ends, reading }] of read.entries()) {
    if (i === last || ends === 'said') continue;
    if (ends === 'pull') {
      const accepted =
        'a time or a temperature before it, like oven 230C 30min or oven 230C to 45C';
      const fault = 'only one stage can end at the pull, the last oven or bath';
      refuse({ ...reading, accepted }, 'contradiction', fault);
    }
    refuse(reading, 'missing', 'it does not say when it ends', 'add a time, or to 45C');
  }
  return {
    stages: read.map(({ stage }) => stage),
    pullSearched: last >= 0 && read[last].ends !== 'said',
  };
}

const ROUNDING_MM = 1.5; // a place read off a length in tenths of an inch is still on the roast

/** A place beyond the roast is refused, not moved to its end. */
function checkPlace(
  stage: Stage,
  { profile }: Roast,
  { option, text }: Reading,
  units: UnitSystem,
): void {
  if (stage.kind === 'pan-sear' || 'minutes' in stage.until) return;
  const { atMm } = stage.until.at;
  const lengthMm = 1000 * lengthOf(profile);
  if (atMm === 'coldest' || atMm <= lengthMm + ROUNDING_MM) return;
  const long = units === 'us' ? lengthText(lengthMm, units) : `${(lengthMm / 10).toFixed(1)} cm`;
  const accepted = `a place from 0 to ${long}`;
  refuse({ option, text, accepted }, 'out-of-range', 'the place is beyond the end of the roast');
}

/** The system of the first temperature in a line, so that answers can come in the units the person typed. */
export function lineUnits(text: string): UnitSystem | undefined {
  const unit = /\d ?(?:°|deg(?:rees?)?)? ?(c|celsius|f|fahrenheit)\b/i.exec(
    text.slice(0, LIST_LIMIT),
  )?.[1];
  return unit === undefined ? undefined : /^f/i.test(unit) ? 'us' : 'metric';
}

interface ReadStage {
  readonly stage: Stage;
  /** How the stage says when it ends. */
  readonly ends: 'said' | 'pull' | 'not';
  readonly reading: Reading;
}

function readStage(text: string, option: string, probe: Point): ReadStage {
  const { kind, rest: settings } = stageNamed(text, option);
  const reading = { option, text, accepted: `a stage like ${FORMS[kind]}` };
  const draft = readDraft(kind, settings, reading);
  const until = untilOf(draft, probe, reading);
  const ends = until !== undefined || kind === 'pan-sear' ? 'said' : draft.pull ? 'pull' : 'not';
  return { stage: made(kind, draft, until, reading), ends, reading };
}

/** The stage a text begins with, and what follows its name. */
function stageNamed(text: string, option: string): { kind: TypedKind; rest: string } {
  const reading = { option, text, accepted: STAGES_ACCEPTED };
  const named = /^([\p{L}-]+(?: (?:sear|bath)(?!\p{L}))?)/iu.exec(text)?.[1];
  if (named === undefined) {
    return refuse(reading, 'unknown-name', 'a stage begins with its name');
  }
  const bare = named.toLowerCase().replace(/[ -]/g, '');
  const kind = Object.hasOwn(STAGE_NAMES, bare) ? STAGE_NAMES[bare] : undefined;
  if (kind !== undefined) return { kind, rest: text.slice(named.length) };
  const near = nearest(bare, Object.keys(STAGE_NAMES));
  const hint = near === undefined ? undefined : `did you mean ${near.replace('sear', '-sear')}?`;
  return refuse(reading, 'unknown-name', `there is no stage "${printable(named)}"`, hint);
}

/** When a stage ends, where it says so. */
function untilOf(draft: Draft, probe: Point, reading: Reading): Until | undefined {
  const { minutes, reachesC, pull, coldest, atMm, offAxis } = draft;
  const endings = [minutes, reachesC, pull].filter((ending) => ending !== undefined);
  if (endings.length > 1) refuse(reading, 'contradiction', 'it ends in two ways');
  if (minutes !== undefined && minutes < 0) {
    refuse(reading, 'out-of-range', 'a time cannot be less than 0');
  }
  const placed = coldest ?? atMm ?? offAxis;
  if (reachesC === undefined) {
    if (placed !== undefined) {
      refuse(reading, 'contradiction', 'a place needs the temperature it reaches', 'like to 45C');
    }
    return minutes === undefined ? undefined : { minutes };
  }
  if (coldest !== undefined && atMm !== undefined) {
    refuse(reading, 'contradiction', 'it names two places');
  }
  const place = coldest ? 'coldest' : (atMm ?? probe.atMm);
  const off = offAxis ?? (placed === undefined ? probe.offAxis : undefined);
  return { reachesC, at: { atMm: place, ...(off === undefined ? {} : { offAxis: off }) } };
}

const FOUND_BY_PLAN: Until = { minutes: 0 };

/** Makes the stage; what the library has against a figure is told of the stage as it was typed. */
function made(
  kind: TypedKind,
  { tempC, faces, seconds, fan, cold, foil, open }: Draft,
  until: Until | undefined,
  reading: Reading,
): Stage {
  if (foil && open) refuse(reading, 'contradiction', 'it rests under foil or open, not both');
  const needed = (): never => refuse(reading, 'missing', 'its temperature is missing');
  const hot = <Field extends string>(field: Field): { [K in Field]?: number } =>
    (tempC === undefined ? {} : { [field]: tempC }) as { [K in Field]?: number };
  const ends = until ?? FOUND_BY_PLAN;
  try {
    switch (kind) {
      case 'temper':
        return temper({ until: ends, ...hot('roomC') });
      case 'pan-sear':
        if (faces !== undefined && seconds === undefined) {
          refuse(reading, 'missing', 'the time on each face is missing', `write ${faces}x90s`);
        }
        return searInPan({
          ...hot('panC'),
          ...(faces === undefined ? {} : { faces }),
          ...(seconds === undefined ? {} : { secondsPerFace: seconds }),
        });
      case 'oven-sear':
        return searInOven({ until: ends, ...hot('ovenC') });
      case 'roast':
        return roastIn({
          ovenC: tempC ?? needed(),
          fan: fan ?? false,
          start: cold ? 'cold' : 'preheated',
          until: ends,
        });
      case 'bath':
        return waterBath({ bathC: tempC ?? needed(), until: ends });
      case 'rest':
        return rest({ until: ends, tented: !open, ...hot('roomC') });
    }
  } catch (error) {
    if (!(error instanceof RoastError) || error.path[0] === reading.option) throw error;
    const { option, text } = reading;
    const sentence = `${option}: read "${printable(text)}"; ${error.message}`;
    throw new RoastError(sentence, {
      code: error.code,
      path: [option],
      found: error.found,
      accepted: error.accepted,
    });
  }
}
