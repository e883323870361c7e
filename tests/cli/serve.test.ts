import { existsSync } from 'node:fs';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { RoastError } from '@roastsim/core';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readServe } from '../../packages/cli/src/read/readServe.js';
import { readZone, type Serving, servingMoment } from '../../packages/cli/src/read/serving.js';
import { servingClock } from '../../packages/cli/src/show/servingClock.js';
import { roastsim } from '../support/cli.js';
import { frozenAt } from '../support/frozen.js';

const GOOD = ['--weight', '2.2kg', '--oven', '230C'];
const VIENNA = 'Europe/Vienna';

const serving = (serve: string, now: string, zone?: string): Serving =>
  servingMoment(
    readServe(serve, '--serve'),
    { serve, ...(zone === undefined ? {} : { zone }) },
    { now: new Date(now), zone: VIENNA },
  );
const iso = (serve: string, now: string, zone?: string): string =>
  serving(serve, now, zone).at.toISO({ suppressMilliseconds: true });

describe('a serving time', () => {
  const noon = '2026-12-24T11:00:00Z';

  test.each([
    ['18:30', '2026-12-24T18:30:00+01:00'],
    ['6:30 p.m.', '2026-12-24T18:30:00+01:00'],
    ['today 18:30', '2026-12-24T18:30:00+01:00'],
    ['Tomorrow 6pm', '2026-12-25T18:00:00+01:00'],
    ['2026-12-24 18:30', '2026-12-24T18:30:00+01:00'],
    ['2026-12-24T18:30', '2026-12-24T18:30:00+01:00'],
    ['26.12.2026 12.15', '2026-12-26T12:15:00+01:00'],
    ['26 Dec 2026, 7:30pm', '2026-12-26T19:30:00+01:00'],
    ['1 July 2027 20h', '2027-07-01T20:00:00+02:00'],
  ])('%s on 24 December 2026 at noon in Vienna', (typed, moment) => {
    expect(iso(typed, noon)).toBe(moment);
  });

  test('alone is the next such time', () => {
    expect(iso('18:30', '2026-12-24T17:29:00Z')).toBe('2026-12-24T18:30:00+01:00');
    expect(iso('18:30', '2026-12-24T17:30:59Z')).toBe('2026-12-24T18:30:00+01:00');
    expect(iso('18:30', '2026-12-24T17:31:00Z')).toBe('2026-12-25T18:30:00+01:00');
    expect(iso('00:30', '2026-12-31T20:00:00Z')).toBe('2027-01-01T00:30:00+01:00');
  });

  test('is told in the zone that was named', () => {
    expect(iso('18:30', noon, 'America/Chicago')).toBe('2026-12-24T18:30:00-06:00');
    expect(iso('2026-12-25 6:30', noon, 'asia/tokyo').slice(-6)).toBe('+09:00');
  });

  test.each([
    ['2026-12-24 11:59', /"2026-12-24 11:59"; that is past; accepted: a time from now on/],
    ['today 9:00', /that is past/],
    ['04/12/2026 18:30', /day and month could be swapped/],
    ['2026-02-30 18:30', /that is no day/],
    ['yesterday 18:30', /that is no day/],
    ['2026-12-24 25:00', /a day has hours 0 to 23/],
    ['2026-12-24', /that is not a time of day/],
    ['18 : 3', /not a time of day/],
    ['1830', /not a time of day/],
  ])('%s is refused', (typed, message) => {
    expect(() => serving(typed, noon)).toThrow(RoastError);
    expect(() => serving(typed, noon)).toThrow(message);
  });

  test('a machine that does not know its zone counts in UTC', () => {
    const words = { serve: '18:30' };
    const here = { now: new Date(noon), zone: 'Etc/Unknown' };
    expect(servingMoment({ serveMinutes: 1110 }, words, here).at.zoneName).toBe('UTC');
  });

  test('a zone that does not exist is told with the nearest that does', () => {
    expect(() => readZone('Europe/Viena', '--zone')).toThrow(/did you mean Europe\/Vienna\?/);
    expect(() => readZone('+01:00', '--zone')).toThrow(RoastError);
    expect(readZone('utc', '--zone')).toBe('UTC');
    expect(readZone('Europe/Kyiv', '--zone')).toMatch(/Europe\/Ky?iev|Europe\/Kyiv/);
  });
});

