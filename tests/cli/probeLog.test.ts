import { RoastError } from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { type LogReading, type LogUnits, ProbeLog } from '../../packages/cli/src/read/probeLog.js';
import { columnNamed } from '../../packages/cli/src/read/probeLogColumns.js';
import { LINE_LIMIT, linesOf } from '../../packages/cli/src/read/probeLogLines.js';
import { readLogUnits } from '../../packages/cli/src/read/probeLogUnits.js';

const UNITS: LogUnits = { assumed: 'C', longestMinutes: 300 };
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

async function read(
  log: string | Uint8Array | readonly Uint8Array[],
  units: Partial<LogUnits> = {},
): Promise<{ readonly readings: LogReading[]; readonly log: ProbeLog }> {
  const parts = typeof log === 'string' ? [bytesOf(log)] : log instanceof Uint8Array ? [log] : log;
  const reader = new ProbeLog({ ...UNITS, ...units });
  const readings: LogReading[] = [];
  for await (const line of linesOf(parts)) readings.push(...reader.push(line));
  readings.push(...reader.end());
  return { readings, log: reader };
}

const short = (readings: readonly LogReading[]) =>
  readings.map(({ atMinutes, centreC, secondC, ovenC }) =>
    [atMinutes, centreC, secondC, ovenC].map((x) => Math.round(100 * x) / 100),
  );
const NONE = Number.NaN;

describe('layouts that say the same', () => {
  const same = [
    [0, 5, NONE, 200],
    [1.5, 6.5, NONE, 201],
  ];
  test.each<[string, string]>([
    ['commas and units in the names', 'time min,centre C,oven C\n0,5,200\n1.5,6.5,201\n'],
    ['semicolons, decimal commas', 'Time (min);Core;Oven\n0;5,0;200\n1,5;6,5;201\n'],
    ['tabs, CRLF, a byte order mark', '\ufeffTIME_MIN\tcentre\toven\r\n0\t5\t200\r\n1.5\t6.5\t201'],
    ['lone CRs', 'time min,centre,oven\r0,5,200\r1.5,6.5,201\r'],
    ['another order', 'oven,time min,centre\n200,0,5\n201,1.5,6.5\n'],
    ['Fahrenheit in the names', 'time min,center F,oven F\n0,41,392\n1.5,43.7,393.8\n'],
    ['units in the cells', 'time,probe,ambient\n0 min,41F,200 °C\n90s,43.7 °F,201C\n'],
    ['seconds', 'seconds,centre,oven\n0,5,200\n90,6.5,201\n'],
    ['milliseconds', 'time ms,centre,oven\n0,5,200\n90000,6.5,201\n'],
    ['elapsed hours', 'elapsed,core temp,oven temp\n0:00:00,5,200\n0:01:30,6.5,201\n'],
    ['elapsed mm:ss', 'time mm:ss,core temp,oven temp\n00:00,5,200\n01:30,6.5,201\n'],
    [
      'columns that mean nothing here',
      'id,time min,battery,centre,oven,setpoint\n1,0,90,5,200,9\n2,1.5,90,6.5,201,9\n',
    ],
    ['a preamble', 'Kitchen logger,v2\nserial,0007\ntime min,centre,oven\n0,5,200\n1.5,6.5,201\n'],
    [
      'comments and empty lines',
      '# hello\n\ntime min,centre,oven\n0,5,200\n\n# more\n1.5,6.5,201\n',
    ],
    ['quotation marks', '"time min","centre","oven"\n"0","5","200"\n"1,5","6,5","201"\n'],
    [
      'JSON lines',
      '{"minutes":0,"centreC":5,"ovenC":200}\n{"minutes":1.5,"centreC":6.5,"ovenC":201}\n',
    ],
    [
      'a JSON array, an object a line',
      '[\n{"time":"0min","core":5,"oven":200},\n{"time":"90s","core":6.5,"oven":201}\n]\n',
    ],
  ])('%s', async (_name, text) => {
    const { readings, log } = await read(text);
    expect(short(readings)).toEqual(same);
    expect(readings.every(({ fromZero }) => fromZero)).toBe(true);
    expect(log.badCount).toBe(text.startsWith('Kitchen') ? 2 : 0);
  });

  test('UTF-16 with its byte order mark', async () => {
    const text = '\ufefftime min\tcentre\toven\n0\t5\t200\n1.5\t6.5\t201\n';
    for (const little of [true, false]) {
      const bytes = new Uint8Array(2 * text.length);
      const view = new DataView(bytes.buffer);
      for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), little);
      expect(short((await read(bytes)).readings)).toEqual(same);
    }
  });

  test('wherever the stream is cut', async () => {
    const bytes = bytesOf('\ufefftime min;centre °C;oven\r\n0;5;200\r\n1,5;6,5;201\r\n');
    for (let at = 0; at <= bytes.length; at++) {
      const { readings } = await read([bytes.subarray(0, at), bytes.subarray(at)]);
      expect(short(readings)).toEqual(same);
    }
    const single = Array.from(bytes, (byte) => Uint8Array.of(byte));
    expect(short((await read(single)).readings)).toEqual(same);
  });

  test('no names: time, centre, second, oven', async () => {
    const { readings, log } = await read('0 s,5,6,200\n60 s,5.5,,201\n120 s,--,7,n/a\n');
    expect(short(readings)).toEqual([
      [0, 5, 6, 200],
      [1, 5.5, NONE, 201],
      [2, NONE, 7, NONE],
    ]);
    expect(log.notes).toEqual(['temperatures without a unit were read as °C']);
  });

  test('--log-units says what bare numbers are; a name overrules it', async () => {
    const units = readLogUnits('F, min', '--log-units');
    expect(units).toEqual({ temperature: 'F', time: 'min' });
    const { readings } = await read('0,41\n2,50\n', units);
    expect(short(readings)).toEqual([
      [0, 5, NONE, NONE],
      [2, 10, NONE, NONE],
    ]);
    const named = await read('time s,centre C\n60,5\n', units);
    expect(short(named.readings)).toEqual([[1, 5, NONE, NONE]]);
    expect(() => readLogUnits('K', '--log-units')).toThrow(/--log-units.*C or F/);
    expect(() => readLogUnits('F C', '--log-units')).toThrow(/twice/);
  });
});

