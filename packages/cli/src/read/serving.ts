import { DateTime, IANAZone } from 'luxon';
import { nearest } from './nearest.js';
import { readDay } from './readDay.js';
import type { ServeWords } from './readServe.js';
import { plainText, type Reading, refuse } from './text.js';

/** When the plates go out, as a moment. */
export interface Serving {
  /** In the zone that times are told in. */
  readonly at: DateTime<true>;
  /** A day or a zone was named, so the answer names both. */
  readonly named: boolean;
  /** What the clock of that day does to the time, in whole sentences. */
  readonly notes: readonly string[];
}

/** The outside world of a serving time. */
export interface Here {
  readonly now: Date;
  /** IANA name of the machine's zone. */
  readonly zone: string;
}

const ACCEPTED_ZONE = 'an IANA name, like Europe/Vienna or America/Chicago';

let listed: ReadonlyMap<string, string> | undefined;

/** Every zone the machine lists, by its name in lower case; the list takes a millisecond to come by. */
function zones(): ReadonlyMap<string, string> {
  listed ??= new Map(Intl.supportedValuesOf('timeZone').map((name) => [name.toLowerCase(), name]));
  return listed;
}

/**
 * Reads a time zone.
 *
 * @returns its IANA name, in its usual capitals
 * @throws RoastError `unknown-name`, with the nearest name; `not-a-number` when there is nothing in it or far too much
 */
export function readZone(text: string, option: string): string {
  const reading: Reading = { option, text, accepted: ACCEPTED_ZONE };
  const name = plainText(reading);
  if (/^utc$/i.test(name)) return 'UTC';
  const known = zones().get(name.toLowerCase());
  if (known !== undefined) return known;
  // aliases are known to the clock without being listed; an offset is a zone of no place
  if (/^[a-z]/i.test(name) && IANAZone.isValidZone(name)) return name;
  const near = nearest(name, [...zones().values()]);
  return refuse(
    reading,
    'unknown-name',
    `there is no such zone${near === undefined ? '' : ` (did you mean ${near}?)`}`,
  );
}

/**
 * The moment of serving. A time alone is the next such time; where the clock is put forward or back that day, the notes say what was
 * made of it.
 *
 * @param typed - what stood behind `--serve` and, if it was given, `--zone`
 * @throws RoastError `unknown-name` for the zone, `not-a-number` or `contradiction` for the day, `out-of-range` for a moment past
 */
export function servingMoment(
  { serveMinutes, serveDay }: ServeWords,
  typed: { readonly serve: string; readonly zone?: string },
  here: Here,
): Serving {
  const zone = typed.zone === undefined ? machineZone(here) : readZone(typed.zone, '--zone');
  const now = DateTime.fromJSDate(here.now, { zone }).startOf('minute');
  const named = serveDay !== undefined || typed.zone !== undefined;
  if (serveDay === undefined) {
    const today = onDay(now, serveMinutes);
    const next = today.at < now ? onDay(now.plus({ days: 1 }), serveMinutes) : today;
    return { ...next, named };
  }
  const serving = onDay(dayOf(serveDay, now), serveMinutes);
  if (serving.at < now) {
    const accepted = `a time from now on, ${now.toFormat('yyyy-MM-dd HH:mm')}`;
    refuse({ option: '--serve', text: typed.serve, accepted }, 'out-of-range', 'that is past');
  }
  return { ...serving, named };
}

/** A machine may not know where it is. */
const machineZone = ({ zone }: Here): string => (IANAZone.isValidZone(zone) ? zone : 'UTC');

function dayOf(words: string, now: DateTime): DateTime {
  if (/^today$/i.test(words)) return now;
  if (/^tomorrow$/i.test(words)) return now.plus({ days: 1 });
  return DateTime.fromISO(readDay(words, '--serve'), { zone: now.zone });
}

/** A time of day on a day, in its zone, with what the change of the clock does to it. */
function onDay(day: DateTime, minutes: number): { at: DateTime<true>; notes: string[] } {
  const { year, month, day: ofMonth, zone } = day;
  const [hour, minute] = [Math.floor(minutes / 60), minutes % 60];
  const local = DateTime.fromObject({ year, month, day: ofMonth, hour, minute }, { zone });
  if (!local.isValid) throw new Error(`no moment on ${day.toISODate()} at ${hour}:${minute}`);
  const asked = `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`;
  const date = local.toFormat('d LLLL yyyy', { locale: 'en-GB' });
  const place = `on ${date} in ${local.zoneName}`;
  if (local.hour !== hour || local.minute !== minute) {
    const note = `${asked} does not exist ${place}, where clocks are put forward: ${local.toFormat('HH:mm')} is meant.`;
    return { at: local, notes: [note] };
  }
  const [first, ...others] = local.getPossibleOffsets().sort((a, b) => +a - +b);
  if (others.length === 0) return { at: local, notes: [] };
  const note =
    `${asked} comes twice ${place}, where clocks are put back: the first is meant ` +
    `(${first.toFormat('ZZ')} from UTC).`;
  return { at: first as DateTime<true>, notes: [note] };
}
