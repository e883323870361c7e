import { type BandWish, bandOf, type Scale, type ScaleName } from '@roastsim/core';
import { readCount } from './readCount.js';
import { readGuests } from './readGuests.js';
import { plain } from './text.js';

/** Guests of an order. */
export interface GuestWishes {
  readonly count: number;
  /** Empty when only a number was said. */
  readonly wishes: readonly BandWish[];
}

const MOST = 500; // as a bare number; wishes one by one are for a table, not for a hall

/**
 * Reads guests of an order: a number, `8`, or wishes as at a plan, `3 rare, 4 medium-rare, 1 at 60C`; a temperature counts as the
 * band it falls in, and a guest without a wish as one more.
 *
 * @param option - the option the text was given to, `--guests`
 * @throws RoastError as `readGuests`
 */
export function readGuestWishes(text: string, scale: Scale, option: string): GuestWishes {
  if (/^\d+$/.test(plain(text))) return { count: readCount(text, MOST, option), wishes: [] };
  const guests = readGuests(text, scale.name as ScaleName, option);
  const counts = new Map<string, number>();
  for (const { doneness } of guests) {
    if (doneness === undefined) continue;
    const band = typeof doneness === 'number' ? bandOf(scale, doneness).name : doneness;
    counts.set(band, (counts.get(band) ?? 0) + 1);
  }
  return { count: guests.length, wishes: [...counts].map(([band, count]) => ({ band, count })) };
}
