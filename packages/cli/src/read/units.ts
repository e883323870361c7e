import { convert, getMeasureKind, MeasureKind } from 'convert';

/** The system a unit belongs to, for a person who wants answers in the units they typed; time has none. */
export type UnitSystem = 'metric' | 'us';

/** A unit a reader accepts. */
export interface Unit {
  /** The spelling used in messages. */
  readonly symbol: string;
  readonly system: UnitSystem | undefined;
  /** `value` of this unit in the base unit of its kind. */
  readonly inBase: (value: number) => number;
  /** Every accepted spelling besides the symbol, in lower case and without spaces. */
  readonly spellings: readonly string[];
}

/** A kind of quantity: its units from the largest down within each system, and the words for it. */
export interface Kind {
  /** What the quantity is called: `weight`. */
  readonly name: string;
  /** What the quantity is called with its article: `a weight`. */
  readonly one: string;
  /** The units meant most often by a number without one, to choose from: symbol and what it stands for. */
  readonly readings: readonly (readonly [symbol: string, word: string])[];
  readonly units: readonly Unit[];
  /** What may stand before a unit and says nothing: the `°` of `°C`. */
  readonly prefix?: RegExp;
  /** The same kind in the conversion library. */
  readonly measure: MeasureKind;
}

// Factors are those of the `convert` package, which holds the exact international ones (international yard and pound agreement,
// 1959: 1 lb = 0.45359237 kg, 1 in = 25.4 mm); tests/cli/quantities.test.ts pins them.

/** Weights; base unit kg. */
export const mass: Kind = {
  name: 'weight',
  one: 'a weight',
  readings: [
    ['kg', 'kilograms'],
    ['lb', 'pounds'],
  ],
  measure: MeasureKind.Mass,
  units: [
    {
      symbol: 'kg',
      system: 'metric',
      inBase: (value) => convert(value, 'kg').to('kg'),
      spellings: ['kgs', 'kilo', 'kilos', 'kilogram', 'kilograms', 'kilogramme', 'kilogrammes'],
    },
    {
      symbol: 'g',
      system: 'metric',
      inBase: (value) => convert(value, 'g').to('kg'),
      spellings: ['gram', 'grams', 'gramme', 'grammes'],
    },
    {
      symbol: 'lb',
      system: 'us',
      inBase: (value) => convert(value, 'lb').to('kg'),
      spellings: ['lbs', 'pound', 'pounds'],
    },
    {
      symbol: 'oz',
      system: 'us',
      inBase: (value) => convert(value, 'oz').to('kg'),
      spellings: ['ounce', 'ounces'],
    },
  ],
};

/** Temperatures; base unit °C. */
export const temperature: Kind = {
  name: 'temperature',
  one: 'a temperature',
  readings: [
    ['C', 'Celsius'],
    ['F', 'Fahrenheit'],
  ],
  measure: MeasureKind.Temperature,
  prefix: /^(?:°|deg(?:rees?)?)/,
  units: [
    {
      symbol: 'C',
      system: 'metric',
      inBase: (value) => value,
      spellings: ['celsius', 'centigrade'],
    },
    {
      symbol: 'F',
      system: 'us',
      // Written out because the library goes by way of absolute zero: 608 °F would be 320.0000000000001 °C, above a limit of 320.
      inBase: (value) => ((value - 32) * 5) / 9,
      spellings: ['fahrenheit'],
    },
  ],
};

/** Stretches of time; base unit min. */
export const duration: Kind = {
  name: 'time',
  one: 'a time',
  readings: [
    ['min', 'minutes'],
    ['h', 'hours'],
  ],
  measure: MeasureKind.Time,
  units: [
    {
      symbol: 'h',
      system: undefined,
      inBase: (value) => convert(value, 'h').to('min'),
      spellings: ['hr', 'hrs', 'hour', 'hours'],
    },
    {
      symbol: 'min',
      system: undefined,
      inBase: (value) => convert(value, 'min').to('min'),
      spellings: ['m', 'mins', 'minute', 'minutes'],
    },
    {
      symbol: 's',
      system: undefined,
      inBase: (value) => convert(value, 's').to('min'),
      spellings: ['sec', 'secs', 'second', 'seconds'],
    },
  ],
};

/** Lengths; base unit mm. */
export const length: Kind = {
  name: 'length',
  one: 'a length',
  readings: [
    ['cm', 'centimetres'],
    ['in', 'inches'],
  ],
  measure: MeasureKind.Length,
  units: [
    {
      symbol: 'm',
      system: 'metric',
      inBase: (value) => convert(value, 'm').to('mm'),
      spellings: ['metre', 'metres', 'meter', 'meters'],
    },
    {
      symbol: 'cm',
      system: 'metric',
      inBase: (value) => convert(value, 'cm').to('mm'),
      spellings: ['cms', 'centimetre', 'centimetres', 'centimeter', 'centimeters'],
    },
    {
      symbol: 'mm',
      system: 'metric',
      inBase: (value) => convert(value, 'mm').to('mm'),
      spellings: ['millimetre', 'millimetres', 'millimeter', 'millimeters'],
    },
    {
      symbol: 'ft',
      system: 'us',
      inBase: (value) => convert(value, 'ft').to('mm'),
      spellings: ['foot', 'feet', "'", '′', '’'],
    },
    {
      symbol: 'in',
      system: 'us',
      inBase: (value) => convert(value, 'in').to('mm'),
      spellings: ['inch', 'inches', '"', '″', '”'],
    },
  ],
};

const kinds: readonly Kind[] = [mass, temperature, length, duration];

/** `typed` as spellings are listed: lower case, no spaces, without what says nothing before the unit. */
export function unitStem(typed: string, kind: Kind): string {
  const stem = typed.toLowerCase().replaceAll(' ', '');
  return kind.prefix === undefined ? stem : stem.replace(kind.prefix, '');
}

/** The unit of `kind` that `typed` spells, in any case. */
export function unitNamed(typed: string, kind: Kind): Unit | undefined {
  const stem = unitStem(typed, kind);
  return kind.units.find(
    (unit) => unit.symbol.toLowerCase() === stem || unit.spellings.includes(stem),
  );
}

/** What `typed` measures, if it is a unit of anything: `length` for `cm`, `volume` for `L`. */
export function measuredBy(typed: string): string | undefined {
  const kind = kinds.find((each) => unitNamed(typed, each) !== undefined);
  if (kind !== undefined) return kind.name;
  const measure = getMeasureKind(typed);
  if (measure === undefined) return undefined;
  const known = kinds.find((each) => each.measure === measure);
  return known?.name ?? MeasureKind[measure].replace(/(?!^)(?=[A-Z])/g, ' ').toLowerCase();
}
