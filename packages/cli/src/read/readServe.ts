import { readClock } from './readClock.js';
import { plainText } from './text.js';

/** A serving time as far as it can be read without knowing today. */
export interface ServeWords {
  /** Serving time [minutes since midnight]. */
  readonly serveMinutes: number;
  /** The day in front of it, still in words: `2026-12-24`, `tomorrow`. */
  readonly serveDay?: string;
}

const WITH_DAY = /^(.*?\S)(?:, ?| |(?<=\d)T)(\d{1,2} ?(?:[:.h].*|[ap]\.?m\.?))$/i;
const IS_DAY = /\d.*[-./ ].*\d|[a-z]{3}/i;

/**
 * Reads when to serve: a time of day as {@link readClock} does, alone or behind a day.
 *
 * @throws RoastError as {@link readClock}; the day is read where today is known
 */
export function readServe(text: string, option: string): ServeWords {
  const tidy = plainText({ option, text, accepted: 'a time of day, like 18:30 or 6:30pm' });
  const [, serveDay, clock] = WITH_DAY.exec(tidy) ?? [];
  if (serveDay === undefined || !IS_DAY.test(serveDay)) {
    return { serveMinutes: readClock(text, option) };
  }
  return { serveMinutes: readClock(clock, option), serveDay };
}
