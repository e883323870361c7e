import { spawn } from 'node:child_process';
import {
  appendFile,
  cp,
  mkdir,
  mkdtemp,
  readdir,
  readFile,
  rm,
  stat,
  symlink,
  truncate,
  writeFile,
} from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { PDFDocument } from '@cantoo/pdf-lib';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ENTRY, type Run, roastsim } from '../support/cli.js';

const DEMO = fileURLToPath(new URL('../../data/demo', import.meta.url));
const SLOW_MS = 120_000;

const GOOD = `name;pick up;weight;cut;oven;serve;note
Anna Lind;24.12.2026 10:30;2,2kg;whole;230C;18:30;=1+1
Ελένη Παππά;2026-12-23;1.1kg;centre;200C;;
"Bo; Ek";;4lb 8oz;;425F;;"two
lines"
`;
const CARDS = ['001-anna-lind.pdf', '002-eleni-pappa.pdf', '003-bo-ek.pdf'];
const SHEETS = ['all-cards.pdf', 'day-sheet.csv', 'day-sheet.pdf'];

let root: string;
let count = 0;
beforeAll(async () => {
  root = await mkdtemp(path.join(tmpdir(), 'roastsim-cards-'));
});
afterAll(() => rm(root, { recursive: true, force: true }));

/** A folder of its own, with orders in it. */
async function place(orders?: string | Uint8Array): Promise<string> {
  const dir = path.join(root, String(count++));
  await mkdir(dir);
  if (orders !== undefined) await writeFile(path.join(dir, 'orders.csv'), orders);
  return dir;
}

const cards = (cwd: string, ...more: readonly string[]): Promise<Run> =>
  roastsim(['cards', 'orders.csv', '--out', 'cards', ...more], { cwd });

const listed = async (cwd: string): Promise<string[]> =>
  (await readdir(path.join(cwd, 'cards'))).sort();

/** Times and sizes of the files a person sees. */
async function stamps(cwd: string): Promise<Record<string, string>> {
  const entries = (await listed(cwd))
    .filter((file) => !file.startsWith('.'))
    .map(async (file) => {
      const { mtimeMs, size, ino } = await stat(path.join(cwd, 'cards', file));
      return [file, `${mtimeMs} ${size} ${ino}`] as const;
    });
  return Object.fromEntries(await Promise.all(entries));
}

const table = async (cwd: string, file: string): Promise<Record<string, string>[]> =>
  parse(await readFile(path.join(cwd, 'cards', file)), { bom: true, columns: true });

const pdf = async (cwd: string, file: string): Promise<PDFDocument> =>
  PDFDocument.load(await readFile(path.join(cwd, 'cards', file)));

