import {
  type Bath,
  CUT_NAMES,
  cutsForGuests,
  cutsOf,
  FRIDGE_C,
  type Freedom,
  isHeat,
  massText,
  type OvenRoast,
  type PlanRequest,
  PORTION_KG,
  PORTION_RANGE_KG,
  type Point,
  type PullRequest,
  ROOM_C,
  type Roast,
  RoastError,
  rest,
  roastIn,
  roundRoast,
  SCALES,
  type ScaleName,
  type Stage,
  searInOven,
  searInPan,
  settleAim,
  temper,
  temperatureText,
  tenderloin,
  type UnitSystem,
  type Wish,
  waterBath,
} from '@roastsim/core';
import { readChoice } from './readChoice.js';
import { readDuration } from './readDuration.js';
import { readFreedoms, readGuests, withWish } from './readGuests.js';
import { readLength } from './readLength.js';
import { readMass } from './readMass.js';
import { readMeasures } from './readMeasures.js';
import { readServe, type ServeWords } from './readServe.js';
import { readTemperature } from './readTemperature.js';
import { lineUnits, readStageLine, type StageLine } from './stageLine.js';
import { printable } from './text.js';
import { unitSystemOf } from './unitSystemOf.js';

/** Options of a plan as they were typed. */
export interface PlanWords {
  readonly weight?: string;
  readonly cut?: string;
  readonly length?: string;
  readonly girth?: string;
  readonly diameter?: string;
  readonly untied?: boolean;
  readonly unfolded?: boolean;
  readonly fridge?: string;
  readonly nonIntact?: boolean;
  readonly oven?: string;
  readonly fan?: boolean;
  readonly coldOven?: boolean;
  readonly temper?: string;
  readonly sear?: string | true;
  readonly searPan?: string;
  readonly searLast?: boolean;
  readonly rest?: string;
  readonly openRest?: boolean;
  readonly bath?: string;
  readonly stages?: string;
  readonly doneness?: string;
  readonly at?: string;
  readonly pull?: string;
  readonly time?: string;
  readonly scale?: string;
  readonly atRisk?: boolean;
  readonly serve?: string;
  readonly portion?: string;
  readonly guests?: string;
  readonly vary?: string;
  readonly within?: string;
  readonly leftovers?: string;
  readonly units?: string;
}

/** Who eats, and how far the cook may bend to please them. */
export interface TableOrder {
  readonly wishes: readonly Wish[];
  /** The pull is chosen for the guests; otherwise they are seated at the plan as it is. */
  readonly atGuests: boolean;
  readonly vary: readonly Freedom[];
  readonly withinMinutes?: number;
  /** The same meat with its tail the other way, where the fold may vary. */
  readonly otherFold?: Roast;
  /** Cooked meat to keep for each guest [kg]. */
  readonly leftoversKg?: number;
}

/** The same, read and checked. */
export interface PlanOrder extends Partial<ServeWords> {
  readonly roast: Roast;
  readonly request: PlanRequest;
  readonly units: UnitSystem;
  /** When guests are given. */
  readonly table?: TableOrder;
  /** The cook was said in a stage line. */
  readonly byLine: boolean;
  /** What was not said and therefore assumed, in words. */
  readonly assumed: readonly string[];
}

const CUTS = ['whole', 'centre', 'butt', 'tail', 'other'] as const;
const TEMPER_MINUTES = 30;
const REST_MINUTES = 20;

/** Field names of the library and the options that set them. */
const OPTION_OF: Readonly<Record<string, string>> = {
  massKg: '--weight',
  lengthMm: '--length',
  girths: '--girth',
  diameters: '--diameter',
  folded: '--unfolded',
  startC: '--fridge',
  ovenC: '--oven',
  panC: '--sear-pan',
  bathC: '--bath',
  doneness: '--doneness',
  reachesC: '--doneness',
  pull: '--pull',
  guests: '--guests',
  withinMinutes: '--within',
  children: '--children',
  portionKg: '--portion',
  leftoversKg: '--leftovers',
  stockKg: '--stock',
};

/** Fields a stage line sets beside options of the same meaning, and the word that would set them instead. */
const LINE_FIELDS: Readonly<Record<string, keyof PlanWords>> = {
  reachesC: 'doneness',
  pull: 'pull',
};

