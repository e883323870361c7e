import { RoastError } from '@roastsim/core';

/** One option being read: whom an error has to point at, and what it would have accepted. */
export interface Reading {
  /** The option as typed on the command line, `--weight`; becomes the path of the error. */
  readonly option: string;
  /** The text as it was handed in. */
  readonly text: string;
  /** What is accepted, in words. */
  readonly accepted: string;
}

/** Longest text read as one quantity [UTF-16 units]: no honest one comes near it, and 200 digits are still a finite number. */
export const QUANTITY_LIMIT = 200;

/** Longest text read as a list of quantities [UTF-16 units]. */
export const LIST_LIMIT = 1000;

const ECHO_LIMIT = 60;
const UNPRINTABLE = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}\p{Co}\p{Cn}]/u;

/**
 * `text` fit for one line of an error message: at most 60 characters, then an ellipsis, with control, direction-changing and
 * unassigned characters written as `\u{1b}`, so that what a file or a terminal handed over cannot forge or colour output.
 */
export function printable(text: string): string {
  // Two units hold any character: cutting first keeps a megabyte of text from being spread out.
  const characters = [...text.slice(0, 2 * (ECHO_LIMIT + 1))];
  const shown = characters
    .slice(0, ECHO_LIMIT)
    .map((character) =>
      UNPRINTABLE.test(character)
        ? `\\u{${(character.codePointAt(0) ?? 0).toString(16)}}`
        : character,
    )
    .join('');
  return characters.length > ECHO_LIMIT ? `${shown}…` : shown;
}

/**
 * Throws the one error a reader throws.
 *
 * @param fault - what is wrong, in words a cook understands
 * @param hint - the nearest right spelling, or the readings to choose from; those stand in for the list of what is accepted
 */
export function refuse(
  reading: Reading,
  code: RoastError['code'],
  fault: string,
  hint?: string,
): never {
  const { option, text, accepted } = reading;
  const offered = code === 'missing-unit' && hint !== undefined;
  const read = `${option}: read "${printable(text)}"; ${fault}`;
  throw new RoastError(offered ? read : `${read}; accepted: ${accepted}`, {
    code,
    path: [option],
    found: text.length > LIST_LIMIT ? printable(text) : text,
    accepted,
    ...(hint === undefined ? {} : { hint }),
  });
}

const FULL_WIDTH_OFFSET = 0xfee0; // Unicode, Halfwidth and Fullwidth Forms: U+FF01 to U+FF5E mirror ASCII at this distance

/**
 * `text` with one spelling for what keyboards, phones and word processors write differently: every run of spaces (no-break and
 * thin ones too) is one space, full-width characters are plain, `½` is ` 1/2`, `℃` is `°C`, the look-alikes of the degree and
 * minus signs are the signs themselves. Not Unicode's own compatibility form, which would turn `2²` into 22.
 */
export function plain(text: string): string {
  return text
    .replace(/[\u{ff01}-\u{ff5e}]/gu, (wide) =>
      String.fromCharCode(wide.charCodeAt(0) - FULL_WIDTH_OFFSET),
    )
    .replace(/[¼-¾⅐-⅞]/g, (fraction) => ` ${fraction.normalize('NFKC')}`)
    .replaceAll('⁄', '/')
    .replaceAll('℃', '°C')
    .replaceAll('℉', '°F')
    .replace(/[º˚]/g, '°')
    .replaceAll('−', '-')
    .replace(/\s+/g, ' ')
    .trim();
}

/**
 * The text of `reading` as {@link plain} text.
 *
 * @param limit - longest text accepted [UTF-16 units]
 * @throws RoastError `not-a-number` when there is nothing in it or more than `limit`
 */
export function plainText(reading: Reading, limit = QUANTITY_LIMIT): string {
  const { length } = reading.text;
  if (length > limit) {
    refuse(reading, 'not-a-number', `that is ${length} characters, more than ${limit}`);
  }
  const tidy = plain(reading.text);
  if (tidy === '') refuse(reading, 'not-a-number', 'there is nothing in it');
  return tidy;
}

// Characters that turn the direction of what follows; combining and joining ones are part of names.
const TURNING = /[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/g;

/** `text` for one line of print or terminal: no line breaks, no control or direction-turning characters, single spaces. */
export function lineOf(text: string): string {
  return text
    .normalize('NFC')
    .replace(TURNING, '')
    .replace(/[\p{Cc}\p{Cs}\p{Co}\p{Cn}\s]+/gu, ' ')
    .trim();
}