describe('a change of the clock', () => {
  test('a time that does not exist is moved by the gap, and a note says so', () => {
    const { at, notes } = serving('tomorrow 2:30', '2026-03-28T11:00:00Z');
    expect(at.toUTC().toISO()).toBe('2026-03-29T01:30:00.000Z'); // 03:30 +02:00
    expect(notes).toEqual([
      '02:30 does not exist on 29 March 2026 in Europe/Vienna, where clocks are put forward: 03:30 is meant.',
    ]);
  });

  test('a time that comes twice is the first, and a note says so', () => {
    const { at, notes } = serving('25.10.2026 2:30', '2026-10-24T11:00:00Z');
    expect(at.toUTC().toISO()).toBe('2026-10-25T00:30:00.000Z'); // still summer time
    expect(notes).toHaveLength(1);
    expect(notes[0]).toMatch(/comes twice .*the first is meant \(\+02:00 from UTC\)/);
  });

  test('an ordinary time has no note', () => {
    expect(serving('18:30', '2026-03-29T09:00:00Z').notes).toEqual([]);
  });

  test('steps before it are real minutes away', () => {
    // clocks go from 02:00 to 03:00 on 29 March and from 03:00 to 02:00 on 25 October
    const spring = servingClock(serving('29.3.2026 3:30', '2026-03-28T11:00:00Z'), 92, 0);
    expect([0, 30, 61, 62, 92].map(spring.at)).toEqual([
      '00:58',
      '01:28',
      '01:59',
      '03:00',
      '03:30',
    ]);
    expect(spring.isoOf(0)).toBe('2026-03-29T00:58:00+01:00');
    const autumn = servingClock(serving('25.10.2026 3:30', '2026-10-24T11:00:00Z'), 92, 0);
    expect([0, 30, 92].map(autumn.at)).toEqual(['02:58', '02:28', '03:30']);
    expect(autumn.isoOf(0)).toBe('2026-10-25T02:58:00+02:00');
  });
});

test('law: another serving time moves every step by as much, whatever the clock does', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(VIENNA, 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'UTC'),
      fc.integer({ min: 0, max: 365 * 24 * 60 }),
      fc.integer({ min: 0, max: 365 * 24 * 60 }),
      fc.double({ min: 10, max: 900, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (zone, firstMinute, secondMinute, lengthMinutes, share) => {
        const from = serving('2026-01-01 00:00', '2025-12-01T00:00:00Z', zone);
        const clocks = [firstMinute, secondMinute].map((minutes) =>
          servingClock({ ...from, at: from.at.plus({ minutes }) }, lengthMinutes, 0),
        );
        const apart = (minutes: number): number =>
          clocks[1].momentOf(minutes).getTime() - clocks[0].momentOf(minutes).getTime();
        const minutes = share * lengthMinutes;
        expect(apart(minutes)).toBe(60_000 * (secondMinute - firstMinute));
        const [{ momentOf, isoOf }] = clocks;
        const before = momentOf(lengthMinutes).getTime() - momentOf(minutes).getTime();
        expect(before).toBe(60_000 * Math.round(lengthMinutes - minutes));
        expect(Date.parse(isoOf(minutes))).toBe(momentOf(minutes).getTime());
      },
    ),
  );
});

const widest = (text: string): number => Math.max(...text.split('\n').map((l) => [...l].length));