function optionOf(field: string, words: PlanWords): string {
  const word = LINE_FIELDS[field];
  const inLine = words.stages !== undefined && word !== undefined && words[word] === undefined;
  return inLine ? '--stages' : (OPTION_OF[field] ?? '');
}

/**
 * Runs a call of the library and points its errors at the option the person typed.
 *
 * @param option - the option to point at where the field does not tell
 */
export function pointingAt<T>(option: string | undefined, words: PlanWords, call: () => T): T {
  try {
    return call();
  } catch (error) {
    if (!(error instanceof RoastError)) throw error;
    const field = error.path.findLast((step) => typeof step === 'string');
    if (field?.startsWith('--')) throw error;
    const at = option ?? optionOf(field ?? '', words);
    if (at === '') throw error;
    const key = at.slice(2).replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());
    const typed = words[key as keyof PlanWords];
    const read = typeof typed === 'string' ? ` read "${typed}";` : '';
    const more = error.message.includes(error.accepted) ? '' : `; accepted: ${error.accepted}`;
    throw new RoastError(`${at}:${read} ${error.message}${more}`, {
      code: error.code,
      path: [at],
      found: error.found,
      accepted: error.accepted,
    });
  }
}

function clash(option: string, sentence: string, accepted: string): never {
  throw new RoastError(`${option}: ${sentence}; accepted: ${accepted}`, {
    code: 'contradiction',
    path: [option],
    found: option,
    accepted,
  });
}

/** Units to answer in: as asked, else as the person typed weight and heat, else metric. */
function unitsOf(words: PlanWords): UnitSystem {
  if (words.units !== undefined) return readChoice(words.units, ['metric', 'us'], '--units');
  for (const typed of [words.weight, words.oven, words.bath, words.pull, words.doneness]) {
    const system = typed === undefined ? undefined : unitSystemOf(typed);
    if (system !== undefined) return system;
  }
  if (words.stages !== undefined) return lineUnits(words.stages) ?? 'metric';
  return 'metric';
}

function readRoast(words: PlanWords, assume: (text: string) => void, units: UnitSystem): Roast {
  const massKg = words.weight === undefined ? undefined : readMass(words.weight, '--weight');
  const cut =
    words.cut === undefined
      ? 'whole'
      : readChoice(words.cut.replace(/^center$/i, 'centre'), CUTS, '--cut');
  const girths = words.girth === undefined ? undefined : readMeasures(words.girth, '--girth');
  const diameters =
    words.diameter === undefined ? undefined : readMeasures(words.diameter, '--diameter');
  const lengthMm = words.length === undefined ? undefined : readLength(words.length, '--length');
  const startC = words.fridge === undefined ? FRIDGE_C : readTemperature(words.fridge, '--fridge');
  if (massKg === undefined && lengthMm === undefined) {
    const accepted = '--weight 2.2kg, or --length with --diameter or --girth';
    throw new RoastError(`--weight: the weight of the roast is missing; accepted: ${accepted}`, {
      code: 'missing',
      path: ['--weight'],
      found: undefined,
      accepted,
    });
  }
  const options = {
    startC,
    intact: words.nonIntact !== true,
    tied: words.untied !== true,
    ...(massKg === undefined ? {} : { massKg }),
    ...(lengthMm === undefined ? {} : { lengthMm }),
    ...(girths === undefined ? {} : { girths }),
    ...(diameters === undefined ? {} : { diameters }),
  };
  if (words.cut === undefined) assume('trimmed whole tenderloin');
  if (cut === 'whole' && words.unfolded !== true) assume('tail folded under');
  if (cut !== 'other' && words.untied !== true) assume('tied');
  if (words.fridge === undefined)
    assume(`${temperatureText(FRIDGE_C, units)} from the refrigerator`);
  if (cut === 'other') return pointingAt(undefined, words, () => roundRoast(options));
  if (cut !== 'whole' && words.unfolded === true) {
    clash('--unfolded', `${CUT_NAMES[cut]} is not folded anyway`, '--unfolded with --cut whole');
  }
  return pointingAt(undefined, words, () =>
    tenderloin({ ...options, cut, folded: cut === 'whole' && words.unfolded !== true }),
  );
}

