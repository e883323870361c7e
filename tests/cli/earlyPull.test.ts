import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { roastsim } from '../support/cli.js';
import { roastsimInside } from '../support/cliInside.js';

// Pulls so early, or so certain, that a range of minutes would mean nothing.

const WHOLE = ['--weight', '2.2kg', '--stages'];
const UNSAID = /NaN|Infinity|undefined|null min/;
const RANGED = /Could be|, between \d|may be \d/;

/** By the clock, however early. */
const TIMED = [
  'oven 230C 10min, rest 10min',
  'bath 56C 3min',
  'oven 230C 1min',
  'oven 230C 0min',
  'oven 230C 45min',
];
/** By a thermometer, before the middle has warmed. */
const EARLY = [
  'oven 150C to 45C at 0cm, rest 10min',
  'oven 230C to 50C off-axis 90%',
  'oven 230C to 20C off-axis 100%, rest 10min',
  'oven 230C 20min, oven 150C to 35C off-axis 90%',
  'oven 230C 30min, bath 57C to 25C off-axis 60%',
];

const schema = readFile(new URL('../../docs/plan.schema.json', import.meta.url), 'utf8').then(
  (text) =>
    new Ajv2020({ strict: true, allErrors: true, allowUnionTypes: true }).compile(JSON.parse(text)),
);

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'roastsim-early-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('a pull that has no range', { timeout: 60_000 }, () => {
  test.each([...TIMED, ...EARLY])('"%s": text, one line and JSON', async (line) => {
    for (const more of [[], ['--quiet']]) {
      const { code, stdout, stderr } = await roastsimInside([...WHOLE, line, ...more]);
      expect([code, stderr]).toEqual([0, '']);
      expect(stdout).toMatch(/pull at -?\d+ °C/i);
      expect(stdout).not.toMatch(UNSAID);
      expect(stdout).not.toMatch(RANGED);
    }
    const { code, stdout } = await roastsimInside([...WHOLE, line, '--json']);
    expect(code).toBe(0);
    const document = JSON.parse(stdout);
    const validate = await schema;
    validate(document);
    expect(validate.errors).toBeNull();
    expect(document).not.toHaveProperty('interval');
  });

  test.each(EARLY.slice(0, 2))('"%s": --sure says that there is none', async (line) => {
    for (const more of [[], ['--json'], ['--quiet']]) {
      const { code, stdout, stderr } = await roastsim([...WHOLE, line, '--sure', '80%', ...more]);
      expect(code).toBe(0);
      expect(stderr).toBe('roastsim: --sure: the pull comes too early for a range of minutes\n');
      expect(stdout).not.toMatch(UNSAID);
      expect(stdout).not.toMatch(/How sure|"sure"/);
    }
  });

  test.each(TIMED)('"%s": --sure is refused as with --time', async (line) => {
    const { code, stdout, stderr } = await roastsimInside([...WHOLE, line, '--sure', '80%']);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(
      /^roastsim: --sure: the time is given, nothing is in doubt; accepted: [^\n]*\n$/,
    );
  });

  test.each([TIMED[0], TIMED[4], EARLY[0]])('"%s": a card names no range', async (line) => {
    const file = path.join(folder, 'card.html');
    const { code } = await roastsim(['card', ...WHOLE, line, '--out', file]);
    expect(code).toBe(0);
    const page = await readFile(file, 'utf8');
    const html = page.replace(/<style[\s\S]*?<\/style>|<svg[^>]*>|base64,[\w+/=]*/g, '');
    expect(html.includes('look first after')).toBe(true);
    expect(UNSAID.test(html)).toBe(false);
    expect(RANGED.test(html)).toBe(false);
  });

  test.each([TIMED[0], EARLY[0]])('"%s": a log has nothing to tell of it', async (line) => {
    const log = path.join(folder, 'log.csv');
    await writeFile(log, 'minutes,centre C\n0,5\n2,5.1\n4,5.2\n6,5.4\n');
    const { code, stdout, stderr } = await roastsimInside(['probe', log, ...WHOLE, line]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toBe('roastsim: the pull comes too early: there is nothing to forecast\n');
  });

  test('by the clock in a stage line is what --time is', async () => {
    const cook = ['--temper', '0min', '--rest', '20min'];
    const byTime = await roastsimInside([
      ...['--weight', '2.2kg', '--oven', '230C', '--time', '45min', '--json'],
      ...cook,
    ]);
    const byLine = await roastsimInside([...WHOLE, 'oven 230C 45min, rest 20min', '--json']);
    const [time, line] = [byTime, byLine].map(({ stdout }) => JSON.parse(stdout));
    for (const field of ['pull', 'peak', 'firstLook', 'timetable', 'slices'] as const) {
      expect(line[field], field).toEqual(time[field]);
    }
    const guided = await roastsimInside([...WHOLE, 'oven 230C to 45C, rest 20min']);
    expect(guided.stdout).toMatch(/Could be \d+ to \d+ min/);
  });
});

const minutes = fc.integer({ min: 0, max: 40 }).map((n) => `${n}min`);
const place = fc.oneof(
  fc.constant(''),
  fc.constant(' coldest'),
  fc.integer({ min: 0, max: 30 }).map((cm) => ` at ${cm}cm`),
  fc.integer({ min: 0, max: 100 }).map((share) => ` off-axis ${share}%`),
);
const ending = fc.oneof(
  minutes,
  fc.constant('to pull'),
  fc.tuple(fc.integer({ min: 20, max: 60 }), place).map(([c, at]) => `to ${c}C${at}`),
);
const heat = fc.oneof(
  fc.tuple(fc.integer({ min: 80, max: 260 }), ending).map(([c, end]) => `oven ${c}C ${end}`),
  fc.tuple(fc.integer({ min: 57, max: 70 }), ending).map(([c, end]) => `bath ${c}C ${end}`),
);
const anyLine = fc
  .tuple(
    fc.option(
      fc.oneof(
        minutes.map((time) => `counter ${time}`),
        minutes.map((time) => `oven 200C ${time}`),
        fc.constant('pan 230C 4x30s'),
      ),
    ),
    heat,
    fc.option(minutes.map((time) => `rest ${time}`)),
  )
  .map((stages) => stages.filter((stage) => stage !== null).join(', '));

test('no stage line prints what is not a number', { timeout: 240_000 }, async () => {
  let planned = 0;
  await fc.assert(
    fc.asyncProperty(anyLine, fc.constantFrom('1.1kg', '2.2kg'), async (line, weight) => {
      const args = ['--weight', weight, '--stages', line];
      const text = await roastsimInside(args);
      const json = await roastsimInside([...args, '--json']);
      expect([0, 2]).toContain(text.code);
      expect(json.code).toBe(text.code);
      for (const said of [text.stdout, text.stderr, json.stdout]) expect(said).not.toMatch(UNSAID);
      if (text.code === 2) expect(text.stderr).toMatch(/^roastsim: [^\n]+\n$/);
      else planned++;
    }),
    { numRuns: 40 },
  );
  expect(planned).toBeGreaterThan(15);
});
