import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { roastsim } from '../support/cli.js';

const GOOD = ['--weight', '2.2kg', '--oven', '230C'];
const widest = (text: string): number => Math.max(...text.split('\n').map((l) => [...l].length));

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'roastsim-plan-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('the plan in words', () => {
  test('says what to do, keeps to 80 columns and speaks no escape codes to a pipe', async () => {
    const { code, stdout, stderr } = await roastsim(GOOD);
    expect(code).toBe(0);
    expect(stderr).toBe('');
    expect(stdout).toMatch(/PULL at \d+ °C in the middle, after \d+ min in the oven/);
    expect(stdout).toMatch(/Below whole-cut guidance/);
    expect(stdout).toMatch(/Assumed: /);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: an escape is what must not be there
    expect(stdout).not.toMatch(/\u001b/);
  });

  test('a slice that is done right through has no outer 0 mm', async () => {
    const { stdout } = await roastsim([...GOOD, '--doneness', '75C']);
    expect(stdout).toMatch(/is well-done, all of it is done through\./);
    expect((await roastsim(GOOD)).stdout).toMatch(/the outer [1-9]\d* mm is done through\./);
  });

  test.each([
    [
      'four pounds eight',
      ['--weight', '4lb 8oz', '--oven', '425F', '--sear', '--doneness', 'rare'],
    ],
    ['many thin slices', ['--weight', '3.2kg', '--oven', '120C', '--cut', 'whole', '--unfolded']],
    ['a small tail', ['--weight', '0.3kg', '--oven', '200C', '--cut', 'tail']],
    ['a bath', ['--weight', '1.1kg', '--cut', 'centre', '--bath', '56C', '--sear', '--sear-last']],
    ['strict rules', [...GOOD, '--non-intact', '--at-risk', '--serve', '00:30']],
  ])('%s stays within 80 columns', async (_name, args) => {
    const { code, stdout } = await roastsim(args);
    expect(code).toBe(0);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
  });

  test('answers in the units that were typed, or as asked', async () => {
    expect((await roastsim(['--weight', '4lb', '--oven', '425F'])).stdout).toMatch(
      /PULL at \d+ °F/,
    );
    expect((await roastsim([...GOOD, '--units', 'us'])).stdout).toMatch(/PULL at \d+ °F/);
  });

  test('with a serving time the last step is at it', async () => {
    const { stdout } = await roastsim([...GOOD, '--serve', '18:30']);
    expect(stdout).toMatch(/18:30 +±5 {3}Serve\./);
  });

  test('quiet keeps the notice', async () => {
    const { stdout } = await roastsim([...GOOD, '--quiet']);
    expect(stdout).toMatch(
      /^Pull at \d+ °C after \d+ min \(\d+ to \d+ min\); peak 56 °C\.\n! Below whole-cut/,
    );
  });

  test('meat that is not intact is brought to 62.8 °C before the heat ends', async () => {
    const { stdout } = await roastsim([...GOOD, '--non-intact', '--json']);
    const { pull, safety, aim } = JSON.parse(stdout);
    expect(pull.coldestC).toBeGreaterThanOrEqual(62.79);
    expect(safety.meetsWholeCutGuidance).toBe(true);
    expect(aim.at).toBe('coldest');
  });

  test('help begins with examples', async () => {
    const { code, stdout } = await roastsim(['--help']);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^Examples:/);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
  });
});

describe('files', () => {
  test('a chart is written whole, and nothing beside it', async () => {
    const { code } = await roastsim([...GOOD, '--chart', 'out.png'], { cwd: folder });
    expect(code).toBe(0);
    expect(await readdir(folder)).toEqual(['out.png']);
    const png = await readFile(path.join(folder, 'out.png'));
    expect(png.subarray(1, 4).toString()).toBe('PNG');
  });
});
