import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { planCook, rest, roastIn, temper, tenderloin } from '@roastsim/core';
import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readServe } from '../../packages/cli/src/read/readServe.js';
import { servingMoment } from '../../packages/cli/src/read/serving.js';
import { planCalendar } from '../../packages/cli/src/show/calendar.js';
import { type ServingClock, servingClock } from '../../packages/cli/src/show/servingClock.js';
import { timetableRows } from '../../packages/cli/src/show/timetable.js';
import { roastsim } from '../support/cli.js';
import { frozenAt } from '../support/frozen.js';

const VIENNA = 'Europe/Vienna';
const plan = planCook(
  tenderloin({ massKg: 2.2 }),
  {
    before: [temper({ minutes: 30 })],
    heat: roastIn({ ovenC: 230, until: { minutes: 0 } }),
    after: [rest({ minutes: 20 })],
  },
  { stations: 8, shells: 12 },
);
const rows = timetableRows(plan, 'metric');
const created = new Date('2026-01-02T03:04:05Z');

function clockOf(serve: string): ServingClock {
  const here = { now: new Date('2026-01-01T00:00:00Z'), zone: VIENNA };
  const moment = servingMoment(readServe(serve, '--serve'), { serve }, here);
  return servingClock(moment, rows[rows.length - 1].minutes, rows[0].minutes);
}

interface ReadEvent {
  readonly uid: string;
  readonly summary: string;
  readonly description: string;
  readonly start: Date;
  readonly end: Date;
  readonly stamp: string;
  /** Seconds from the start, negative before. */
  readonly alarms: readonly number[];
}

/** Events as another library reads them. */
function readCalendar(text: string): ReadEvent[] {
  const root = new ICAL.Component(ICAL.parse(text));
  expect(root.name).toBe('vcalendar');
  expect(root.getFirstPropertyValue('version')).toBe('2.0');
  expect(root.getFirstPropertyValue('prodid')).toBe('-//roastsim//roastsim//EN');
  return root.getAllSubcomponents('vevent').map((component) => {
    const { uid, summary, description, startDate, endDate } = new ICAL.Event(component);
    const alarms = component.getAllSubcomponents('valarm').map((alarm) => {
      expect(alarm.getFirstPropertyValue('action')).toBe('DISPLAY');
      expect(alarm.getFirstPropertyValue('description')).not.toBe(null);
      const trigger = alarm.getFirstPropertyValue('trigger');
      return trigger instanceof ICAL.Duration ? trigger.toSeconds() : Number.NaN;
    });
    const stamp = String(component.getFirstPropertyValue('dtstamp'));
    return {
      uid,
      summary,
      description,
      start: startDate.toJSDate(),
      end: endDate.toJSDate(),
      stamp,
      alarms,
    };
  });
}

const CALLED = ['take-out', 'oven-on', 'into-oven', 'first-look', 'pull', 'carve'];