describe('a file of orders', () => {
  let cwd: string;
  let run: Run;
  beforeAll(async () => {
    cwd = await place(`\ufeff${GOOD.replaceAll('\n', '\r\n')}`);
    run = await cards(cwd);
  }, SLOW_MS);

  test('becomes cards and sheets, told in one line', async () => {
    expect(run.stderr).toBe('');
    expect(run.code).toBe(0);
    expect(run.stdout).toMatch(/^Cards: 3 made, 0 kept in cards with .*\n$/);
    expect(await listed(cwd)).toEqual(['.roastsim-cards.json', ...CARDS, ...SHEETS]);
    for (const file of CARDS) expect((await pdf(cwd, file)).getPageCount(), file).toBe(1);
  });

  test('goes to the printer as one', async () => {
    const all = await pdf(cwd, 'all-cards.pdf');
    expect(all.getPageCount()).toBe(3);
  });

  test('has a day sheet by pick-up, as the cards say, with formulas disarmed', async () => {
    const rows = await table(cwd, 'day-sheet.csv');
    expect(rows.map(({ row, name }) => [row, name])).toEqual([
      ['2', 'Ελένη Παππά'],
      ['1', 'Anna Lind'],
      ['3', 'Bo; Ek'],
      ['', '2 roasts'],
      ['', '1 roast'],
      ['', '3 roasts'],
    ]);
    const [eleni, anna, bo] = rows;
    expect(anna).toMatchObject({
      time: '10:30',
      weight: '2.20 kg',
      oven: '230 °C',
      serve: '18:30',
      note: "'=1+1",
      card: '001-anna-lind.pdf',
    });
    expect(eleni).toMatchObject({ cut: 'centre', time: '' });
    expect(bo).toMatchObject({ weight: '4 lb 8 oz', oven: '425 °F', note: 'two lines' });
    expect(rows[5]).toMatchObject({ 'pick up': 'total', cut: 'all', 'weight kg': '5.341' });
    const { stdout } = await roastsim(['--weight', '2.2kg', '--oven', '230C', '--json']);
    const plan = JSON.parse(stdout);
    expect(anna.minutes).toBe(String(Math.round(plan.pull.minutes)));
    expect(anna.pull).toBe(`${Math.round(plan.pull.centreC)} °C`);
  });

  test(
    'is not made again when nothing changed',
    async () => {
      const before = await stamps(cwd);
      const again = await cards(cwd);
      expect(again.code).toBe(0);
      expect(again.stdout).toMatch(/^Cards: 0 made, 3 kept in /);
      expect(await stamps(cwd)).toEqual(before);
    },
    SLOW_MS,
  );

  test(
    'leaves a card that differs alone, unless it may replace it',
    async () => {
      const before = await stamps(cwd);
      const changed = GOOD.replace('2,2kg', '2,4kg');
      await writeFile(path.join(cwd, 'orders.csv'), changed);
      const run = await cards(cwd);
      expect(run.code).toBe(1);
      expect(run.stderr).toMatch(
        /^row 1 \(line 2\), card: 001-anna-lind\.pdf exists and differs: .*--replace\n$/,
      );
      expect(run.stdout).toMatch(/^Cards: 0 made, 2 kept, 1 problem /);
      const after = await stamps(cwd);
      for (const file of CARDS) expect(after[file], file).toBe(before[file]);
      expect(await table(cwd, 'problems.csv')).toMatchObject([
        { row: '1', field: 'card', line: '2' },
      ]);
      expect((await pdf(cwd, 'all-cards.pdf')).getPageCount()).toBe(2);
      expect((await table(cwd, 'day-sheet.csv')).at(-1)).toMatchObject({
        'pick up': 'not on this sheet',
        row: '1',
      });

      const replaced = await cards(cwd, '--replace');
      expect(replaced.code).toBe(0);
      expect(replaced.stdout).toMatch(/^Cards: 1 made, 2 kept in /);
      const then = await stamps(cwd);
      expect(then['001-anna-lind.pdf']).not.toBe(before['001-anna-lind.pdf']);
      expect(then['002-eleni-pappa.pdf']).toBe(before['002-eleni-pappa.pdf']);
      expect(then).not.toHaveProperty('problems.csv');
      expect((await pdf(cwd, 'all-cards.pdf')).getPageCount()).toBe(3);
    },
    SLOW_MS,
  );

  test(
    'finds a card or sheet that was damaged or is not its own',
    async () => {
      await truncate(path.join(cwd, 'cards', '002-eleni-pappa.pdf'), 100);
      await writeFile(path.join(cwd, 'cards', 'day-sheet.csv'), 'my own\n');
      const run = await cards(cwd);
      expect(run.code).toBe(1);
      expect(run.stderr).toMatch(
        /^row 2 \(line 3\), card: 002-eleni-pappa\.pdf exists and differs/,
      );
      expect(run.stderr).toMatch(/\nday-sheet\.csv: it exists and differs/);
      expect(await readFile(path.join(cwd, 'cards', 'day-sheet.csv'), 'utf8')).toBe('my own\n');

      expect((await cards(cwd, '--replace')).code).toBe(0);
      expect((await pdf(cwd, '002-eleni-pappa.pdf')).getPageCount()).toBe(1);
      expect(await table(cwd, 'day-sheet.csv')).toHaveLength(6);
    },
    SLOW_MS,
  );

  test(
    'tells of cards that belong to no order any more',
    async () => {
      await writeFile(path.join(cwd, 'orders.csv'), GOOD.split('"Bo')[0]);
      const run = await cards(cwd, '--replace');
      expect(run.code).toBe(0);
      expect(run.stdout).toMatch(/1 card there of no order now: 003-bo-ek\.pdf\n$/);
      expect(await listed(cwd)).toContain('003-bo-ek.pdf');
      expect((await pdf(cwd, 'all-cards.pdf')).getPageCount()).toBe(2);
    },
    SLOW_MS,
  );
});

