import type { Scale, Wish } from '@roastsim/core';
import { readChoice } from './readChoice.js';
import { readCount } from './readCount.js';
import { LIST_LIMIT, plainText, refuse } from './text.js';

/** Guests of an order. */
export interface GuestWishes {
  readonly count: number;
  /** Empty when only a number was said. */
  readonly wishes: readonly Wish[];
}

const MOST = 500;

/**
 * Reads guests: a number, `8`, or how many want what, `3 rare, 4 medium-rare, 1 medium-well`.
 *
 * @param option - the option the text was given to, `--guests`
 * @throws RoastError `not-a-number`, `out-of-range`, or `unknown-name` for a band the scale does not have
 */
export function readGuestWishes(text: string, scale: Scale, option: string): GuestWishes {
  const bands = scale.bands.map(({ name }) => name);
  const accepted = `a number, or wishes like "3 rare, 4 medium-rare" (${bands.join(', ')})`;
  const reading = { option, text, accepted };
  const tidy = plainText(reading, LIST_LIMIT);
  if (/^\d+$/.test(tidy)) return { count: readCount(tidy, MOST, option), wishes: [] };
  const wishes = tidy.split(/[;,]/).map((item) => {
    const [, count, band] = /^ ?(\d+) ?x? ([^\d]+)$/i.exec(item) ?? [];
    if (count === undefined || band === undefined) {
      return refuse(reading, 'not-a-number', 'it is neither a number nor a list of wishes');
    }
    return { band: readChoice(band, bands, option), count: readCount(count, MOST, option) };
  });
  const count = wishes.reduce((sum, wish) => sum + wish.count, 0);
  if (count > MOST) refuse(reading, 'out-of-range', `those are ${count} guests, more than ${MOST}`);
  return { count, wishes: wishes.filter((wish) => wish.count > 0) };
}
