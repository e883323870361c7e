import { spawn } from 'node:child_process';
import { watch } from 'node:fs';
import { cp, mkdir, mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { PDFDocument } from '@cantoo/pdf-lib';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { ENTRY, type Run, roastsim } from '../support/cli.js';

/*
 * `roastsim cards` on the forty orders of the demo, killed twenty times, each life going on where the last one ended. A life is
 * counted in what happens in the folder, not in seconds, so that a kill falls between two writes on a slow machine as on a fast
 * one: a card is some ten events. Early lives end among the cards, late ones among the sheets.
 */

const DEMO = fileURLToPath(new URL('../../data/demo', import.meta.url));
const ORDERS = 40;
const KILLS = 20;
const SHEET_KILLS = 6; // of them, with all cards there
const SLOW_MS = 180_000;

const [CARD_MOMENTS, SHEET_MOMENTS] = fc.sample(
  fc.tuple(
    fc.array(fc.integer({ min: 1, max: 40 }), { minLength: KILLS, maxLength: KILLS }),
    fc.array(fc.integer({ min: 1, max: 24 }), { minLength: KILLS, maxLength: KILLS }),
  ),
  1,
)[0];

let root: string;
let out: string;
beforeAll(async () => {
  root = await mkdtemp(path.join(tmpdir(), 'roastsim-killed-'));
  out = path.join(root, 'cards');
  await mkdir(out);
  for (const file of ['orders.csv', 'shop.yaml']) {
    await cp(path.join(DEMO, file), path.join(root, file));
  }
});
afterAll(() => rm(root, { recursive: true, force: true }));

const ARGS = ['cards', 'orders.csv', '--settings', 'shop.yaml', '--out', 'cards'];
const again = (): Promise<Run> => roastsim(ARGS, { cwd: root });

/** Runs until the `events`-th event in the folder, then kills; tells whether it was killed before it ended. */
async function live(events: number): Promise<boolean> {
  const child = spawn(process.execPath, [ENTRY, ...ARGS], { cwd: root, stdio: 'ignore' });
  const ended = new Promise<boolean>((resolve) => {
    child.on('exit', (_code, signal) => resolve(signal === 'SIGKILL'));
  });
  let seen = 0;
  const watcher = watch(out, () => {
    seen++;
    if (seen === events) child.kill('SIGKILL');
  });
  const killed = await ended;
  watcher.close();
  return killed;
}

const opened = new Map<string, string>();

/** Every file a person sees is whole. Those that did not change since they were last opened are not opened again. */
async function expectWhole(): Promise<void> {
  for (const file of await readdir(out)) {
    if (file.startsWith('.')) continue;
    const { mtimeMs, ino } = await stat(path.join(out, file));
    const stamp = `${mtimeMs} ${ino}`;
    if (opened.get(file) === stamp) continue;
    const bytes = await readFile(path.join(out, file));
    if (file.endsWith('.pdf')) {
      const pages = (await PDFDocument.load(bytes)).getPageCount();
      if (/^\d/.test(file)) expect(pages, file).toBe(1);
    } else expect(parse(bytes, { bom: true }).length, file).toBeGreaterThan(ORDERS);
    opened.set(file, stamp);
  }
  const manifest = await readFile(path.join(out, '.roastsim-cards.json'), 'utf8').catch(() => '{}');
  expect(() => JSON.parse(manifest)).not.toThrow();
}

const cardsThere = async (): Promise<number> =>
  (await readdir(out)).filter((file) => /^\d.*\.pdf$/.test(file)).length;

test(
  'killed twenty times, a run leaves whole files each time and is completed by the next',
  async () => {
    let kills = 0;
    for (let life = 0; kills < KILLS - SHEET_KILLS; life++) {
      if ((await cardsThere()) > ORDERS - 4) {
        const there = (await readdir(out)).filter((file) => !file.startsWith('.'));
        for (const file of there.slice(0, 20)) await rm(path.join(out, file));
      }
      if (await live(CARD_MOMENTS[life % KILLS])) kills++;
      await expectWhole();
    }

    // leftovers and a file of somebody else that are certain, whatever the moments were
    const leftover = '.001-anna-lindqvist.pdf.01234567-89ab-4cde-8f01-23456789abcd.part';
    await writeFile(path.join(out, leftover), '%PDF');
    await writeFile(path.join(out, '.mine.part'), 'not theirs');
    const whole = await again();
    expect(whole.stderr).toBe('');
    expect(whole.code).toBe(0);

    for (let life = 0; kills < KILLS; life++) {
      for (const file of ['all-cards.pdf', 'day-sheet.pdf', 'day-sheet.csv']) {
        await rm(path.join(out, file), { force: true });
      }
      if (await live(SHEET_MOMENTS[life % KILLS])) kills++;
      await expectWhole();
      expect(await cardsThere()).toBe(ORDERS);
    }

    const { code, stdout, stderr } = await again();
    expect(stderr).toBe('');
    expect(code).toBe(0);
    expect(stdout).toMatch(/^Cards: 0 made, 40 kept in .* all-cards\.pdf, day-sheet/);
    await expectWhole();
    const hidden = (await readdir(out)).filter((file) => file.startsWith('.'));
    expect(hidden.sort()).toEqual(['.mine.part', '.roastsim-cards.json']);
    const all = await PDFDocument.load(await readFile(path.join(out, 'all-cards.pdf')));
    expect(all.getPageCount()).toBe(ORDERS);
  },
  SLOW_MS,
);