describe('the command, at a fixed time', () => {
  test('with time in hand, says nothing of it', async () => {
    const { code, stdout } = await roastsim([...GOOD, '--serve', '18:30'], {
      env: frozenAt('2026-12-24T12:00:00Z', VIENNA),
    });
    expect(code).toBe(0);
    expect(stdout).toMatch(/\n {3}min {2}clock slack\n/);
    expect(stdout).toMatch(/\n +0 {2}16:58 +±\d+ {3}Out of the refrigerator/);
    expect(stdout).toMatch(/18:25 +±4½ {3}Untie and carve\./);
    expect(stdout).toMatch(/18:30 +±5 {3}Serve\./);
    expect(stdout).not.toMatch(/LATE/);
  });

  test('names day and zone when one was named, and knows when the start is on the day before', async () => {
    const env = frozenAt('2026-12-24T12:00:00Z', 'UTC');
    const named = await roastsim([...GOOD, '--serve', '2026-12-25 0:30', '--zone', VIENNA], {
      env,
    });
    expect(named.stdout).toMatch(/starts Thursday 24 December 2026, Europe\/Vienna\n/);
    const bare = await roastsim([...GOOD, '--serve', '0:30'], { env });
    expect(bare.stdout).toMatch(/slack {3}starts the day before\n/);
    expect(widest(named.stdout)).toBeLessThanOrEqual(80);
  });

  test('a little late, tells that the steps have that much to give', async () => {
    const { stdout } = await roastsim([...GOOD, '--serve', '18:30'], {
      env: frozenAt('2026-12-24T16:03:00Z', VIENNA),
    });
    expect(stdout).toMatch(/! LATE: to serve at 18:30 this plan began 5 min ago\. The steps have/);
  });

  test('late, offers the quickest way with its minutes and its cost', async () => {
    const args = [...GOOD, '--serve', '18:30'];
    const env = frozenAt('2026-12-24T16:38:00Z', VIENNA);
    const { code, stdout } = await roastsim(args, { env });
    expect(code).toBe(0);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
    const flat = stdout.replace(/\s+/g, ' ');
    expect(flat).toMatch(
      /this plan began 40 min ago\. Begun now and left as it is, the plates go out at 19:10\./,
    );
    expect(flat).toMatch(
      /Quickest, no less safe: .*peak 56 °C; plates at 18:56, 26 min late\. Cost: \d+ %/,
    );
    const [, options] = /For its timetable: (--.*?) min /.exec(flat) ?? [];
    // the options told are the plan told
    const { stdout: json } = await roastsim([
      ...GOOD.slice(0, 2),
      ...`${options} --json`.split(' '),
    ]);
    const { timetable, peak } = JSON.parse(json);
    expect(Math.round(timetable[0].beforeServingMinutes)).toBe(78); // from 17:38 to 18:56
    expect(peak.centreC).toBeCloseTo(56, 1);
  });

  test('late for a stage line, offers a stage line', async () => {
    const line = 'counter 30min, oven 120C to 40C, oven 160C to pull, rest 20min foil';
    const { stdout } = await roastsim(['--weight', '2.2kg', '--stages', line, '--serve', '18:30'], {
      env: frozenAt('2026-12-24T16:10:00Z', VIENNA),
    });
    const flat = stdout.replace(/\s+/g, ' ');
    const offered = /For its timetable: --stages "([^"]*)"/.exec(flat)?.[1] ?? '';
    expect(offered).toMatch(/oven 120C to 40C, .*to pull/);
    const again = await roastsim(['--weight', '2.2kg', '--stages', offered, '--json']);
    expect(JSON.parse(again.stdout).peak.centreC).toBeCloseTo(56, 1);
  });

  test('late for a low oven, offers the least change that is in time as well', async () => {
    const { stdout } = await roastsim(
      ['--weight', '2.2kg', '--oven', '120C', '--temper', '1h', '--serve', '18:30'],
      { env: frozenAt('2026-12-24T15:10:00Z', VIENNA) },
    );
    const flat = stdout.replace(/\s+/g, ' ');
    expect(flat).toMatch(/In time with the least change: .*in time\..*Quickest, no less safe: /);
  });

  test('too late for anything, says so', async () => {
    const hurried = ['--sear', '--temper', '0min', '--oven', '250C', '--rest', '3min'];
    const { stdout } = await roastsim(['--weight', '2.2kg', ...hurried, '--serve', '18:30'], {
      env: frozenAt('2026-12-24T17:20:00Z', VIENNA),
    });
    expect(stdout.replace(/\s+/g, ' ')).toMatch(
      /No quicker way meets the aim and keeps the limits/,
    );
  });

  test('quiet and late, keeps the warning', async () => {
    const { stdout } = await roastsim([...GOOD, '--serve', '18:30', '--quiet'], {
      env: frozenAt('2026-12-24T16:38:00Z', VIENNA),
    });
    expect(stdout).toMatch(
      /^! LATE: .*[\s\S]*\nPull at 40 °C after 37 min \(28 to 47 min, 18:05\)/,
    );
  });

  test('as JSON: steps with their moments, lateness and offers, by the schema', async () => {
    const { stdout } = await roastsim([...GOOD, '--serve', '18:30', '--json'], {
      env: frozenAt('2026-12-24T16:38:00Z', VIENNA),
    });
    const document = JSON.parse(stdout);
    const schema = await readFile(
      fileURLToPath(new URL('../../docs/plan.schema.json', import.meta.url)),
      'utf8',
    );
    const validate = new Ajv2020({ strict: true }).compile(JSON.parse(schema));
    expect(validate(document), JSON.stringify(validate.errors)).toBe(true);
    const { timetable, serving: served, late, quicker, stages } = document;
    expect(served).toEqual({ at: '2026-12-24T18:30:00+01:00', zone: VIENNA, notes: [] });
    expect(timetable[0]).toMatchObject({ kind: 'take-out', at: '2026-12-24T16:58:00+01:00' });
    expect(timetable.at(-1)).toMatchObject({ kind: 'serve', at: served.at });
    expect(stages[0].clock).toBe('16:58');
    expect(late.byMinutes).toBeCloseTo(40.3, 0);
    expect(quicker.at(-1)).toMatchObject({ peakC: 56, restMinutes: 20 });
    expect(Date.parse(quicker.at(-1).servedAt) - Date.parse(served.at)).toBe(26 * 60_000);
  });

  test('a zone alone is refused', async () => {
    const { code, stderr } = await roastsim([...GOOD, '--zone', 'UTC']);
    expect(code).toBe(2);
    expect(stderr).toBe(
      'roastsim: --zone: there is no serving time; accepted: --serve with a time, beside --zone\n',
    );
  });

  test('a file of orders holds times of day alone', async () => {
    const folder = await mkdtemp(path.join(tmpdir(), 'roastsim-serve-'));
    try {
      const file = path.join(folder, 'orders.csv');
      await writeFile(file, 'weight,oven,serve\n2.2kg,230C,2026-12-24 18:30\n');
      const { code, stderr } = await roastsim(['cards', file, '--out', path.join(folder, 'out')]);
      expect(code).toBe(1);
      expect(stderr).toMatch(/serve: .*there is a day in it, which belongs to the column pick up/);
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  });
});

