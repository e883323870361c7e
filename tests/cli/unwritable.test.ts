import { execFile, spawn } from 'node:child_process';
import { cp, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { PDFDocument } from '@cantoo/pdf-lib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ENTRY, type Run, roastsim } from '../support/cli.js';

// What becomes of files that cannot be written, or not to their end: one line, a code, and nothing half done.

const DEMO = fileURLToPath(new URL('../../data/demo', import.meta.url));
const SLOW_MS = 120_000;
const COOK = ['--weight', '1.1kg', '--cut', 'centre', '--oven', '200C'];
const CUTTING = ['order', '--orders', 'cutting-orders.csv', '--stock', '12 x 2.5kg', '--out'];

let root: string;
let count = 0;
beforeAll(async () => {
  root = await mkdtemp(path.join(tmpdir(), 'roastsim-unwritable-'));
});
afterAll(() => rm(root, { recursive: true, force: true }));

/** A folder of its own, with the files the commands read. */
async function place(): Promise<string> {
  const dir = path.join(root, String(count++));
  await mkdir(dir);
  await cp(path.join(DEMO, 'cutting-orders.csv'), path.join(dir, 'cutting-orders.csv'));
  const rows = Array.from({ length: 4 }, (_, i) => `Guest ${i},1.1kg,centre,200C`);
  await writeFile(path.join(dir, 'orders.csv'), `name,weight,cut,oven\n${rows.join('\n')}\n`);
  return dir;
}
const GIVEN = ['cutting-orders.csv', 'orders.csv'];

/** Runs the command where no file may grow beyond some KiB: the system refuses the next byte, as it does on a full disk. */
function cramped(kib: number, args: readonly string[], cwd: string): Promise<Run> {
  return new Promise((resolve) => {
    execFile(
      'bash',
      [
        '-c',
        'ulimit -f "$1" && shift && exec "$@"',
        '-',
        String(kib),
        process.execPath,
        ENTRY,
        ...args,
      ],
      { cwd },
      (error, stdout, stderr) => {
        resolve({ code: typeof error?.code === 'number' ? error.code : 0, stdout, stderr });
      },
    );
  });
}

/** One line that names the option, and the code of a wrong input. */
function expectRefused({ code, stderr }: Run, mentions: RegExp): void {
  expect(stderr).toMatch(/^roastsim: [^\n]+\n$/);
  expect(stderr).toMatch(mentions);
  expect(code).toBe(2);
}

/** What each command writes: the arguments up to the name of the file. */
const WRITERS: readonly (readonly [what: string, args: readonly string[], file: string])[] = [
  ['a card as PDF', ['card', ...COOK, '--out'], 'card.pdf'],
  ['a card as HTML', ['card', ...COOK, '--out'], 'card.html'],
  ['a card as PNG', ['card', ...COOK, '--out'], 'card.png'],
  ['a chart', [...COOK, '--chart'], 'chart.png'],
  ['a calendar', [...COOK, '--serve', '18:30', '--calendar'], 'dinner.ics'],
  ['a cutting sheet', CUTTING, 'sheet.pdf'],
];

describe('a disk without room', () => {
  test.each(WRITERS)('%s', async (_what, args, file) => {
    const cwd = await place();
    expectRefused(
      await cramped(1, [...args, file], cwd),
      /--\w+: read .*larger than a file may be/,
    );
    expect((await readdir(cwd)).sort(), 'nothing half written').toEqual(GIVEN);
  });

  test('what stood there before still stands', async () => {
    const cwd = await place();
    const file = path.join(cwd, 'card.pdf');
    await writeFile(file, 'the one of yesterday');
    expectRefused(await cramped(1, ['card', ...COOK, '--out', file], cwd), /larger than a file/);
    expect(await readFile(file, 'utf8')).toBe('the one of yesterday');
  });

  test.each([
    ['nothing', 0],
    ['the manifest', 1],
    ['half a card', 8],
  ])(
    'cards, with room for %s: none is there, and the next run makes all',
    async (_what, kib) => {
      const cwd = await place();
      const args = ['cards', 'orders.csv', '--out', 'cards'];
      expectRefused(await cramped(kib, args, cwd), /--out: read "cards"; it is larger than a file/);
      const left = await readdir(path.join(cwd, 'cards'));
      expect(left.filter((file) => file !== '.roastsim-cards.json')).toEqual([]);
      const { code, stdout } = await roastsim(args, { cwd });
      expect(code).toBe(0);
      expect(stdout).toMatch(/^Cards: 4 made, 0 kept in /);
    },
    SLOW_MS,
  );

  test(
    'cards, with room for each but not for all in one: the cards stand, and the next run keeps them',
    async () => {
      const cwd = await place();
      const args = ['cards', 'orders.csv', '--out', 'cards'];
      const one = await roastsim(['card', ...COOK, '--out', 'one.pdf'], { cwd });
      expect(one.code).toBe(0);
      const kib = Math.ceil((await readFile(path.join(cwd, 'one.pdf'))).length / 1024) + 8;
      expectRefused(await cramped(kib, args, cwd), /--out: read "cards"; it is larger than a file/);
      const left = (await readdir(path.join(cwd, 'cards'))).filter((file) => !file.startsWith('.'));
      expect(left).toHaveLength(4);
      for (const file of left) {
        const bytes = await readFile(path.join(cwd, 'cards', file));
        expect((await PDFDocument.load(bytes)).getPageCount(), file).toBe(1);
      }
      expect(
        (await readdir(path.join(cwd, 'cards'))).filter((file) => /part|lock/.test(file)),
      ).toEqual([]);
      const { code, stdout } = await roastsim(args, { cwd });
      expect(code).toBe(0);
      expect(stdout).toMatch(/^Cards: 0 made, 4 kept in /);
    },
    SLOW_MS,
  );
});

/** Folders that nobody may write to, root neither: missing, a file, and one that the kernel keeps. */
describe.each([
  ['a folder that is missing', 'nowhere'],
  ['a file in place of a folder', 'orders.csv'],
  ['a folder of the kernel', '/sys'],
])('%s', (_folder, dir) => {
  test.each(WRITERS)('%s', async (_what, args, file) => {
    const cwd = await place();
    const target = path.join(dir, file);
    const run = await roastsim([...args, target], { cwd });
    expectRefused(
      run,
      /--\w+: read .*(there is no such folder|may not be written|cannot be written)/,
    );
    expect(run.stdout).toBe('');
    expect((await readdir(cwd)).sort()).toEqual(GIVEN);
  });

  test('cards', async () => {
    const cwd = await place();
    const inside = dir === 'nowhere' ? '/proc/nowhere' : path.join(dir, 'cards');
    expectRefused(
      await roastsim(['cards', 'orders.csv', '--out', inside], { cwd }),
      /--out: read /,
    );
    expect((await readdir(cwd)).sort()).toEqual(GIVEN);
  });
});

describe('a full disk behind stdout', () => {
  /** Runs with results going to a device that has no room for any byte. */
  function intoFull(args: readonly string[], cwd: string): Promise<Run> {
    return new Promise((resolve) => {
      const script = 'exec "$@" > /dev/full';
      const child = spawn('bash', ['-c', script, '-', process.execPath, ENTRY, ...args], { cwd });
      let stderr = '';
      child.stderr.on('data', (text) => {
        stderr += String(text);
      });
      child.on('close', (code) => resolve({ code: code ?? 0, stdout: '', stderr }));
    });
  }

  test.each([
    ['a plan', COOK],
    ['its JSON', [...COOK, '--json']],
    ['an order', ['order', '--guests', '8']],
    ['the help', ['--help']],
  ])('%s: one line, and the code says that the work failed', async (_what, args) => {
    const { code, stderr } = await intoFull(args, root);
    expect(stderr).toBe('roastsim: the output could not be written: the disk is full\n');
    expect(code).toBe(1);
  });

  test('a chart beside it is whole', async () => {
    const cwd = await place();
    const { code } = await intoFull([...COOK, '--chart', 'chart.png'], cwd);
    expect(code).toBe(1);
    expect((await readdir(cwd)).sort()).toEqual(['chart.png', ...GIVEN]);
    const png = await readFile(path.join(cwd, 'chart.png'));
    expect(png.subarray(-8, -4).toString('latin1')).toBe('IEND');
  });
});
