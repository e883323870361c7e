import { DateTime } from 'luxon';
import { readClock } from './readClock.js';
import { plainText, type Reading, refuse } from './text.js';

const ACCEPTED =
  '2026-12-24, 24.12.2026 or 24 Dec 2026, with a time behind if there is one: 2026-12-24 16:00';
const FORMATS = ['yyyy-MM-dd', 'd.M.yyyy', 'd MMM yyyy', 'd MMMM yyyy'] as const;
const WITH_CLOCK = /^(.*?)(?:,? |T)(\d{1,2}(?:[:.h].*| ?[ap]m)?)$/i;
const SLASHED = /^(\d{1,2})\/(\d{1,2})\/(\d{4})$/;

/**
 * Reads a day, with or without a clock time.
 *
 * @returns ISO 8601 without a zone: `2026-12-24` or `2026-12-24T16:00`
 * @throws RoastError `not-a-number`; `contradiction` where day and month could be swapped, with both readings
 */
export function readDay(text: string, option: string): string {
  const reading: Reading = { option, text, accepted: ACCEPTED };
  const tidy = plainText(reading);
  const day = dateOf(tidy, reading);
  if (day !== undefined) return day;
  const [, dayText, clockText] = WITH_CLOCK.exec(tidy) ?? [];
  const date = dayText === undefined ? undefined : dateOf(dayText, reading);
  if (date === undefined) return refuse(reading, 'not-a-number', 'that is no day');
  const minutes = readClock(clockText, option);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${date}T${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

function dateOf(text: string, reading: Reading): string | undefined {
  const slashed = SLASHED.exec(text);
  if (slashed !== null) return slashedDate(slashed, reading);
  for (const format of FORMATS) {
    const day = DateTime.fromFormat(text, format, { locale: 'en', zone: 'utc' });
    if (day.isValid) return day.toISODate();
  }
  return undefined;
}

/** 24/12/2026 has one reading; 04/12/2026 has two, and the wrong one spoils a dinner. */
function slashedDate(
  [, first, second, year]: RegExpExecArray,
  reading: Reading,
): string | undefined {
  const iso = (month: string, day: string): string | undefined => {
    const date = DateTime.utc(Number(year), Number(month), Number(day));
    return date.isValid ? date.toISODate() : undefined;
  };
  const dayFirst = iso(second, first);
  const monthFirst = iso(first, second);
  if (dayFirst !== undefined && monthFirst !== undefined && dayFirst !== monthFirst) {
    refuse(
      reading,
      'contradiction',
      'day and month could be swapped',
      `write ${dayFirst} or ${monthFirst}`,
    );
  }
  return dayFirst ?? monthFirst;
}
