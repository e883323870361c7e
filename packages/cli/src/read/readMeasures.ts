import { readParts } from './parts.js';
import { mustBePositive, quantityOf } from './quantity.js';
import { LIST_LIMIT, plainText, printable, type Reading, refuse } from './text.js';
import { length } from './units.js';

/** A size taken by tape or calliper, and where along the roast it was taken. */
export interface Measure {
  /** The size [mm], above 0. */
  readonly sizeMm: number;
  /** Distance from the end of the roast that was measured from [mm], 0 or more; absent when one size holds throughout. */
  readonly atMm?: number;
}

const SEPARATOR = /;|,(?!\d)|(?<!\d),/; // a comma between two digits is a decimal comma

/**
 * Reads sizes along a roast: `24cm@5cm, 26cm@20cm`, or one size for all of it: `26cm`. Separated by commas or semicolons;
 * decimal commas may stand inside: `24,5cm@5cm, 26cm@20cm`.
 *
 * @param option - the option the text was given to, `--girth`
 * @returns one entry or more, in the order typed, no two at the same place
 * @throws RoastError with the codes of {@link readLength} for a single size or place; `missing` when several sizes are given and
 * one has no place; `contradiction` when two have the same
 */
export function readMeasures(text: string, option: string): readonly Measure[] {
  const accepted = 'sizes with their places, like "24cm@5cm, 26cm@20cm", or one size, like 26cm';
  const reading = { option, text, accepted };
  const items = plainText(reading, LIST_LIMIT).split(SEPARATOR);
  if (items.some((item) => item.trim() === '')) {
    refuse(reading, 'not-a-number', 'there is a separator with no size beside it');
  }
  const measures = items.map((item) => readMeasure({ option, text: item.trim(), accepted }));
  if (measures.length > 1) {
    const unplaced = measures.find(({ atMm }) => atMm === undefined);
    if (unplaced !== undefined) {
      refuse(
        reading,
        'missing',
        `of several sizes each needs its place, and ${unplaced.typed} has none`,
      );
    }
  }
  const typedAt = new Map<string, string>();
  for (const { atMm = 0, typed } of measures) {
    const place = atMm.toFixed(3); // a micrometre apart is the same place: 1.2in and 30.48mm differ by rounding only
    const other = typedAt.get(place);
    if (other !== undefined) {
      refuse(reading, 'contradiction', `${other} and ${typed} stand at the same place`);
    }
    typedAt.set(place, typed);
  }
  return measures.map(({ sizeMm, atMm }) => (atMm === undefined ? { sizeMm } : { sizeMm, atMm }));
}

function readMeasure(reading: Reading): {
  sizeMm: number;
  atMm: number | undefined;
  typed: string;
} {
  const [size = '', place, ...more] = plainText(reading).split('@');
  if (more.length > 0) refuse(reading, 'not-a-number', 'there is more than one @ in it');
  const typed = printable(reading.text);
  const sizeMm = mustBePositive(lengthMm(size, reading), length, reading);
  if (place === undefined) return { sizeMm, atMm: undefined, typed };
  const atMm = lengthMm(place, reading);
  if (atMm < 0) refuse(reading, 'out-of-range', 'a place along the roast cannot be less than 0');
  return { sizeMm, atMm, typed };
}

function lengthMm(text: string, reading: Reading): number {
  const tidy = text.trim();
  if (tidy === '') refuse(reading, 'not-a-number', 'a length is missing on one side of the @');
  return quantityOf(readParts(tidy, reading), length, reading);
}
