import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { PDFDocument } from '@cantoo/pdf-lib';
import { RoastError } from '@roastsim/core';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type CuttingListWords,
  runCuttingList,
} from '../../packages/cli/src/commands/cuttingList.js';

const root = (file: string): string => fileURLToPath(new URL(`../../${file}`, import.meta.url));
const DEMO = root('data/demo/cutting-orders.csv');
const SLOW_MS = 60_000;

let dir: string;
beforeAll(async () => {
  dir = await mkdtemp(path.join(tmpdir(), 'roastsim-cutting-'));
});
afterAll(async () => {
  await rm(dir, { recursive: true, force: true });
});

async function run(words: CuttingListWords) {
  let out = '';
  let err = '';
  let failed = false;
  const io = {
    out: (text: string): void => {
      out += text;
    },
    err: (text: string): void => {
      err += text;
    },
    now: () => new Date('2026-12-22T08:00:00Z'),
    color: false,
    zone: () => 'UTC',
    terminal: false,
    input: () => {
      throw new Error('nothing is read from standard input');
    },
  };
  await runCuttingList(words, io, () => {
    failed = true;
  });
  return { out, err, failed };
}

async function withOrders(csv: string | Uint8Array, words: Partial<CuttingListWords> = {}) {
  const file = path.join(dir, 'orders.csv');
  await writeFile(file, csv);
  return run({ orders: file, stock: '2.4kg', ...words });
}

async function document(csv: string, words: Partial<CuttingListWords> = {}) {
  const { out, ...rest } = await withOrders(csv, { ...words, json: true });
  return { ...rest, list: JSON.parse(out) };
}

async function priceList(cuts: string): Promise<string> {
  const file = path.join(dir, 'prices.yaml');
  await writeFile(file, `currency: EUR\nper: kg\ncuts: ${cuts}\n`);
  return file;
}

describe('the cutting list', () => {
  test('of the demo serves all, in 80 columns, every piece named', {
    timeout: SLOW_MS,
  }, async () => {
    const { out, failed, err } = await run({ orders: DEMO, stock: '2.4kg, 2.2kg, 10 x 2.5kg' });
    expect(err).toBe('');
    expect(failed).toBe(false);
    expect(out).toContain('All 20 orders served');
    expect(Math.max(...out.split('\n').map((line) => [...line].length))).toBeLessThanOrEqual(80);
    for (let row = 1; row <= 20; row++) expect(out).toMatch(new RegExp(`row\\s+${row}\\b`));
    expect(out).toMatch(/tape and\s+scales decide/);
  });

  test('is a document that keeps to its schema', { timeout: SLOW_MS }, async () => {
    const schema = JSON.parse(await readFile(root('docs/cutting.schema.json'), 'utf8'));
    const validate = new Ajv2020().compile(schema);
    for (const stock of ['2.4kg, 2.2kg', '10 x 2.5kg']) {
      const { out } = await run({ orders: DEMO, stock, json: true });
      const list = JSON.parse(out);
      expect(validate(list), JSON.stringify(validate.errors)).toBe(true);
    }
  });

  test('says what is missing: who, which part, which tenderloin would do', async () => {
    const csv = 'name,cut,weight\nAda,centre,1.2kg\nBo,centre,1.1kg\n';
    const { list, failed } = await document(csv);
    expect(failed).toBe(true);
    expect(list.orders.map(({ served }: { served: boolean }) => served)).toEqual([true, false]);
    expect(list.missing).toEqual({
      rows: [2],
      byCut: [{ cut: 'centre', pieces: 1, massKg: 1.1 }],
      tenderloins: [{ leastKg: 2.05 }],
      tooLargeRows: [],
    });
    // what it names does, and one step less does not
    for (const [more, all] of [
      ['2.05kg', true],
      ['1.9kg', false],
    ] as const) {
      const again = await document(csv, { stock: `2.4kg, ${more}`, tolerance: '0%' });
      expect(again.failed).toBe(!all);
    }
    const { out } = await withOrders(csv);
    expect(out).toContain('row 2, Bo: one centre roast of 1.10 kg');
    expect(out).toContain('1.10 kg of centre');
    expect(out).toContain('1 more of 2.05 kg or more');
  });

  test('tells an order that no tenderloin is large enough for', async () => {
    const { out } = await withOrders('cut,weight\ncentre,3kg\ntips,200g\n');
    expect(out).toMatch(/row 1: one centre roast of 3.00 kg: no tenderloin up to 4.50 kg/);
  });

  test('an exact weight is cut short by the tolerance only where that serves more', async () => {
    const csv = 'cut,weight\ncentre,680g\ncentre,680g\n';
    const strict = await document(csv, { tolerance: '0%' });
    expect(strict.failed).toBe(true);
    const { list, failed } = await document(csv, { tolerance: '5%' });
    expect(failed).toBe(false);
    const masses = list.tenderloins[0].pieces
      .filter(({ row }: { row?: number }) => row !== undefined)
      .map(({ massKg }: { massKg: number }) => massKg);
    for (const massKg of masses) expect(massKg).toBeGreaterThanOrEqual(0.95 * 0.68 - 1e-4);
    expect(Math.min(...masses)).toBeLessThan(0.68);
  });

  test('dear tails and cheap centres move what is kept', async () => {
    const csv = 'cut,weight\nsteak,200g\n';
    const usual = await document(csv);
    const prices = await priceList('{ whole: 10, centre: 1, butt: 1, tail: 40, tips: 1 }');
    const odd = await document(csv, { prices });
    const tailKg = ({ list }: Awaited<ReturnType<typeof document>>): number =>
      list.tenderloins[0].pieces
        .filter(({ cut, use }: { cut: string; use: string }) => cut === 'tail' && use === 'sell')
        .reduce((sum: number, { massKg }: { massKg: number }) => sum + massKg, 0);
    expect(tailKg(odd)).toBeGreaterThan(tailKg(usual) + 0.1);
  });
});