describe('names of columns', () => {
  test.each<[string, string | undefined]>([
    ['centre', 'centre'],
    ['Probe 1 [°F]', 'centre'],
    ['Probe1TempF', 'centre'],
    ['temperature', 'centre'],
    ['second', 'second'],
    ['second probe', 'second'],
    ['probe_2', 'second'],
    ['probe 3', undefined],
    ['oven probe (C)', 'oven'],
    ['Ambient', 'oven'],
    ['oven setpoint', undefined],
    ['time of day', 'time'],
    ['time (second)', 'time'],
    ['sec', 'time'],
    ['date', 'date'],
    ['', undefined],
    ['battery', undefined],
  ])('%s', (name, field) => expect(columnNamed(name)?.field).toBe(field));
});

describe('times', () => {
  test('a clock over midnight, with and without seconds, am and pm', async () => {
    const { readings } = await read('time,centre\n23:59:30,5\n00:00:30,6\n0:02,7\n');
    expect(readings.map(({ atMinutes }) => atMinutes - readings[0].atMinutes)).toEqual([0, 1, 2.5]);
    expect(readings[1].clockMinutes).toBe(0.5);
    const twelve = await read('time,centre\n11:59 pm,5\n12:01 am,6\n');
    expect(twelve.readings.map(({ clockMinutes }) => clockMinutes)).toEqual([1439, 1]);
    expect(twelve.readings[1].atMinutes - twelve.readings[0].atMinutes).toBe(2);
  });

  test('newest first over midnight', async () => {
    const { readings } = await read('time,centre\n00:01,6\n23:59,5\n');
    expect(readings[0].atMinutes - readings[1].atMinutes).toBe(2);
  });

  test('ISO 8601, with zones, and local dates', async () => {
    const { readings } = await read(
      'timestamp,centre\n2026-12-24T23:59:00+01:00,5\n2026-12-24 23:00:30Z,6\n2026-12-25T00:02:00.000+01:00,7\n',
    );
    expect(readings.map(({ atMinutes }) => atMinutes - readings[0].atMinutes)).toEqual([0, 1.5, 3]);
    expect(readings[0].clockMinutes).toBe(23 * 60 + 59);
    const local = await read('Date;Time;Core\n24.12.2026;18:00:00;5\n24.12.2026;18:01:30;6\n');
    expect(local.readings[1].atMinutes - local.readings[0].atMinutes).toBe(1.5);
    const us = await read('time,core\n12/24/2026 6:00:00 PM,5\n12/24/2026 6:02 PM,6\n');
    expect(us.readings.map(({ clockMinutes }) => clockMinutes)).toEqual([1080, 1082]);
  });

  test('seconds and milliseconds since 1970', async () => {
    for (const [per, unit] of [
      [1, 's'],
      [1000, 'ms'],
    ] as const) {
      const start = 1_790_000_000;
      const { readings } = await read(`time,centre\n${start * per},5\n${(start + 90) * per},6\n`);
      expect(readings[1].atMinutes - readings[0].atMinutes, unit).toBeCloseTo(1.5, 6);
      expect(readings[0].fromZero).toBe(false);
    }
  });

  test('bare numbers are seconds once they would last too long, not before', async () => {
    const lines = Array.from({ length: 400 }, (_, i) => `${i},${5 + i / 400}`);
    const log = new ProbeLog(UNITS);
    const given = lines.map((line) => log.push(line).length);
    expect(given.findIndex((count) => count > 0)).toBe(301);
    expect(given[301]).toBe(302);
    expect(log.push('600,9')[0].atMinutes).toBe(10);
    expect(log.notes.join()).toMatch(/read as seconds/);
  });

  test('bare numbers are minutes once the meat would heat impossibly fast', async () => {
    const lines = Array.from({ length: 25 }, (_, i) => `${i},${5 + Math.max(0, i - 8) ** 1.3 / 4}`);
    const { readings, log } = await read(lines.join('\n'));
    expect(readings.at(-1)?.atMinutes).toBe(24);
    expect(log.notes.join()).toMatch(/read as minutes/);
  });

  test('bare numbers that could be either are refused with the way out', async () => {
    await expect(read('0,5\n1,5\n2,5\n')).rejects.toThrow(/seconds or minutes.*--log-units/);
  });

  test('one-second flicker does not look like impossible heating', async () => {
    const lines = Array.from({ length: 280 }, (_, i) => `${i},${5 + 0.4 * Math.sin(7 * i)}`);
    await expect(read(lines.join('\n'))).rejects.toThrow(/seconds or minutes/);
  });
});