function readSear(words: PlanWords): Stage | undefined {
  if (words.sear === undefined && words.searPan === undefined) {
    if (words.searLast === true) clash('--sear-last', 'there is no sear', '--sear or --sear-pan');
    return undefined;
  }
  const by =
    typeof words.sear === 'string' ? readChoice(words.sear, ['pan', 'oven'], '--sear') : 'pan';
  if (by === 'oven') {
    if (words.searPan !== undefined) clash('--sear-pan', 'the sear is in the oven', '--sear pan');
    return searInOven();
  }
  if (words.searPan === undefined) return searInPan();
  const panC = readTemperature(words.searPan, '--sear-pan');
  return pointingAt('--sear-pan', words, () => searInPan({ panC }));
}

function readHeat(words: PlanWords, assume: (text: string) => void): OvenRoast | Bath {
  const until = { minutes: 0 }; // the plan finds the pull
  if (words.bath !== undefined) {
    for (const [set, option] of [
      [words.oven, '--oven'],
      [words.fan, '--fan'],
      [words.coldOven, '--cold-oven'],
    ] as const) {
      if (set !== undefined) clash(option, 'there is a water bath already', '--oven or --bath');
    }
    const bathC = readTemperature(words.bath, '--bath');
    return pointingAt('--bath', words, () => waterBath({ bathC, until }));
  }
  if (words.oven === undefined) {
    const accepted = '--oven 230C, or --bath 58C';
    throw new RoastError(`--oven: the heat is missing; accepted: ${accepted}`, {
      code: 'missing',
      path: ['--oven'],
      found: undefined,
      accepted,
    });
  }
  const ovenC = readTemperature(words.oven, '--oven');
  const cold = words.coldOven === true;
  if (!cold) assume('oven preheated');
  if (words.fan !== true) assume('no fan');
  return pointingAt('--oven', words, () =>
    roastIn({ ovenC, fan: words.fan === true, start: cold ? 'cold' : 'preheated', until }),
  );
}

/** A band's name, or a temperature when the text begins with a digit. */
const readDoneness = (text: string, scale: ScaleName): string | number =>
  /^\s*[-+]?[\d.,]/.test(text)
    ? readTemperature(text, '--doneness')
    : readChoice(
        text,
        SCALES[scale].bands.map((band) => band.name),
        '--doneness',
      );

const BATH_SHORT_OF_K = 0.5; // a bath's centre comes this close in reasonable time

/** Stages round the pull, and the pull where it is given. */
export type Cook = Pick<PlanRequest, 'before' | 'heat' | 'after' | 'pull'>;

/**
 * Stages of a line as a plan wants them.
 *
 * @param option - the option the line was given to
 * @throws RoastError `contradiction` when there is no oven or bath among them
 */
export function cookOf({ stages, pullSearched }: StageLine, option: string): Cook {
  const index = stages.findLastIndex(isHeat);
  const heat = stages.at(index);
  if (index < 0 || heat === undefined || !isHeat(heat)) {
    return clash(option, 'there is no oven or bath in it', 'a stage like oven 230C or bath 56C');
  }
  return {
    before: stages.slice(0, index),
    heat,
    after: stages.slice(index + 1),
    ...(pullSearched ? {} : { pull: heat.until }),
  };
}

function readCook(words: PlanWords, assume: (text: string) => void, units: UnitSystem): Cook {
  const heat = readHeat(words, assume);
  const sear = readSear(words);
  const temperMinutes =
    words.temper === undefined ? TEMPER_MINUTES : readDuration(words.temper, '--temper');
  if (words.temper === undefined) {
    assume(`${TEMPER_MINUTES} min on the counter at ${temperatureText(ROOM_C, units)}`);
  }
  const restMinutes = words.rest === undefined ? REST_MINUTES : readDuration(words.rest, '--rest');
  if (words.rest === undefined) assume(`${REST_MINUTES} min of rest`);
  if (words.openRest !== true) assume('rest under loose foil');
  const resting = pointingAt('--rest', words, () =>
    rest({ minutes: restMinutes, tented: words.openRest !== true }),
  );
  const tempering = pointingAt('--temper', words, () => temper({ minutes: temperMinutes }));
  const searFirst = sear !== undefined && words.searLast !== true;
  const searLast = sear !== undefined && words.searLast === true;
  return {
    before: [...(temperMinutes > 0 ? [tempering] : []), ...(searFirst ? [sear] : [])],
    heat,
    after: [...(searLast ? [sear] : []), ...(restMinutes > 0 ? [resting] : [])],
  };
}