describe('the orders file', () => {
  test('may come with a mark, semicolons, CRLF, other capitals and other words', async () => {
    const csv =
      '\ufeffCount;Cut;WEIGHT;Name;Thickness\r\n2;Center;0,5 kg;Ada;\r\n3x;Steaks;;Bo;1 1/2 in\r\n;cubes;200g;Cy;\r\n';
    const { list } = await document(csv, { stock: '2.4kg, 2.4kg' });
    expect(list.problems).toEqual([]);
    expect(list.orders.map(({ served: _, ...order }: { served: boolean }) => order)).toEqual([
      { row: 1, name: 'Ada', cut: 'centre', pieces: 2, massKg: 0.5 },
      { row: 2, name: 'Bo', cut: 'steak', pieces: 3, thicknessMm: 38.1 },
      { row: 3, name: 'Cy', cut: 'tips', pieces: 1, massKg: 0.2 },
    ]);
  });

  test('of cook cards is taken as far as it goes', { timeout: SLOW_MS }, async () => {
    const { list, failed, err } = await run({
      orders: root('data/demo/orders.csv'),
      stock: '12 x 2.2kg',
      json: true,
    }).then(({ out, ...rest }) => ({ list: JSON.parse(out), ...rest }));
    expect(err).toBe('');
    expect(list.problems).toEqual([]);
    expect(list.passedOver).toEqual([25]);
    expect(list.orders).toHaveLength(39);
    expect(failed).toBe(true); // not enough meat
  });

  test('with slips: each is told with its row and field, the other rows are planned', async () => {
    const csv = [
      'name,cut,weight,pieces,thickness',
      'Ada,centre,700g,,',
      'Bo,centre,700,,', // no unit
      'Cy,sirloin,700g,,', // no such cut
      'Di,steak,200g,two,',
      'Ed,steak,200g,2,3cm', // both
      'Flo,centre,700g,,3cm',
      'Gus,butt,,,',
      'Hal,tips,300g,4,',
      'Ida,steak,200g,0,',
      'Jo,steak,200g,9999,',
      'Ky,steak,9kg,1,',
      'Lu,centre,700g,1,,extra',
      'Mo,tail,-1kg,,',
    ].join('\n');
    const { list, failed, err } = await document(csv);
    expect(failed).toBe(true);
    expect(list.orders).toHaveLength(1);
    expect(
      list.problems.map(({ row, field }: { row: number; field: string }) => [row, field]),
    ).toEqual([
      [2, 'weight'],
      [3, 'cut'],
      [4, 'pieces'],
      [5, 'thickness'],
      [6, 'thickness'],
      [7, 'weight'],
      [8, 'pieces'],
      [9, 'pieces'],
      [10, 'pieces'],
      [11, 'weight'],
      [12, 'cells'],
      [13, 'weight'],
    ]);
    expect(err).toContain('row 2 (line 3), weight: read "700"');
  });

  test('with formulas, escapes and directions in names stays harmless', async () => {
    const name = '=HYPERLINK("http://x") \u202e\u001b[31mAda';
    const csv = `name,cut,weight\n"${name.replaceAll('"', '""')}",centre,700g\n`;
    const { out } = await withOrders(csv);
    expect(out).toContain('=HYPERLINK("http://x")');
    expect(out).not.toContain('\u001b');
    expect(out).not.toContain('\u202e');
    const { list } = await document(csv);
    expect(list.orders[0].name).toBe('=HYPERLINK("http://x") [31mAda');
  });

  test.each([
    ['empty', '', /empty/],
    ['no table', 'a workbook'.replace('a w', 'PK'), /workbook/],
    ['only names', 'cut,weight\n', /no order/],
    ['unknown column', 'cut,wieght\ncentre,1kg\n', /did you mean weight/],
    ['one column twice', 'cut,weight,weight\ncentre,1kg,2kg\n', /two columns/],
    [
      'two words for pieces',
      'cut,weight,pieces,count\nsteak,200g,2,2\n',
      /two columns hold the pieces/,
    ],
    ['nothing to cut', 'name,note\nAda,hello\n', /nothing says what to cut/],
    ['other meat only', 'cut,weight\nother,1kg\n', /nothing in it is cut from a tenderloin/],
  ])('%s is refused', async (_, csv, message) => {
    await expect(withOrders(csv)).rejects.toThrow(message);
    await expect(withOrders(csv)).rejects.toBeInstanceOf(RoastError);
  });

  test('too much for one list is refused', async () => {
    const csv = `cut,weight\n${'centre,700g\n'.repeat(301)}`;
    await expect(withOrders(csv)).rejects.toThrow(/number of orders/);
  });
});