test(
  'slips are told together, the other rows are made, and the list goes once they are mended',
  async () => {
    const cwd = await place(await readFile(path.join(DEMO, 'orders-with-mistakes.csv')));
    const run = await cards(cwd);
    expect(run.code).toBe(1);
    expect(run.stdout).toMatch(/^Cards: 3 made, 0 kept, 6 problems /);
    expect(
      run.stderr.split('\n').map((text) => /^row \d+ \(line \d+\), [^:]+/.exec(text)?.[0]),
    ).toEqual([
      'row 2 (line 3), pick up',
      'row 4 (line 5), weight',
      'row 4 (line 5), oven',
      'row 4 (line 5), doneness',
      'row 6 (line 7), weight',
      'row 6 (line 7), serve',
      undefined,
    ]);
    const problems = await table(cwd, 'problems.csv');
    expect(problems.map(({ row, field, found }) => [row, field, found])).toEqual([
      ['2', 'pick up', '03/04/2026'],
      ['4', 'weight', '2.2'],
      ['4', 'oven', '23C'],
      ['4', 'doneness', 'medium-rear'],
      ['6', 'weight', ''],
      ['6', 'serve', 'half past six'],
    ]);
    expect((await listed(cwd)).filter((file) => /^\d/.test(file))).toEqual([
      '001-anna-lindqvist.pdf',
      '003-eleni-pappa.pdf',
      '005-nataliya-moroz.pdf',
    ]);

    const mended = (await readFile(path.join(cwd, 'orders.csv'), 'utf8'))
      .split('\n')
      .filter((_, i) => ![2, 4, 6].includes(i))
      .join('\n');
    await writeFile(path.join(cwd, 'orders.csv'), mended);
    expect((await cards(cwd)).code).toBe(0);
    expect(await listed(cwd)).not.toContain('problems.csv');
  },
  SLOW_MS,
);

test(
  'a plan that cannot be made is a problem of its row alone',
  async () => {
    const cwd = await place(
      'name,weight,oven,pull,at risk\nA,2.2kg,230C,50C,yes\nB,2.2kg,230C,,\n日本,2.2kg,230C,,\n',
    );
    const run = await cards(cwd);
    expect(run.code).toBe(1);
    expect(run.stderr).toMatch(/^row 1 \(line 2\), pull: read "50C"; .*62\.8 °C/);
    expect(run.stderr).toMatch(
      /\nrow 3 \(line 4\), name: read "日本"; the card cannot print U\+65E5/,
    );
    expect(await listed(cwd)).toContain('002-b.pdf');
  },
  SLOW_MS,
);

test('when no row can be read there are no cards, and the code says so', async () => {
  const cwd = await place('name,weight,oven\nA,2.2,230C\nB,2.2kg,23C\n');
  const { code, stderr, stdout } = await cards(cwd);
  expect(code).toBe(1);
  expect(stderr.trimEnd().split('\n')).toHaveLength(2);
  expect(stdout).toMatch(/^Cards: 0 made, 0 kept, 2 problems /);
  expect(await listed(cwd)).toEqual(['.roastsim-cards.json', 'problems.csv']);
});

test(
  'names without manners make safe files, and the same name twice makes two',
  async () => {
    const names = ['../../evil', '.', 'Bo', 'bo', '/', 'a\\..\\b', '%00', '$(touch x)'];
    const rows = names.map((name) => `"${name}",1.1kg,centre,230C`);
    const cwd = await place(`name,weight,cut,oven\n${rows.join('\n')}\n`);
    const run = await cards(cwd);
    expect(run.stderr).toBe('');
    expect((await listed(cwd)).filter((file) => /^\d/.test(file))).toEqual([
      '001-evil.pdf',
      '002-order.pdf',
      '003-bo.pdf',
      '004-bo.pdf',
      '005-order.pdf',
      '006-a-b.pdf',
      '007-00.pdf',
      '008-touch-x.pdf',
    ]);
    expect((await readdir(cwd)).sort()).toEqual(['cards', 'orders.csv']);
    expect((await pdf(cwd, 'all-cards.pdf')).getPageCount()).toBe(names.length);
  },
  SLOW_MS,
);

test.each([
  ['html', /^<!doctype html>/i],
  ['png', /^.PNG/],
])('%s cards come without the combined PDF', async (format, start) => {
  const cwd = await place('name,weight,oven\nBo,2.2kg,230C\n');
  const run = await cards(cwd, '--format', format);
  expect(run.stderr).toBe('');
  expect(run.code).toBe(0);
  const file = `001-bo.${format}`;
  expect(await listed(cwd)).toEqual([
    '.roastsim-cards.json',
    file,
    'day-sheet.csv',
    'day-sheet.pdf',
  ]);
  expect(await readFile(path.join(cwd, 'cards', file), 'latin1')).toMatch(start);
});

test(
  'settings are taken, and other settings make another card',
  async () => {
    const cwd = await place('name,weight\nBo,2.2kg\n');
    await cp(path.join(DEMO, 'shop.yaml'), path.join(cwd, 'shop.yaml'));
    expect((await cards(cwd, '--settings', 'shop.yaml')).code).toBe(0);
    const [row] = await table(cwd, 'day-sheet.csv');
    expect(row.oven).toBe('220 °C');
    const { width } = (await pdf(cwd, '001-bo.pdf')).getPage(0).getSize();
    expect(Math.round((width / 72) * 25.4)).toBe(148);

    await writeFile(path.join(cwd, 'shop.yaml'), 'oven: 200C\npaper: letter\n');
    const run = await cards(cwd, '--settings', 'shop.yaml');
    expect(run.stderr).toMatch(/card: 001-bo\.pdf exists and differs/);
  },
  SLOW_MS,
);