/** Options that a stage line speaks for. */
const LINE_SAYS = [
  ['oven', '--oven'],
  ['fan', '--fan'],
  ['coldOven', '--cold-oven'],
  ['temper', '--temper'],
  ['sear', '--sear'],
  ['searPan', '--sear-pan'],
  ['searLast', '--sear-last'],
  ['rest', '--rest'],
  ['openRest', '--open-rest'],
  ['bath', '--bath'],
] as const satisfies readonly (readonly [keyof PlanWords, string])[];

/** Options that say when to pull. */
const PULL_SAYS = [
  ['pull', '--pull'],
  ['time', '--time'],
] as const satisfies readonly (readonly [keyof PlanWords, string])[];

function readLineCook(words: PlanWords, line: string, roast: Roast, scale: ScaleName): Cook {
  for (const [key, option] of LINE_SAYS) {
    if (words[key] !== undefined)
      clash(option, 'the stages are given too', `--stages or ${option}`);
  }
  const read = readStageLine(line, '--stages', probeOf(words, roast, scale), roast);
  if (!read.pullSearched) {
    for (const [key, option] of PULL_SAYS) {
      if (words[key] !== undefined)
        clash(option, 'the stages say when to pull', '"to pull" in them');
    }
    if (words.at === 'guests') clash('--stages', 'the guests decide', '"to pull" in it');
  }
  return cookOf(read, '--stages');
}

/** Where the thermometer stands: in the aimed-at slice, or where the safety rules want it. */
function probeOf(words: PlanWords, roast: Roast, scale: ScaleName): Point {
  const wished = words.at === undefined ? 'middle' : readChoice(words.at, AIMS, '--at');
  const portionKg = words.portion === undefined ? PORTION_KG : readPortion(words.portion);
  const cuts =
    words.guests === undefined
      ? cutsOf(roast, portionKg)
      : cutsForGuests(roast, readGuests(words.guests, scale, '--guests').length, portionKg);
  const at = wished === 'guests' ? 'middle' : wished;
  return settleAim(roast, cuts, { at }, words.atRisk === true).point;
}

/**
 * Reads the options of a plan.
 *
 * @throws RoastError naming the option, what was read and what is accepted
 */
export function readPlanOptions(words: PlanWords): PlanOrder {
  const units = unitsOf(words);
  const assumed: string[] = [];
  const assume = (text: string): void => void assumed.push(text);
  const roast = readRoast(words, assume, units);
  const scale =
    words.scale === undefined
      ? 'kitchen'
      : readChoice(words.scale, Object.keys(SCALES) as ScaleName[], '--scale');
  const cook =
    words.stages === undefined
      ? readCook(words, assume, units)
      : readLineCook(words, words.stages, roast, scale);
  const { heat } = cook;
  if (words.pull !== undefined && words.time !== undefined) {
    clash('--time', 'a pull temperature is given too', '--pull or --time');
  }
  const strict = words.nonIntact === true || words.atRisk === true;
  const doneness = donenessOf(words, scale, heat, strict || words.at === 'guests', assume, units);
  const wishedAt = words.at === undefined ? undefined : readChoice(words.at, AIMS, '--at');
  const atGuests = wishedAt === 'guests';
  const at = wishedAt === 'guests' ? undefined : wishedAt;
  if (at !== undefined && strict) {
    clash(
      '--at',
      'the safety rules aim at the coldest spot',
      '--at without --non-intact, --at-risk',
    );
  }
  if (wishedAt === undefined && !strict) assume('aimed at the slice in the middle by weight');
  const table = readTableOrder(words, scale, doneness, atGuests, roast);
  const portionKg = words.portion === undefined ? PORTION_KG : readPortion(words.portion);
  if (words.portion === undefined) assume(`slices of ${massText(PORTION_KG, units)} raw`);
  if (words.scale === undefined) assume('doneness scale kitchen');

  const pull: PullRequest | undefined =
    words.pull !== undefined
      ? { centreC: readTemperature(words.pull, '--pull') }
      : words.time !== undefined
        ? { minutes: readTime(words.time) }
        : cook.pull;
  return {
    roast,
    request: {
      before: cook.before,
      heat,
      after: cook.after,
      aim: {
        scale: SCALES[scale],
        ...(doneness === undefined ? {} : { doneness }),
        ...(at === undefined ? {} : { at }),
      },
      atRisk: words.atRisk === true,
      portionKg: table === undefined ? portionKg : sliceKg(roast, table.wishes.length, portionKg),
      ...(pull === undefined ? {} : { pull }),
    },
    units,
    byLine: words.stages !== undefined,
    assumed,
    ...(table === undefined ? {} : { table }),
    ...(words.serve === undefined ? {} : readServe(words.serve, '--serve')),
  };
}