describe('what a start loads', () => {
  /** Names of the files of dist that a run loaded, and the source files they were made of. */
  async function loaded(args: readonly string[]): Promise<{ files: string[]; sources: string }> {
    const folder = await mkdtemp(path.join(tmpdir(), 'roastsim-loaded-'));
    try {
      await roastsim(args, { cwd: folder, env: { ...process.env, NODE_V8_COVERAGE: folder } });
      const [report] = (await readdir(folder)).filter((file) => file.startsWith('coverage-'));
      const { result } = JSON.parse(await readFile(path.join(folder, report), 'utf8'));
      const urls: string[] = result.map(({ url }: { url: string }) => url);
      const files = urls
        .filter((url) => url.includes('/packages/cli/dist/'))
        .map((url) => fileURLToPath(url));
      const maps = await Promise.all(
        files
          .map((file) => `${file}.map`)
          .filter(existsSync) // a chunk has none that only passes names on, nor that of the bundler's helpers
          .map((file) => readFile(file, 'utf8')),
      );
      return {
        files: files.map((file) => path.basename(file)),
        sources: maps.flatMap((map): string[] => JSON.parse(map).sources).join('\n'),
      };
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  }

  test('two files beside main.js: what a start needs, and the helpers of the bundler', async () => {
    const { files } = await loaded(GOOD);
    expect(files.map((file) => file.replace(/-[\w-]{8}\.js$/, '')).sort()).toEqual([
      'main.js',
      'rolldown-runtime',
      'start',
    ]);
  });

  test('no clock and no calendar without a serving time', async () => {
    const { sources: plain } = await loaded(GOOD);
    expect(plain).toMatch(/commander/);
    expect(plain).not.toMatch(/luxon|ical-generator/);
  });

  test('the clock with one, the calendar when asked for', async () => {
    const { sources: served } = await loaded([...GOOD, '--serve', '18:30']);
    expect(served).toMatch(/luxon/);
    expect(served).not.toMatch(/ical-generator/);
    const { sources: written } = await loaded([
      ...GOOD,
      ...['--serve', '18:30', '--calendar', 'x.ics'],
    ]);
    expect(written).toMatch(/ical-generator/);
  });
});
