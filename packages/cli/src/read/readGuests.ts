import { SCALES, type ScaleName, type Wish } from '@roastsim/core';
import { readChoice } from './readChoice.js';
import { readTemperature } from './readTemperature.js';
import { LIST_LIMIT, lineOf, plainText, type Reading, refuse } from './text.js';

/** Guests as they were counted: a wish without a doneness is left to the caller. */
export interface GuestWish {
  readonly doneness?: string | number;
  readonly name?: string;
}

const MOST_GUESTS = 100;
const LONGEST_NAME = 60;
const ACCEPTED = '8, or "3 rare, 4 medium-rare, 1 at 60C", or "Ada: rare, 2 medium"';

/**
 * Reads who wishes what: `8`, `3 rare, 4 medium-rare`, `2 at 52C`, `Ada: rare`. Commas, semicolons, plus signs and "and" part the
 * wishes; each is one guest or begins with a number of guests.
 *
 * @param scale - whose bands are meant
 * @param option - the option the text was given to, `--guests`
 * @returns one wish for every guest, in the order written
 * @throws RoastError naming the option, what was read and what is accepted
 */
export function readGuests(text: string, scale: ScaleName, option: string): GuestWish[] {
  const reading = { option, text, accepted: ACCEPTED };
  const guests = plainText(reading, LIST_LIMIT)
    .split(/[,;+]| and /i)
    .flatMap((part) => readPart(part.trim(), scale, reading));
  if (guests.length > MOST_GUESTS) tooMany(reading, guests.length);
  return guests;
}

function readPart(part: string, scale: ScaleName, reading: Reading): GuestWish[] {
  if (part === '') refuse(reading, 'missing', 'a wish in it is empty');
  const named = /^([^:]*):(.*)$/.exec(part);
  if (named !== null) {
    const name = lineOf(named[1]);
    if (name === '' || [...name].length > LONGEST_NAME) {
      refuse(reading, 'out-of-range', `a name has 1 to ${LONGEST_NAME} characters`);
    }
    return [{ name, doneness: readDoneness(named[2].trim(), scale, reading) }];
  }
  const counted = /^(\d+)(?: ?[x×](?= )| ?at(?= )| ?guests?\b)?(.*)$/i.exec(part);
  if (counted === null || /^[°CF]/i.test(counted[2])) {
    return [{ doneness: readDoneness(part, scale, reading) }];
  }
  const count = Number(counted[1]);
  if (count < 1) refuse(reading, 'out-of-range', 'there has to be a guest');
  if (count > MOST_GUESTS) tooMany(reading, count);
  const wish = counted[2].trim();
  const guest = wish === '' ? {} : { doneness: readDoneness(wish, scale, reading) };
  return Array.from({ length: count }, () => guest);
}

const tooMany = (reading: Reading, count: number): never =>
  refuse(reading, 'out-of-range', `${count} guests are more than ${MOST_GUESTS}`);

/** A band, or a temperature when it begins with a digit; errors show the whole text. */
function readDoneness(text: string, scale: ScaleName, reading: Reading): string | number {
  const { option } = reading;
  const wish = text.replace(/^at /i, '');
  if (/^[-+]?[\d.,]/.test(wish)) return readTemperature(wish, option);
  const bands = SCALES[scale].bands.map(({ name }) => name);
  return readChoice(wish, bands, option);
}

/** The same guests, all with a wish. */
export const withWish = (guests: readonly GuestWish[], doneness: string | number): Wish[] =>
  guests.map((guest) => ({ doneness, ...guest }));

const FREEDOM_WORDS = ['oven', 'sear', 'fold', 'carving'] as const;

/**
 * Reads what may vary: `oven, fold`, or `all`.
 *
 * @throws RoastError `unknown-name`, `missing`, or `not-a-number` when there is nothing in it or far too much
 */
export function readFreedoms(text: string, option: string): (typeof FREEDOM_WORDS)[number][] {
  const reading = { option, text, accepted: `${FREEDOM_WORDS.join(', ')}, all` };
  const names = plainText(reading)
    .split(/[,;+ ]/)
    .filter((name) => name !== '');
  if (names.length === 0) refuse(reading, 'missing', 'there is no name in it');
  const chosen = names.map((name) => readChoice(name, [...FREEDOM_WORDS, 'all'] as const, option));
  return FREEDOM_WORDS.filter((word) => chosen.includes('all') || chosen.includes(word));
}