describe('a calendar', () => {
  const clock = clockOf('2026-12-24 18:30');
  const text = planCalendar(plan, { units: 'metric', clock, created });
  const events = readCalendar(text);

  test('has an event with an alarm for each step a cook is called for, at its time', () => {
    const called = rows.filter(({ kind }) => CALLED.includes(kind));
    expect(events.map(({ start }) => start)).toEqual(
      called.map(({ minutes }) => clock.momentOf(minutes)),
    );
    for (const [i, { description, start, end, alarms, stamp }] of events.entries()) {
      expect(description).toContain(called[i].text);
      expect(end.getTime() - start.getTime()).toBe(5 * 60_000);
      expect(alarms).toContain(0);
      expect(stamp).toBe('2026-01-02T03:04:05Z');
    }
    expect(events.map(({ summary }) => summary)).toEqual([
      'Roast out of the refrigerator',
      'Oven on',
      'Roast into the oven',
      'First look at the thermometer',
      'PULL the roast',
      'Carve the roast',
    ]);
  });

  test('carving ends when the plates go out', () => {
    expect(events[5].end.toISOString()).toBe('2026-12-24T17:30:00.000Z');
  });

  test('the pull is called 5 minutes before as well, with its notices', () => {
    const [pull] = events.filter(({ summary }) => summary.startsWith('PULL'));
    expect(pull.alarms).toEqual([0, -300]);
    expect(pull.description).toContain('Below whole-cut guidance');
    expect(pull.description).toContain('Should show');
  });

  test('keeps to 75 octets a line, with the line ends of the standard', () => {
    const lines = text.split('\r\n');
    expect(lines.length).toBeGreaterThan(30);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    for (const line of lines) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
  });

  test('names its events by what they are, not by when the file was made', () => {
    const again = readCalendar(
      planCalendar(plan, { units: 'us', clock, created: new Date('2026-05-05T05:05:05Z') }),
    );
    expect(again.map(({ uid }) => uid)).toEqual(events.map(({ uid }) => uid));
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    const later = readCalendar(
      planCalendar(plan, { units: 'metric', clock: clockOf('2026-12-24 18:31'), created }),
    );
    expect(later[0].uid).not.toBe(events[0].uid);
  });

  test.each(['29.3.2026 3:30', '25.10.2026 3:30'])(
    'keeps its real minutes across a change of the clock, serving %s',
    (serve) => {
      const night = clockOf(serve);
      const read = readCalendar(planCalendar(plan, { units: 'metric', clock: night, created }));
      const apart = (list: readonly ReadEvent[]): number[] =>
        list.map(({ start }) => start.getTime() - list[0].start.getTime());
      expect(apart(read)).toEqual(apart(events));
      expect(read[5].end).toEqual(night.momentOf(rows[rows.length - 1].minutes));
    },
  );

  test('obeys no text', () => {
    const hostile = {
      forWhom: 'A; B, C\\ "D"\u0000\u001b[31m\u2028E',
      note: 'x\r\nEND:VEVENT\r\nBEGIN:VALARM\nATTACH:http://example.com/\r\rlast\u0085\\n ümlaut \u{1f600} '.repeat(
        3,
      ),
    };
    const written = planCalendar(plan, { units: 'metric', clock, created, ...hostile });
    const read = readCalendar(written);
    expect(read.map(({ start }) => start)).toEqual(events.map(({ start }) => start));
    expect(read.map(({ alarms }) => alarms)).toEqual(events.map(({ alarms }) => alarms));
    expect(read[1].summary).toBe('Oven on for A; B, C\\ "D" [31m E');
    expect(read[1].description).toContain(
      'x END:VEVENT BEGIN:VALARM ATTACH:http://example.com/ last \\n ümlaut',
    );
    expect(written).not.toMatch(/^ATTACH/m);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what must not be there
    expect(written.replaceAll('\r\n', '')).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u2028]/);
  });
});

describe('the command', () => {
  const GOOD = ['--weight', '2.2kg', '--oven', '230C'];
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(path.join(tmpdir(), 'roastsim-calendar-'));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));
  const env = frozenAt('2026-12-24T10:00:00Z', VIENNA);

  test('writes the file whole, and nothing beside it', async () => {
    const run = await roastsim([...GOOD, '--serve', '18:30', '--calendar', 'cook.ics'], {
      cwd: folder,
      env,
    });
    expect(run).toMatchObject({ code: 0, stderr: '' });
    expect(await readdir(folder)).toEqual(['cook.ics']);
    const events = readCalendar(await readFile(path.join(folder, 'cook.ics'), 'utf8'));
    expect(events[0].start.toISOString()).toBe('2026-12-24T15:58:00.000Z');
    expect(events[0].stamp).toBe('2026-12-24T10:00:00Z');
    expect(run.stdout).toMatch(/0 {2}16:58/);
  });

  test.each([
    ['no serving time', ['--calendar', 'a.ics'], /--calendar: there is no serving time/],
    ['another ending', ['--serve', '18:30', '--calendar', 'a.txt'], /ends in \.ics/],
    ['no folder', ['--serve', '18:30', '--calendar', 'no/a.ics'], /there is no such folder/],
    [
      'a plan that is refused',
      ['--serve', '18:30', '--calendar', 'a.ics', '--doneness', '50C', '--at-risk'],
      /--doneness/,
    ],
  ])('%s: one line, and no file', async (_name, args, message) => {
    const { code, stdout, stderr } = await roastsim([...GOOD, ...args], { cwd: folder, env });
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(message);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect((await readdir(folder)).filter((file) => file !== 'cook.ics')).toEqual([]);
  });

  test('a card brings its name and note along, and tells the day', async () => {
    const out = ['card', ...GOOD, '--out', 'card.html', '--calendar', 'card.ics'];
    const { code, stderr } = await roastsim(
      [...out, '--serve', 'tomorrow 18:30', '--name', 'A. Lind', '--note', 'Salt; then wait'],
      { cwd: folder, env },
    );
    expect(stderr).toBe('Card written to card.html\n');
    expect(code).toBe(0);
    const html = await readFile(path.join(folder, 'card.html'), 'utf8');
    expect(html).toContain('Serve at 18:30, Friday 25 December 2026');
    expect(html).toContain('>16:58<');
    const [event] = readCalendar(await readFile(path.join(folder, 'card.ics'), 'utf8'));
    expect(event.summary).toBe('Roast out of the refrigerator for A. Lind');
    expect(event.description).toContain('Salt; then wait');
    expect(event.start.toISOString()).toBe('2026-12-25T15:58:00.000Z');
  });
});