const AIMS = ['middle', 'thick', 'thin', 'guests'] as const;

/** Raw weight of a slice so that everybody gets one [kg]. */
const sliceKg = (roast: Roast, guests: number, portionKg: number): number =>
  roast.massKg / cutsForGuests(roast, guests, portionKg).length;

function readTableOrder(
  words: PlanWords,
  scale: ScaleName,
  doneness: string | number | undefined,
  atGuests: boolean,
  roast: Roast,
): TableOrder | undefined {
  if (words.guests === undefined) {
    for (const [set, option] of [
      [atGuests || undefined, '--at'],
      [words.vary, '--vary'],
      [words.within, '--within'],
      [words.leftovers, '--leftovers'],
    ] as const) {
      if (set !== undefined) clash(option, 'there are no guests', `${option} with --guests`);
    }
    return undefined;
  }
  const guests = readGuests(words.guests, scale, '--guests');
  if (atGuests) {
    for (const [set, option] of [
      [words.doneness, '--doneness'],
      [words.pull, '--pull'],
      [words.time, '--time'],
    ] as const) {
      if (set !== undefined) clash(option, 'the guests decide', `${option} without --at guests`);
    }
  } else {
    for (const [set, option] of [
      [words.vary, '--vary'],
      [words.within, '--within'],
    ] as const) {
      if (set !== undefined)
        clash(option, 'the pull is not searched for', `${option} with --at guests`);
    }
  }
  const vary = words.vary === undefined ? [] : readFreedoms(words.vary, '--vary');
  return {
    wishes: withWish(guests, doneness ?? middleBand(scale)),
    atGuests,
    vary,
    ...(words.within === undefined
      ? {}
      : { withinMinutes: readDuration(words.within, '--within') }),
    ...(vary.includes('fold') && roast.cut === 'whole'
      ? { otherFold: readRoast({ ...words, unfolded: roast.folded }, () => undefined, 'metric') }
      : {}),
    ...(words.leftovers === undefined
      ? {}
      : { leftoversKg: readMass(words.leftovers, '--leftovers') }),
  };
}

/** What guests get who said nothing: the band that is aimed at anyway. */
const middleBand = (scale: ScaleName): string =>
  SCALES[scale].bands.find(({ name }) => name === 'medium-rare')?.name ??
  SCALES[scale].bands[0].name;

function readPortion(text: string): number {
  const massKg = readMass(text, '--portion');
  const [low, high] = PORTION_RANGE_KG;
  if (massKg >= low && massKg <= high) return massKg;
  const accepted = `${1000 * low} g to ${high} kg`;
  throw new RoastError(`--portion: read "${printable(text)}"; accepted: ${accepted}`, {
    code: 'out-of-range',
    path: ['--portion'],
    found: text,
    accepted,
  });
}

function readTime(text: string): number {
  const minutes = readDuration(text, '--time');
  if (minutes > 0 && minutes <= 24 * 60) return minutes;
  throw new RoastError(`--time: read "${text}"; a cook lasts more than 0 and at most 24 h`, {
    code: 'out-of-range',
    path: ['--time'],
    found: text,
    accepted: 'more than 0, at most 24 h',
  });
}

function donenessOf(
  words: PlanWords,
  scale: ScaleName,
  heat: OvenRoast | Bath,
  decided: boolean,
  assume: (text: string) => void,
  units: UnitSystem,
): string | number | undefined {
  if (words.doneness !== undefined) return readDoneness(words.doneness, scale);
  if (decided) return undefined;
  if (heat.kind === 'bath') {
    const targetC = heat.bathC - BATH_SHORT_OF_K;
    assume(`done at ${temperatureText(targetC, units, 1)}, half a degree below the bath`);
    return targetC;
  }
  assume('medium-rare');
  return undefined;
}
