import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { roastsim } from '../support/cli.js';

const MUCH = [
  ...[
    'card',
    '--weight',
    '2.2kg',
    '--oven',
    '110C',
    '--sear',
    '--serve',
    '18:30',
    '--pick-up',
    '2026-12-24',
  ],
  ...[
    '--name',
    'Maximiliana Wolfeschlegel-Featherstonehaugh of Upper Oakford',
    '--note',
    'word '.repeat(40),
  ],
];

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'roastsim-paper-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

test('a card too long for A5 is set for A4 when no paper was asked for', async () => {
  const { code, stderr } = await roastsim([...MUCH, '--out', 'card.html'], { cwd: folder });
  expect(stderr).toBe('Too much for A5; set for A4\nCard written to card.html\n');
  expect(code).toBe(0);
  expect(await readFile(path.join(folder, 'card.html'), 'utf8')).toMatch(/@page[^}]*210mm 297mm/);
});

test('and refused in one line, with no file left, when A5 was asked for', async () => {
  const { code, stderr } = await roastsim([...MUCH, '--paper', 'a5', '--out', 'small.pdf'], {
    cwd: folder,
  });
  expect(code).toBe(2);
  expect(stderr).toMatch(/^roastsim: [^\n]*too long for one page of a5[^\n]*\n$/);
  expect(await readdir(folder)).not.toContain('small.pdf');
});
