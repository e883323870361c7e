import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { PDFDocument } from '@cantoo/pdf-lib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { roastsim } from '../support/cli.js';
import { frozenAt } from '../support/frozen.js';

/** A shop and an order whose texts are all as long as they may be, and a plan with many warnings. */
const SHOP = `name: ${'Long Name '.repeat(7)}
address: [${Array.from({ length: 5 }, () => 'a line of an address '.repeat(3)).join(', ')}]
footer: ${'a line at the foot '.repeat(8)}
`;
const ROAST = { weight: '2.2kg', oven: '105C', fridge: '6C', length: '30cm', serve: '18:30' };
const NAME = 'Maximiliana Wolfeschlegel-Featherstonehaugh of Upper Oakford';
const NOTE = 'word '.repeat(40).trim();
const MUCH = [
  'card',
  ...Object.entries({ ...ROAST, name: NAME, note: NOTE, 'pick-up': '2026-12-24' }).flatMap(
    ([option, text]) => [`--${option}`, text],
  ),
  '--sear',
  '--sear-last',
  '--settings',
  'shop.yaml',
];

// early enough for dinner: no word of being late beside what is asked about
const MORNING = frozenAt('2026-12-24T07:00:00Z', 'Europe/Vienna');

const SLOW_MS = 120_000;

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'roastsim-paper-'));
  await writeFile(path.join(folder, 'shop.yaml'), SHOP);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

test('a card too long for A5 is set for A4 when no paper was asked for', async () => {
  const { code, stderr } = await roastsim([...MUCH, '--out', 'card.html'], {
    cwd: folder,
    env: MORNING,
  });
  expect(stderr).toBe('Too much for A5; set for A4\nCard written to card.html\n');
  expect(code).toBe(0);
  expect(await readFile(path.join(folder, 'card.html'), 'utf8')).toMatch(/@page[^}]*210mm 297mm/);
});

test('and refused in one line, with no file left, when A5 was asked for', async () => {
  const { code, stderr } = await roastsim([...MUCH, '--paper', 'a5', '--out', 'small.pdf'], {
    cwd: folder,
    env: MORNING,
  });
  expect(code).toBe(2);
  expect(stderr).toMatch(/^roastsim: [^\n]*too long for one page of a5[^\n]*\n$/);
  expect(await readdir(folder)).not.toContain('small.pdf');
});

describe('cards of a day', () => {
  const ROWS = `name,note,weight,oven,fridge,length,serve,sear,sear last,pick up
Bo,,2.2kg,230C,,,,,,
${[NAME, NOTE, ROAST.weight, ROAST.oven, ROAST.fridge, ROAST.length, ROAST.serve, 'yes', 'yes', '2026-12-24'].join(',')}
`;
  const cards = (...more: readonly string[]) =>
    roastsim(['cards', 'orders.csv', '--settings', 'shop.yaml', '--out', 'cards', ...more], {
      cwd: folder,
    });
  const widthMm = async (file: string): Promise<number[]> => {
    const pdf = await PDFDocument.load(await readFile(path.join(folder, 'cards', file)));
    return pdf.getPages().map((page) => Math.round((page.getWidth() / 72) * 25.4));
  };
  beforeAll(() => writeFile(path.join(folder, 'orders.csv'), ROWS));

  test(
    'those too long for A5 are set for A4, told, and lie in a file for the printer of their own',
    async () => {
      const first = await cards();
      expect(first.stderr).toBe('Too much for A5, set for A4: row 2\n');
      expect(first.code).toBe(0);
      expect(first.stdout).toMatch(
        /^Cards: 2 made, 0 kept, 1 of them set for A4 in cards with all-cards\.pdf, all-cards-a4\.pdf, /,
      );
      expect(await widthMm('all-cards.pdf')).toEqual([148]);
      expect(await widthMm('all-cards-a4.pdf')).toEqual([210]);

      const again = await cards(); // known from the run before
      expect(again.stderr).toBe('');
      expect(again.stdout).toMatch(/^Cards: 0 made, 2 kept, 1 of them set for A4 in /);
    },
    SLOW_MS,
  );

  test(
    'with a paper that was asked for there is no other: too long is a problem of its row',
    async () => {
      const large = await cards('--paper', 'a4', '--replace');
      expect(large.stderr).toBe('');
      expect(large.stdout).toMatch(
        /^Cards: 2 made, 0 kept in cards with all-cards\.pdf, day-sheet/,
      );
      expect(await widthMm('all-cards.pdf')).toEqual([210, 210]);
      expect(await readdir(path.join(folder, 'cards'))).not.toContain('all-cards-a4.pdf');

      const small = await cards('--paper', 'a5', '--replace');
      expect(small.code).toBe(1);
      expect(small.stderr).toMatch(/^row 2 \(line 3\), card: .*too long for one page of a5/);
      expect((await cards('--paper', 'a6')).stderr).toMatch(/--paper: read "a6"/);
    },
    SLOW_MS,
  );
});
