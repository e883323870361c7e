import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ProbeLog } from '../../packages/cli/src/read/probeLog.js';
import { linesOf } from '../../packages/cli/src/read/probeLogLines.js';
import { anyBytes, feedStream, must, mustBePrintable } from '../support/fuzz.js';

// The reader of a thermometer's log, against 20 000 logs that come in two parts.

const beginning = (file: string): string =>
  readFileSync(new URL(`../../data/demo/${file}`, import.meta.url), 'utf8')
    .split('\n')
    .slice(0, 8)
    .join('\n');

const GOOD = [
  beginning('probe-good.csv'),
  beginning('probe-messy.csv'),
  beginning('probe-slow-oven.csv'),
  '{"time":0,"centre":5,"oven":200}\n{"time":60,"centre":6.5,"oven":201}\n',
];

const piece = fc.oneof(
  fc.constantFrom(
    ...[
      'time',
      'centre F',
      'oven',
      'date',
      ',',
      ';',
      '\t',
      '\n',
      '\r\n',
      '"',
      '{',
      '}',
      '[',
      ']',
      ':',
    ],
    ...[
      '{"time":1,"centre":',
      '"minutes"',
      '\ufeff',
      '23:59',
      '2026-12-24T18:00',
      'NaN',
      '--',
      '1e9',
    ],
    ...['s', 'min', '\u001b[31m', '\u202e', '\u2028', '__proto__', 'constructor'],
  ),
  fc.double({ noNaN: true, min: -1e6, max: 1e6 }).map(String),
  fc.integer({ min: -10, max: 2000 }).map(String),
  fc.string(),
);
const rows = fc
  .array(fc.array(piece, { minLength: 2, maxLength: 5 }), { maxLength: 12 })
  .map((cells) => `time min,centre,oven\n${cells.map((row) => row.join(',')).join('\n')}`);
const bits = fc.oneof(
  fc.array(piece, { maxLength: 60 }).map((parts) => parts.join('')),
  rows,
);
const parts = fc.tuple(anyBytes(GOOD, bits), fc.nat()).map(([bytes, cut]) => {
  const at = cut % (bytes.length + 1);
  return [bytes.subarray(0, at), bytes.subarray(at)];
});

const FARTHEST_C = 2001; // what no cell may say: 2000 degrees in either unit, rounded
/** NaN stands for what a thermometer did not show. */
const shown = (tempC: number): number | undefined => (Number.isNaN(tempC) ? undefined : tempC);

test('logs of a thermometer', { timeout: 120_000 }, async () => {
  const { read, refused } = await feedStream(
    parts,
    async (stream) => {
      const log = new ProbeLog({ assumed: 'C', longestMinutes: 300 });
      const readings = [];
      for await (const line of linesOf(stream)) readings.push(...log.push(line));
      readings.push(...log.end());
      return {
        minutes: readings.map(({ atMinutes }) => atMinutes),
        tempsC: readings.flatMap(({ centreC, secondC, ovenC }) =>
          [centreC, secondC, ovenC].map(shown),
        ),
        bad: log.bad,
        badCount: log.badCount,
        notes: log.notes,
      };
    },
    ['LOG'],
    ({ minutes, tempsC, bad, badCount, notes }) => {
      must(minutes.length > 0, 'no reading', minutes);
      for (const tempC of tempsC) must(!(Math.abs(tempC ?? 0) > FARTHEST_C), 'too far', tempC);
      must(bad.length <= Math.min(5, badCount), 'more told than there are', { bad, badCount });
      for (const text of [...notes, ...bad.map(({ reason }) => reason)]) mustBePrintable(text);
    },
  );
  expect(read).toBeGreaterThan(500);
  expect(refused).toBeGreaterThan(500);
});