test(
  'another build of the program makes another card, whatever its version says',
  async () => {
    const cwd = await place('name,weight,oven\nBo,1.1kg,200C\n');
    const installed = path.dirname(path.dirname(ENTRY));
    for (const part of ['dist', 'package.json']) {
      await cp(path.join(installed, part), path.join(cwd, part), { recursive: true });
    }
    await symlink(path.join(installed, 'node_modules'), path.join(cwd, 'node_modules'));
    const entry = path.join(cwd, 'dist', 'main.js');
    const run = (): Promise<Run> =>
      roastsim(['cards', 'orders.csv', '--out', 'cards'], { cwd }, entry);
    expect((await run()).stdout).toMatch(/^Cards: 1 made, 0 kept /);
    expect((await run()).stdout).toMatch(/^Cards: 0 made, 1 kept /);
    await appendFile(path.join(cwd, 'dist', 'worker.js'), '\n// another line of code\n');
    expect((await run()).stderr).toMatch(/card: 001-bo\.pdf exists and differs: .*--replace/);
  },
  SLOW_MS,
);

describe('input that cannot be worked with is refused in one line', () => {
  test.each([
    ['nothing in it', '', /orders\.csv: it is empty/],
    ['no order in it', 'name,weight\n', /orders\.csv: there is no order in it/],
    ['zeros', Buffer.alloc(100), /orders\.csv: it is no text file/],
    ['an unknown column', 'nmae,weight\nA,2kg\n', /"nmae" \(did you mean name\?\)/],
  ])('a file with %s', async (_what, orders, message) => {
    const cwd = await place(orders);
    const { code, stdout, stderr } = await cards(cwd);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(message);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(await readdir(cwd)).toEqual(['orders.csv']);
  });

  test.each([
    ['no file', ['cards', 'none.csv', '--out', 'x'], /none\.csv: there is no such file/],
    ['no folder named', ['cards', 'orders.csv'], /--out: it is missing/],
    [
      'a file for a folder',
      ['cards', 'orders.csv', '--out', 'orders.csv'],
      /--out: .*no such folder/,
    ],
    ['another format', ['cards', 'orders.csv', '--out', 'x', '--format', 'pdff'], /mean pdf\?/],
    ['no orders named', ['cards', '--out', 'x'], /missing required argument 'orders'/],
    ['too much', ['cards', 'orders.csv', 'more.csv', '--out', 'x'], /too many arguments/],
    [
      'no such settings',
      ['cards', 'orders.csv', '--out', 'x', '--settings', 's'],
      /--settings: .*"s"/,
    ],
  ])('%s', async (_what, args, message) => {
    const cwd = await place(GOOD);
    const { code, stdout, stderr } = await roastsim(args, { cwd });
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(message);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(await readdir(cwd)).toEqual(['orders.csv']);
  });

  test('orders that lie where a sheet of theirs goes', async () => {
    const cwd = await place();
    await writeFile(path.join(cwd, 'problems.csv'), GOOD);
    const { code, stderr } = await roastsim(['cards', './problems.csv', '--out', '.'], { cwd });
    expect(code).toBe(2);
    expect(stderr).toMatch(/a file of that name is written to/);
    expect(await readFile(path.join(cwd, 'problems.csv'), 'utf8')).toBe(GOOD);
  });

  test(
    'a folder where another run works; the lock of one that is gone does not count',
    async () => {
      const cwd = await place('name,weight,oven\nBo,2.2kg,230C\n');
      await mkdir(path.join(cwd, 'cards'));
      const lock = path.join(cwd, 'cards', '.roastsim-cards.lock');
      await writeFile(lock, `${process.pid}\n`);
      const { code, stderr } = await cards(cwd);
      expect(code).toBe(2);
      expect(stderr).toMatch(/process \d+ is working there.*delete \.roastsim-cards\.lock/);

      const gone = spawn(process.execPath, ['-e', '0']);
      await new Promise((resolve) => gone.on('exit', resolve));
      await writeFile(lock, `${gone.pid}\n`);
      expect((await cards(cwd)).code).toBe(0);
      expect(await listed(cwd)).not.toContain(path.basename(lock));
    },
    SLOW_MS,
  );
});

test(
  'the orders of the invented shop are all good',
  async () => {
    const cwd = await place(await readFile(path.join(DEMO, 'orders.csv')));
    const run = await cards(cwd, '--settings', path.join(DEMO, 'shop.yaml'));
    expect(run.stderr).toBe('');
    expect(run.stdout).toMatch(/^Cards: 40 made, 0 kept in /);
    expect((await pdf(cwd, 'all-cards.pdf')).getPageCount()).toBe(40);
  },
  SLOW_MS,
);
