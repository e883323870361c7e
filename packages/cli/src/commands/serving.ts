import { type Plan, RoastError, type Timetable } from '@roastsim/core';
import type { Io } from '../io.js';
import type { PlanOrder } from '../read/planOptions.js';
import type { Serving } from '../read/serving.js';
import type { Lateness } from '../show/lateness.js';
import type { ServingClock } from '../show/servingClock.js';
import { type Reserved, reserveNamed } from '../wholeFile.js';
import type { OptionLine } from './planOptionLines.js';

/** Options about the moment of serving, as they were typed. */
export interface ServingWords {
  readonly serve?: string;
  readonly zone?: string;
  readonly calendar?: string;
}

/** Options of every command that plans one roast. */
export const SERVING_OPTIONS: readonly OptionLine[] = [
  ['The aim', '--zone <name>', "time zone of --serve: Europe/Vienna (default: the machine's)"],
  ['The answer', '--calendar <file>', 'the steps as calendar events with alarms, an .ics file'],
];

function needsServe(option: string): never {
  const accepted = `--serve with a time, beside ${option}`;
  throw new RoastError(`${option}: there is no serving time; accepted: ${accepted}`, {
    code: 'missing',
    path: [option],
    found: undefined,
    accepted,
  });
}

/**
 * The moment of serving; the clock's library is only loaded when there is one.
 *
 * @throws RoastError as `servingMoment`; `missing` for a zone or a calendar without a serving time
 */
export async function readServing(
  words: ServingWords,
  order: PlanOrder,
  io: Io,
): Promise<Serving | undefined> {
  const { serve, zone, calendar } = words;
  const { serveMinutes, serveDay } = order;
  if (serve === undefined || serveMinutes === undefined) {
    if (calendar !== undefined) needsServe('--calendar');
    if (zone !== undefined) needsServe('--zone');
    return undefined;
  }
  const { servingMoment } = await import('../read/serving.js');
  return servingMoment(
    { serveMinutes, ...(serveDay === undefined ? {} : { serveDay }) },
    { serve, ...(zone === undefined ? {} : { zone }) },
    { now: io.now(), zone: io.zone() },
  );
}

/** Opens the calendar's file before any work is done. */
export const reserveCalendar = async (file: string | undefined): Promise<Reserved | undefined> =>
  file === undefined ? undefined : reserveNamed(file, '.ics', '--calendar');

/** A plan by the clock. */
export interface Served {
  readonly serving: Serving;
  readonly clock: ServingClock;
  /** For a cook whose first step is past. */
  readonly late?: Lateness;
  /** What must be said about the clock and the time, a paragraph each. */
  readonly notices: readonly string[];
}

/** The clock of a plan's steps, and what a late cook can do. */
export async function servedPlan(
  plan: Plan,
  order: PlanOrder,
  table: Timetable,
  serving: Serving,
  now: Date,
): Promise<Served> {
  const { servingClock } = await import('../show/servingClock.js');
  const { latenessOf, sayLateness } = await import('../show/lateness.js');
  const [first] = table.steps;
  const last = table.steps[table.steps.length - 1];
  const clock = servingClock(serving, last.atMinutes, first.atMinutes);
  const late = latenessOf(plan, order.request, table, clock, now, order.byLine);
  return {
    serving,
    clock,
    ...(late === undefined ? {} : { late }),
    notices: [
      ...serving.notes,
      ...(late === undefined ? [] : sayLateness(plan, late, clock, order.units)),
    ],
  };
}
