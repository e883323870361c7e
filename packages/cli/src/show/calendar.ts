import { createHash } from 'node:crypto';
import type { Plan, StepKind, UnitSystem } from '@roastsim/core';
import { sayWarning } from '@roastsim/core';
import ical, { ICalAlarmType, ICalCalendarMethod, ICalEventTransparency } from 'ical-generator';
import type { ServingClock } from './servingClock.js';
import { roastTitle } from './text.js';
import { type Row, timetableRows } from './timetable.js';

/** What a calendar needs beside the plan. */
export interface CalendarContext {
  readonly units: UnitSystem;
  readonly clock: ServingClock;
  /** When the file is made. */
  readonly created: Date;
  /** Who the roast is for. */
  readonly forWhom?: string;
  /** A line of one's own. */
  readonly note?: string;
}

/** Steps a cook is called for, and how each is named in a list of a day's events. The others are told in the description before. */
const NAMES: { readonly [K in StepKind]?: string } = {
  'take-out': 'Roast out of the refrigerator',
  'oven-on': 'Oven on',
  'bath-on': 'Water bath on',
  'pan-on': 'Pan on',
  sear: 'Sear the roast',
  'into-oven': 'Roast into the oven',
  'into-bath': 'Roast into the water bath',
  'first-look': 'First look at the thermometer',
  pull: 'PULL the roast',
  carve: 'Carve the roast',
};

const SHORTEST_MINUTES = 5; // an event without a length is not shown by every calendar
const PULL_WARNING_S = 300; // sooner than by the clock the pull is called: ovens differ

const CONTROLS = /[\p{Cc}\p{Zl}\p{Zp}]+/gu;

/**
 * The timetable as an iCalendar file (RFC 5545): one event for each step a cook is called for, with an alarm, in UTC, so that no
 * calendar has to know the zone. The same plan for the same serving gives the same events, and a new plan for that roast and serving
 * takes the place of the old one.
 */
export function planCalendar(plan: Plan, context: CalendarContext): string {
  const { units, clock, created } = context;
  const rows = timetableRows(plan, units);
  const title = clean(roastTitle(plan, units));
  const forWhom = context.forWhom === undefined ? '' : ` for ${clean(context.forWhom)}`;
  const calendar = ical({
    prodId: { company: 'roastsim', product: 'roastsim', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
    name: `${title}${forWhom}`,
  });
  const serving = rows[rows.length - 1];
  const notices = plan.warnings.map((warning) => sayWarning(warning, units));
  for (const [i, row] of rows.entries()) {
    const name = NAMES[row.kind];
    if (name === undefined) continue;
    const next = rows.findIndex(({ kind }, j) => j > i && NAMES[kind] !== undefined);
    const meanwhile = rows.slice(i + 1, next < 0 ? undefined : next);
    const start = clock.momentOf(row.minutes);
    const event = calendar.createEvent({
      id: idOf(plan, clock.momentOf(serving.minutes), row, rows),
      stamp: created,
      start,
      end: new Date(start.getTime() + 60_000 * SHORTEST_MINUTES),
      summary: `${name}${forWhom}`,
      description: [
        row.text,
        ...meanwhile.map(({ minutes, text }) => `${clock.at(minutes)} ${text}`),
        `${title}.`,
        ...(context.note === undefined ? [] : [clean(context.note)]),
        ...(row.kind === 'pull' || i === 0 ? notices : []),
        'Go by a thermometer, not by the clock.',
      ].join('\n'),
      transparency: ICalEventTransparency.TRANSPARENT,
    });
    event.createAlarm({ type: ICalAlarmType.display, trigger: 0, description: name });
    if (row.kind === 'pull') {
      event.createAlarm({
        type: ICalAlarmType.display,
        trigger: PULL_WARNING_S,
        description: 'Pull in 5 minutes by the clock: look at the thermometer',
      });
    }
  }
  return calendar.toString();
}

const clean = (text: string): string => text.replace(CONTROLS, ' ').trim();

/** A name that follows from the roast, its serving and the step alone. */
function idOf({ roast }: Plan, served: Date, row: Row, rows: readonly Row[]): string {
  const nth = rows.filter(({ kind }) => kind === row.kind).indexOf(row);
  const content = [roast.cut, roast.massKg, served.toISOString(), row.kind, nth];
  const digest = createHash('sha256').update(JSON.stringify(content)).digest('hex');
  return `${digest.slice(0, 32)}@roastsim`;
}
