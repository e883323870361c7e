import { readFileSync } from 'node:fs';
import { access, mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { commonWays, compareWays, cutsOf, settleAim, tenderloin } from '@roastsim/core';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import pc from '../../packages/cli/node_modules/picocolors/picocolors.js';
import { readWays } from '../../packages/cli/src/read/readWays.js';
import { compareChart } from '../../packages/cli/src/show/compareChart.js';
import { compareChartModel } from '../../packages/cli/src/show/compareChartModel.js';
import { compareReport } from '../../packages/cli/src/show/compareText.js';
import {
  type Comparison,
  conclusionOf,
  warningsSaid,
  wayLine,
} from '../../packages/cli/src/show/comparison.js';
import { roastsim } from '../support/cli.js';

const ROAST = ['compare', '--weight', '2.2kg'];
const WAYS = [
  ...['--way', 'oven 230C, rest 20min'],
  ...['--way', 'Sunday: oven 160C fan to pull, rest 15min'],
];
const validate = new Ajv2020({ strict: true, allErrors: true }).compile(
  JSON.parse(readFileSync(new URL('../../docs/compare.schema.json', import.meta.url), 'utf8')),
);
const widest = (text: string): number => Math.max(...text.split('\n').map((l) => [...l].length));

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'compare-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('roastsim compare', () => {
  test('sets the usual ways side by side, with every notice, in 80 columns', async () => {
    const { code, stdout, stderr } = await roastsim(ROAST);
    expect([code, stderr]).toEqual([0, '']);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
    expect(stdout).toMatch(/^ +A +B +C +D +E$/m);
    for (const label of [
      'Time in all',
      'Hands on',
      'Pull after',
      'Cooks off',
      'Whole-cut guidance',
    ]) {
      expect(stdout).toMatch(new RegExp(`^${label}.*( +\\S+){5}$`, 'm'));
    }
    expect(stdout.replace(/\s+/g, ' ')).toMatch(/! A, B, C, D, E: Below whole-cut guidance:/);
    expect(stdout.replace(/\s+/g, ' ')).toMatch(
      /D: In a water bath no safe time is published below 54/,
    );
    expect(stdout.replace(/\s+/g, ' ')).toMatch(
      /A \(hot oven\) is done first .* none meets whole-cut guidance\./,
    );
  });

  test('reads ways of your own, with their names, in US units too', async () => {
    const { code, stdout } = await roastsim([
      ...['compare', '--weight', '4lb 14oz', '--at', 'thick', '--way', 'oven 425F'],
      ...['--way', 'low: oven 250F to 110F, pan 480F 4x45s, rest 10min open'],
    ]);
    expect(code).toBe(0);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
    expect(stdout).toContain('A  oven 425F to pull\n');
    expect(stdout).toContain('B  low: oven 250F to 110F, pan 480F 4x45s, rest 10min open');
    expect(stdout).toMatch(/^Pull at, °F +\d+ +110$/m);
  });

  test('a way that fails says why in its place, and the others are cooked', async () => {
    const { code, stdout } = await roastsim([
      ...ROAST,
      ...WAYS,
      '--way',
      'cool: bath 50C, rest 5min',
    ]);
    expect(code).toBe(0);
    expect(stdout).toMatch(
      /C {2}cool: bath 50C to pull, rest 5min foil\n {5}Cannot be done: the meat never reaches/,
    );
    expect(stdout).toMatch(/^Hands on, min +\d+ +\d+ +-$/m);
  });

  test('none that comes out is exit 1, with every reason', async () => {
    const { code, stdout, stderr } = await roastsim([
      ...[...ROAST, '--way', 'bath 50C', '--way', 'bath 51C'],
    ]);
    expect([code, stderr]).toEqual([1, '']);
    expect(stdout.match(/Cannot be done/g)).toHaveLength(2);
    expect(stdout).toMatch(/None of these ways reaches the aim/);
  });

  test('strict rules hold for all, and the sentence does not complain', async () => {
    const { stdout } = await roastsim([...ROAST, '--at-risk']);
    expect(stdout).toMatch(/^Whole-cut guidance( +met){5}$/m);
    expect(stdout).not.toMatch(/Below whole-cut guidance/);
    expect(stdout).toMatch(/People at risk are eating/);
    // slices that are done right through have no ring of 0 mm
    expect(stdout).toMatch(/^Rim done through, mm +all( +\d+){3} +all$/m);
    const { ways } = JSON.parse((await roastsim([...ROAST, '--at-risk', '--json'])).stdout);
    const [hot, seared] = ways;
    expect([hot.doneRightThrough, seared.doneRightThrough]).toEqual([true, false]);
    expect(hot.rimMm).toBeGreaterThan(seared.rimMm);
  });

  test.each<[string, string[]]>([
    ['the usual ways', []],
    ['a way that fails', [...WAYS, '--way', 'bath 50C']],
    ['nothing but failures', ['--way', 'bath 50C', '--way', 'bath 51C']],
    ['strict rules', ['--non-intact']],
    ['US units and a warm start', ['--units', 'us', '--fridge', '50F', '--doneness', 'rare']],
  ])('in JSON, %s', async (_what, more) => {
    const { stdout } = await roastsim([...ROAST, ...more, '--json']);
    const document = JSON.parse(stdout);
    validate(document);
    expect(validate.errors).toBeNull();
    expect(document.best === undefined).toBe(
      document.ways.every((way: object) => 'failure' in way),
    );
    for (const way of document.ways) {
      if ('failure' in way || way.safety.meetsWholeCutGuidance) continue;
      const codes = way.warnings.map(({ code }: { code: string }) => code);
      expect(codes).toContain('below-guidance');
    }
  });

  test.each<[string, string[], RegExp]>([
    ['one way', ['--way', 'oven 230C'], /--way: .*nothing beside it.*2 to 8/],
    [
      'nine ways',
      Array.from({ length: 9 }, () => ['--way', 'oven 230C']).flat(),
      /--way: .*9 ways/,
    ],
    ['a slip', [...WAYS, '--way', 'ovn 230C'], /--way: .*did you mean oven/],
    ['no heat', [...WAYS, '--way', 'pan 230C 4x90s'], /--way: there is no oven or bath/],
    ['a long name', [...WAYS, '--way', `${'n'.repeat(31)}: oven 230C`], /--way: .*1 to 30/],
    ['a comma in a name', [...WAYS, '--way', 'Low, slow: oven 230C'], /--way: .*neither comma/],
    ['no name', [...WAYS, '--way', ': oven 230C'], /--way: .*1 to 30/],
    ['a time with a colon', [...WAYS, '--way', 'oven 230C 1:20'], /--way: .*two ways/],
    ['guests', ['--at', 'guests'], /--at: .*middle, thick, thin/],
    ['a pull', ['--pull', '50C'], /--pull/],
    ['an oven', ['--oven', '230C'], /--oven/],
    ['an unsafe wish', ['--at-risk', '--doneness', 'rare'], /--doneness: .*62\.8/],
    ['no such folder', ['--chart', '/no/such/ways.png'], /--chart: .*folder/],
    ['not a picture', ['--chart', 'ways.pdf'], /--chart: .*\.png/],
  ])('refuses %s in one line', async (_what, more, mentions) => {
    const { code, stdout, stderr } = await roastsim([...ROAST, ...more]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(mentions);
    expect(stderr).toMatch(/^roastsim: [^\n]*\n$/);
  });

  test('draws a chart, whole or not at all', async () => {
    const file = path.join(folder, 'ways.png');
    const { code } = await roastsim([...ROAST, ...WAYS, '--chart', file]);
    expect(code).toBe(0);
    const png = await readFile(file);
    expect(png.subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a');
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([1920, 1200]);
    expect(await readdir(folder)).toEqual(['ways.png']);
    const dropped = path.join(folder, 'dropped.png');
    await roastsim([...ROAST, '--way', 'ovn 1', '--way', 'ovn 2', '--chart', dropped]);
    await expect(access(dropped)).rejects.toThrow();
    expect(await readdir(folder)).toEqual(['ways.png']);
  });

  test('docs/compare.md names every option that only compare has, and its usual ways are those it cooks', async () => {
    const text = await readFile(
      fileURLToPath(new URL('../../docs/compare.md', import.meta.url)),
      'utf8',
    );
    const [{ stdout: help }, { stdout }] = await Promise.all([
      roastsim(['compare', '--help']),
      roastsim([...ROAST, '--json']),
    ]);
    const offered = new Set(help.match(/--[a-z][a-z-]*/g));
    for (const option of text.match(/(?<=`)--[a-z][a-z-]*/g) ?? []) {
      if (option !== '--stages') expect(offered).toContain(option);
    }
    for (const { name, stageLine } of JSON.parse(stdout).ways) {
      expect(text).toContain(`| ${name} | \`${stageLine}\` |`);
    }
  });
});

const COARSE = { stations: 10, shells: 12 } as const;
const roast = tenderloin({ massKg: 2.2 });
const aim = settleAim(roast, cutsOf(roast), {}, false);
const comparison: Comparison = {
  roast,
  aim,
  ways: compareWays(roast, commonWays(aim.targetC), {}, COARSE),
  units: 'metric',
  assumed: [],
};

describe('ways in words', () => {
  test('the line of a way reads back as the way', () => {
    const lines = comparison.ways.map(({ way }) => `${way.name}: ${wayLine(way, comparison)}`);
    const again = readWays(lines, aim.point);
    for (const [i, { way }] of comparison.ways.entries()) {
      expect(again[i].name).toBe(way.name);
      expect(again[i].pieces).toBe(way.pieces);
      expect(again[i].pull).toBeUndefined();
      expect([again[i].before, again[i].after]).toEqual([way.before, way.after]);
      expect(again[i].heat).toEqual(way.heat);
    }
  });

  test.each([
    'two pieces, oven 230C',
    'Two  Pieces; oven 230C',
    'halves: in two pieces, oven 230C',
  ])('%s is cut in two', (text) => {
    expect(readWays([text, text], aim.point).map(({ pieces }) => pieces)).toEqual([2, 2]);
  });
});

describe('the chart', () => {
  const model = compareChartModel(comparison);

  test('has a line for each piece, with its pull on it', () => {
    expect(model.lines.map(({ mark }) => mark)).toEqual(['A', 'B', 'C', 'D', 'E1', 'E2']);
    for (const { points, pull } of model.lines) {
      expect(points).toContainEqual(pull);
      expect(points.length).toBeLessThan(600);
      for (const { x, y } of points) {
        expect(x).toBeLessThanOrEqual(model.minutes.to);
        expect(y).toBeGreaterThanOrEqual(model.temperature.from);
        expect(y).toBeLessThanOrEqual(model.temperature.to);
      }
    }
  });

  test('carries the notice and the band', () => {
    expect(model.notices[0]).toMatch(/^A, B, C, D, E: Below whole-cut guidance/);
    expect(model.band).toEqual({ name: 'medium-rare', from: 53, to: 58.5 });
    expect(compareChartModel({ ...comparison, units: 'us' }).band.from).toBeCloseTo(127.4, 1);
  });

  test('has what the table warns of for all ways, and no more', () => {
    const about = warningsSaid(comparison).filter(({ letters }) => letters.length === 5);
    expect(about.length).toBeGreaterThan(1);
    for (const { letters, text } of about) {
      expect(model.notices).toContain(`${letters.join(', ')}: ${text}`);
    }
    expect(warningsSaid(comparison).map(({ code }) => code)).toContain('slow-oven');
    expect(model.notices.join(' ')).not.toMatch(/likely to be slow/);
  });

  test('calls a way without a name by its stage line, and tells two pieces apart', () => {
    const ways = readWays(['oven 230C, rest 20min', 'halves: two pieces, oven 200C'], aim.point);
    const own = { ...comparison, ways: compareWays(roast, ways, {}, COARSE) };
    const [line, halves] = compareChartModel(own).legend;
    expect(line.name).toBe('oven 230C, rest 20min');
    expect(line.lines[0]).toMatch(/^pull \d+ °C after \d:\d\d h$/);
    expect(halves.name).toBe('halves');
    expect(halves.lines[0]).toMatch(/^B1, thick: pull \d+ °C after \d:\d\d h$/);
    expect(halves.lines[1]).toMatch(/^B2, thin: pull /);
    expect(halves.lines[2]).toMatch(/^\d:\d\d h in all$/);
  });

  test('one time is written in one way everywhere', () => {
    const [{ lines }] = model.legend;
    const inAll = lines[lines.length - 1].replace(' in all', '');
    expect(conclusionOf(comparison)).toContain(`(${inAll})`);
    const table = compareReport(comparison, pc.createColors(false));
    expect(table).toContain(`Time in all, h:min ${inAll.replace(' h', '').padStart(22)}`);
  });

  test('refuses a name that its font cannot draw', async () => {
    const ways = readWays(['日曜: oven 230C', 'oven 200C'], aim.point);
    const own = { ...comparison, ways: compareWays(roast, ways, {}, COARSE) };
    await expect(compareChart(own)).rejects.toThrow(/^--way: .*U\+65E5 "日" in the name "日曜"/);
  });

  test('is drawn for ways that all fail, and for eight in two pieces with long names', async () => {
    const cool = readWays(['bath 50C', 'bath 51C'], aim.point);
    const none = { ...comparison, ways: compareWays(roast, cool, {}, COARSE) };
    expect(compareChartModel(none).lines).toEqual([]);
    const [, , , , two] = comparison.ways;
    const named = { ...two, way: { ...two.way, name: 'W'.repeat(30) } };
    const many = { ...comparison, ways: Array.from({ length: 8 }, () => named) };
    for (const drawn of [none, many]) {
      expect((await compareChart(drawn)).length).toBeGreaterThan(10_000);
    }
  });
});
