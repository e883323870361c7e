import { readFileSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import {
  ensemble,
  type PlanRequest,
  planCook,
  rest,
  roastIn,
  temper,
  tenderloin,
} from '@roastsim/core';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { rangeText, spanText } from '../../packages/cli/src/show/range.js';
import { driverText } from '../../packages/cli/src/show/sure.js';
import { roastsim } from '../support/cli.js';
import { intervalOf } from '../support/intervalOf.js';

const GOOD = ['--weight', '2.2kg', '--oven', '200C'];
const roast = tenderloin({ massKg: 2.2 });
const request: PlanRequest = {
  before: [temper({ minutes: 30 })],
  heat: roastIn({ ovenC: 200, until: { minutes: 0 } }),
  after: [rest({ minutes: 20 })],
};
const schema = JSON.parse(
  readFileSync(new URL('../../docs/plan.schema.json', import.meta.url), 'utf8'),
);
const validate = new Ajv2020({ strict: true, allErrors: true, allowUnionTypes: true }).compile(
  schema,
);
const widest = (text: string): number => Math.max(...text.split('\n').map((l) => [...l].length));

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'roastsim-range-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('the range of the pull', () => {
  test('is the quick interval, in text and JSON, and the first look is not later', async () => {
    const plan = planCook(roast, request);
    const quick = intervalOf(plan, request);
    const { stdout } = await roastsim([...GOOD, '--json']);
    const document = JSON.parse(stdout);
    validate(document);
    expect(validate.errors).toBeNull();
    expect(document.interval.lowMinutes).toBeCloseTo(quick.lowMinutes, 2);
    expect(document.interval.likelyMinutes).toBeCloseTo(quick.likelyMinutes, 2);
    expect(document.interval.highMinutes).toBeCloseTo(quick.highMinutes, 2);
    expect(document.interval.level).toBe(0.9);
    const low = document.pull.atMinutes - document.pull.minutes + document.interval.lowMinutes;
    expect(document.firstLook.atMinutes).toBeLessThanOrEqual(low + 0.01);
    const text = (await roastsim(GOOD)).stdout;
    expect(text).toContain(`Could be ${rangeText(quick)}; start checking at `);
    expect(text).toMatch(/PULL at \d+ °C, between \d+ and \d+\./);
    expect((await roastsim([...GOOD, '--serve', '18:30'])).stdout).toMatch(
      /PULL at \d+ °C, between 17:\d\d and 18:\d\d\./,
    );
  });

  test('a slow oven, where the model is late, is looked into early', async () => {
    const { stdout } = await roastsim(['--weight', '2.2kg', '--oven', '120C', '--json']);
    const { interval, firstLook, pull } = JSON.parse(stdout);
    expect(interval.lowMinutes).toBeLessThan(0.6 * pull.minutes);
    expect(firstLook.atMinutes).toBeLessThanOrEqual(30 + interval.lowMinutes + 0.01);
  });

  test('goes with the thermometer: by the clock there is none', async () => {
    const { stdout } = await roastsim([...GOOD, '--time', '40min', '--json']);
    expect(JSON.parse(stdout)).not.toHaveProperty('interval');
    expect((await roastsim([...GOOD, '--time', '40min'])).stdout).not.toMatch(/Could be|between/);
  });

  test.each([
    [{ lowMinutes: 28.9, likelyMinutes: 36.5, highMinutes: 46.1 }, '28 to 47 min, most likely 37'],
    [
      { lowMinutes: 40.2, likelyMinutes: 64, highMinutes: Number.POSITIVE_INFINITY },
      '40 min or more, most likely 64',
    ],
    [
      {
        lowMinutes: 40.2,
        likelyMinutes: Number.POSITIVE_INFINITY,
        highMinutes: Number.POSITIVE_INFINITY,
      },
      '40 min or more, and may never come',
    ],
  ])('%o is "%s"', (range, text) => {
    expect(rangeText(range)).toBe(text);
    expect(spanText(range)).toBe(text.replace(/( min)?,.*$/, '').replace(' min', ''));
  });

  test('an oven that may never get there has no high end', async () => {
    const args = ['--weight', '1.1kg', '--cut', 'centre', '--oven', '70C', '--doneness', '52C'];
    const { code, stdout } = await roastsim([...args, '--json']);
    expect(code).toBe(0);
    const document = JSON.parse(stdout);
    validate(document);
    expect(validate.errors).toBeNull();
    expect(document.interval.highMinutes).toBeNull();
    expect((await roastsim(args)).stdout).toMatch(/Could be \d+ min or more/);
  });

  test('what a kitchen knows better narrows it', async () => {
    const settings = path.join(folder, 'shop.yaml');
    await writeFile(settings, 'priors:\n  size: 0.02\n');
    const width = async (...args: string[]): Promise<number> => {
      const { interval } = JSON.parse((await roastsim([...GOOD, '--json', ...args])).stdout);
      return interval.highMinutes - interval.lowMinutes;
    };
    expect(await width('--settings', settings)).toBeLessThan(0.75 * (await width()));
    for (const [text, mentions] of [
      ['priors: { sise: 1 }', /"sise" \(did you mean size\?\)/],
      ['priors: { size: -1 }', /priors\.size/],
      ['priors: { size: much }', /priors\.size/],
    ] as const) {
      await writeFile(settings, text);
      const { code, stderr } = await roastsim([...GOOD, '--settings', settings]);
      expect(code).toBe(2);
      expect(stderr).toMatch(mentions);
    }
  });
});

