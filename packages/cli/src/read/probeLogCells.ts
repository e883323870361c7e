import { RoastError } from '@roastsim/core';
import { DateTime } from 'luxon';
import type { LogColumn, TemperatureUnit, TimeUnit } from './probeLogColumns.js';
import { readDuration } from './readDuration.js';
import { plain, printable } from './text.js';

/** A cell that cannot be read; `reason` goes into the list of bad lines. */
export class BadCell extends Error {}

/** A time as a cell says it. */
export type Stamp =
  /** Since the log's own beginning [min]. */
  | { readonly kind: 'elapsed'; readonly minutes: number }
  /** A number that is seconds or minutes. */
  | { readonly kind: 'bare'; readonly value: number }
  /** Of the day [min]; which day, the line before tells. */
  | { readonly kind: 'clock'; readonly minutes: number }
  /** On the time line of all days [min], and of the day where the cell says it. */
  | { readonly kind: 'instant'; readonly minutes: number; readonly clockMinutes?: number };

const DAY_MINUTES = 24 * 60;
const LONGEST_CELL = 60;
const GAP = /^(?:-+|n\/?a|nan|null|none|nil|err(?:or)?|open|off|\?+)?$/i;
const NUMBER = /^[-+]?\d{1,15}(?:[.,]\d{1,20})?$/;
const WITH_UNIT =
  /^([-+]?\d{1,15}(?:[.,]\d{1,20})?) ?(?:°|deg(?:rees?)?)? ?(c|f|celsius|fahrenheit)$/i;
const CLOCK = /(?:^|[T ,])(\d{1,2}):(\d\d)(?::(\d\d)(?:[.,](\d{1,9}))?)? ?(?:([ap])\.?m\.?)?$/i;
const ISO = /^\d{4}-\d\d-\d\d[T ]\d\d:\d\d/;
const LOCAL_DATE = /^\d{1,4}[./-]\d{1,2}[./-]\d{1,4}[ ,T]+\d{1,2}:/;
const EPOCH_S = 1e9; // 2001: smaller numbers are no seconds since 1970
const EPOCH_MS = 1e11;
const FARTHEST = 2000; // degrees of anything: what lies beyond is no temperature

const PER_MINUTE: Readonly<Record<TimeUnit, number>> = { ms: 60_000, s: 60, min: 1, h: 1 / 60 };

const numberIn = (text: string): number => Number(text.replace(',', '.'));

/**
 * Reads a temperature; a gap (`--`, `n/a`, nothing) is NaN.
 *
 * @param unit - of a bare number
 * @throws BadCell
 */
export function readCellC(cell: string, unit: TemperatureUnit): number {
  const text = tidy(cell, 'temperature');
  if (GAP.test(text)) return Number.NaN;
  const [, digits, typed] = WITH_UNIT.exec(text) ?? [];
  if (digits === undefined && !NUMBER.test(text)) throw bad(cell, 'temperature');
  const value = numberIn(digits ?? text);
  if (Math.abs(value) > FARTHEST) throw bad(cell, 'temperature');
  const own = typed === undefined ? unit : typed.charAt(0).toUpperCase();
  return own === 'F' ? ((value - 32) * 5) / 9 : value;
}

/** Whether a bare number was read, whose unit had to be known from elsewhere. */
export const isBare = (cell: string): boolean => NUMBER.test(plain(cell.slice(0, LONGEST_CELL)));

/**
 * Reads a time.
 *
 * @param unit - of a bare number, where it is known
 * @throws BadCell
 */
export function readStamp(cell: string, column: LogColumn, unit: TimeUnit | undefined): Stamp {
  const text = tidy(cell, 'time');
  if (NUMBER.test(text)) return numberStamp(numberIn(text), unit);
  if (ISO.test(text)) return isoStamp(cell, text.replace(' ', 'T').replace(/ (?=[-+Z])/, ''));
  const clock = CLOCK.exec(text);
  if (clock !== null && (clock.index === 0 || LOCAL_DATE.test(text))) {
    return clockStamp(cell, clock, column);
  }
  try {
    return { kind: 'elapsed', minutes: readDuration(text, 'time') };
  } catch (error) {
    if (error instanceof RoastError) throw bad(cell, 'time');
    throw error;
  }
}

function numberStamp(value: number, unit: TimeUnit | undefined): Stamp {
  if (unit === undefined || unit === 's' || unit === 'ms') {
    if (Math.abs(value) >= EPOCH_MS) return { kind: 'instant', minutes: value / 60_000 };
    if (Math.abs(value) >= EPOCH_S && unit !== 'ms')
      return { kind: 'instant', minutes: value / 60 };
  }
  return unit === undefined
    ? { kind: 'bare', value }
    : { kind: 'elapsed', minutes: value / PER_MINUTE[unit] };
}

function isoStamp(cell: string, text: string): Stamp {
  const at = DateTime.fromISO(text, { setZone: true, zone: 'utc' });
  if (!at.isValid) throw bad(cell, 'time');
  return {
    kind: 'instant',
    minutes: at.toMillis() / 60_000,
    clockMinutes: at.hour * 60 + at.minute + at.second / 60,
  };
}

function clockStamp(cell: string, clock: RegExpExecArray, column: LogColumn): Stamp {
  const [, first, second, third, decimals, half] = clock;
  const fraction = decimals === undefined ? 0 : Number(`0.${decimals}`);
  if (column.minutesSeconds === true && third === undefined) {
    return { kind: 'elapsed', minutes: Number(first) + Number(second) / 60 };
  }
  const seconds = Number(third ?? 0) + fraction;
  const hour = Number(first);
  if (Number(second) > 59 || seconds >= 60) throw bad(cell, 'time');
  const minutes = Number(second) + seconds / 60;
  if (column.elapsed === true) return { kind: 'elapsed', minutes: 60 * hour + minutes };
  if (half !== undefined) {
    if (hour < 1 || hour > 12) throw bad(cell, 'time');
    const afternoon = half.toLowerCase() === 'p' ? 12 : 0;
    return { kind: 'clock', minutes: 60 * ((hour % 12) + afternoon) + minutes };
  }
  if (hour > 23) throw bad(cell, 'time');
  return { kind: 'clock', minutes: 60 * hour + minutes };
}

/** The minute of the time line nearest to the one before that shows this time of day. */
export function nearestDay(clockMinutes: number, before: number | undefined): number {
  if (before === undefined) return clockMinutes;
  return clockMinutes + DAY_MINUTES * Math.round((before - clockMinutes) / DAY_MINUTES);
}

function tidy(cell: string, what: string): string {
  if (cell.length > LONGEST_CELL) throw bad(cell, what);
  return plain(cell);
}

const bad = (cell: string, what: string): BadCell =>
  new BadCell(`"${printable(cell)}" is no ${what}`);