describe('bad lines', () => {
  test('are counted, the first few told, and stop nobody', async () => {
    const { readings, log } = await read(
      [
        'time min,centre',
        '0,5',
        'one,5',
        '2,hot',
        '3,5;6',
        '4,99999',
        'a"b,5',
        `${'9'.repeat(LINE_LIMIT + 1)},5`,
        '8,25:61',
        '9,6',
      ].join('\n'),
    );
    expect(short(readings).map(([minutes]) => minutes)).toEqual([0, 9]);
    expect(log.badCount).toBe(7);
    expect(log.bad).toHaveLength(5);
    expect(log.bad[0]).toEqual({ line: 3, reason: '"one" is no time' });
    expect(log.bad[1]).toEqual({ line: 4, reason: '"hot" is no temperature' });
  });

  test('a time more than a day from the line before is one', async () => {
    const { readings, log } = await read(
      'time,centre\n2026-12-24T18:00:00,5\n1970-01-01T00:00:00,6\n2026-12-24T18:01:00,7\n',
    );
    expect(readings).toHaveLength(2);
    expect(log.bad[0].reason).toMatch(/more than a day/);
  });

  test('a gap is none', async () => {
    const { readings, log } = await read('time min,centre,oven\n0,,\n1,--,n/a\n2,5,\n');
    expect(short(readings)).toEqual([[2, 5, NONE, NONE]]);
    expect(log.badCount).toBe(0);
  });

  test.each<[string, string]>([
    ['nothing', ''],
    ['blanks', ' \n\n\t\n'],
    ['words', 'hello\nthere\n'],
    ['names alone', 'time,centre\n'],
    ['no temperature', 'time,colour\n0,red\n'],
    ['no time', 'centre,oven\n5,200\n'],
    ['bytes', '\u0000\u0001\ufffd\n\u0000'],
  ])('%s only: one error that says what is accepted', async (_name, text) => {
    await expect(read(text)).rejects.toThrow(RoastError);
    await expect(read(text)).rejects.toThrow(/^LOG: there is no reading.*docs\/probe\.md/);
  });

  test('memory does not grow with a line that never ends', async () => {
    const endless = Array.from({ length: 300 }, () => bytesOf('x'.repeat(10_000)));
    const { readings, log } = await read([bytesOf('0 s,5\n'), ...endless, bytesOf('\n60 s,6\n')]);
    expect(readings).toHaveLength(2);
    expect(log.bad).toEqual([{ line: 2, reason: 'the line is too long' }]);
  });
});