describe('--sure', { timeout: 60_000 }, () => {
  test('is the ensemble of the library, whatever threads made it', async () => {
    const plan = planCook(roast, request);
    const alone = ensemble(roast, request, { plan, seed: 1, levels: [0.8] });
    const { stdout, stderr } = await roastsim([...GOOD, '--sure', '80%', '--json']);
    expect(stderr).toBe('');
    const document = JSON.parse(stdout);
    validate(document);
    expect(validate.errors).toBeNull();
    const { interval, sure } = document;
    expect(interval.level).toBe(0.8);
    expect(interval.lowMinutes).toBeCloseTo(alone.minutes.intervals[0].low, 2);
    expect(interval.highMinutes).toBeCloseTo(alone.minutes.intervals[0].high, 2);
    expect(sure.members).toBe(1024);
    expect(sure.peak.likelyC).toBeCloseTo(alone.peakC.likely, 2);
    expect(sure.slices).toHaveLength(document.slices.length);
    for (const { bands } of sure.slices) {
      const shares = bands.map(({ share }: { share: number }) => share);
      expect(shares.reduce((a: number, b: number) => a + b, 0)).toBeCloseTo(1, 1);
    }
  });

  test('text: ranges, chances, one sentence, 80 columns', async () => {
    for (const units of ['metric', 'us']) {
      const { stdout } = await roastsim([...GOOD, '--sure', '90 %', '--units', units]);
      expect(widest(stdout)).toBeLessThanOrEqual(80);
      expect(stdout).toMatch(/How sure: 90 % of 1,024 simulated cooks/);
      expect(stdout).toMatch(/Most of this \(\d+ %\) is how thick/);
      expect(stdout).toMatch(/ {5}1 {2}\d+ to \d+ °[CF]/);
    }
  });

  test('says halve only when the figures do', () => {
    const shares = [{ input: 'ovenOffset', share: 0.8 }] as const;
    const said = (share: number): string =>
      driverText(shares, [{ advice: 'oven-thermometer', share }]);
    expect(said(0.5)).toBe(
      "Most of this (80 %) is your oven's thermostat; an oven thermometer for a few euros would halve the range.",
    );
    expect(said(0.3)).toMatch(/would narrow the range by 30 %\.$/);
    expect(said(0.7)).toMatch(/would narrow the range by 70 %\.$/);
    expect(said(0.02)).toBe("Most of this (80 %) is your oven's thermostat.");
    expect(driverText([{ input: 'modelTime', share: 0.4 }], [])).toBe(
      'The largest part of this (40 %) is the model itself.',
    );
  });
});