describe('options', () => {
  const csv = 'cut,weight\ncentre,700g\n';
  test.each([
    ['stock', '2.4', /--stock.*unit/],
    ['stock', '2.4kg,,2.5kg', /separator/],
    ['stock', '24kg', /no tenderloin/],
    ['stock', '2,4kg, 2,5', /unit/],
    ['stock', '0 x 2.4kg', /there has to be a tenderloin/],
    ['stock', '101 x 2.4kg', /number of tenderloins/],
    ['tolerance', '5', /write 5%/],
    ['tolerance', '30%', /too much/],
    ['units', 'stones', /no such name/],
    ['out', 'sheet.txt', /\.pdf/],
  ])('--%s %s is refused', async (option, text, message) => {
    await expect(withOrders(csv, { [option]: text })).rejects.toThrow(message);
  });

  test.each([
    ['{ centre: 88 }', /--prices: there is no price for whole/],
    ['{ whole: 10, sirloin: 8 }', /sirloin/],
    ['{ whole: 1, tips: 5000 }', /price of tips/],
  ])('a price list of %s is refused', async (cuts, message) => {
    await expect(withOrders(csv, { prices: await priceList(cuts) })).rejects.toThrow(message);
  });

  test('stock may be written with decimal commas and counts', async () => {
    const { list } = await document(csv, { stock: '2,4 kg; 2 × 5lb, 1.9kg' });
    expect(list.tenderloins.map(({ massKg }: { massKg: number }) => massKg)).toEqual([
      2.4, 2.268, 2.268, 1.9,
    ]);
  });

  test('a file that is not there is told before anything is done', async () => {
    const orders = path.join(dir, 'none.csv');
    await expect(run({ orders, stock: '2.4kg' })).rejects.toThrow(/--orders.*cannot be read/);
  });
});

describe('the sheet', () => {
  test('is a PDF of whole pages, and nothing is left beside it', async () => {
    const before = await readdir(dir);
    const out = path.join(dir, 'sheet.pdf');
    const csv = `name,cut,weight,pieces\n${'漢字 Ada,steak,150g,6\n'.repeat(3)}Bo,centre,900g,1\n`;
    const { err } = await withOrders(csv, { out, stock: '4 x 2.4kg', units: 'us' });
    expect(err).toContain('Cutting sheet written');
    const pdf = await PDFDocument.load(await readFile(out));
    expect(pdf.getPageCount()).toBeGreaterThan(0);
    const { width } = pdf.getPage(0).getSize();
    expect(width).toBeCloseTo(612, 0); // US letter
    expect(await readdir(dir)).toEqual([...new Set([...before, 'orders.csv', 'sheet.pdf'])].sort());
  });
});
