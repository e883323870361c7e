import { createHash } from 'node:crypto';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { PDFDocument, PDFName, PDFRawStream } from '@cantoo/pdf-lib';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { combinePdfs } from '../../packages/cli/src/pool/combinePdfs.js';
import { bytesOf, openDocument } from '../../packages/cli/src/show/card/pdf.js';
import { type DayLine, daySheet, sorted } from '../../packages/cli/src/show/daySheet.js';
import { daySheetCsv } from '../../packages/cli/src/show/daySheetCsv.js';
import { daySheetPdf } from '../../packages/cli/src/show/daySheetPdf.js';
import { problemsCsv, problemsText } from '../../packages/cli/src/show/problemsCsv.js';

// Printing needs the fonts in packages/cli/dist, as `pnpm build` or `pnpm test` leaves them.

const CREATED = new Date('2026-12-20T12:00:00Z');

const line = (row: number, said: Partial<DayLine> = {}): DayLine => ({
  row,
  file: `${String(row).padStart(3, '0')}-order.pdf`,
  units: 'metric',
  weightKg: 2,
  cut: 'whole',
  ties: 12,
  oven: '230 °C',
  minutes: 40,
  pull: '45 °C',
  wanted: 'medium-rare: 56 °C in the middle',
  ...said,
});

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'roastsim-sheet-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('the day sheet', () => {
  const lines = [
    line(1),
    line(2, { pickUp: '2026-12-24T16:00', cut: 'centre', weightKg: 1.1 }),
    line(3, { pickUp: '2026-12-24', weightKg: 2.5 }),
    line(4, { pickUp: '2026-12-23T09:30', units: 'us', weightKg: 4 * 0.45359237 }),
    line(5, { pickUp: '2026-12-24T16:00' }),
  ];

  test('goes by pick-up, then by row; a day without a time comes first, no day comes last', () => {
    expect(sorted(lines).map(({ row }) => row)).toEqual([4, 3, 2, 5, 1]);
    expect(daySheet(lines, []).days.map(({ date, lines: of }) => [date, of.length])).toEqual([
      ['2026-12-23', 1],
      ['2026-12-24', 3],
      [undefined, 1],
    ]);
  });

  test('adds up by cut, and everything', () => {
    const { totals, units } = daySheet(lines, []);
    expect(totals.map(({ cut, count }) => [cut, count])).toEqual([
      ['whole', 4],
      ['centre', 1],
      ['all', 5],
    ]);
    expect(totals.at(-1)?.weightKg).toBeCloseTo(2 + 1.1 + 2.5 + 4 * 0.45359237 + 2, 12);
    expect(units).toBe('both');
    expect(daySheet(lines.slice(0, 3), []).units).toBe('metric');
  });

  test('as a table says each order, the totals and what is missing', () => {
    const csv = daySheetCsv(daySheet(lines, [6, 9]));
    expect(csv).toMatch(/^\ufeffpick up,time,row,name,weight,/);
    const rows: Record<string, string>[] = parse(csv, { bom: true, columns: true });
    expect(rows[0]).toMatchObject({ 'pick up': '2026-12-23', time: '09:30', weight: '4 lb' });
    expect(rows[5]).toMatchObject({ 'pick up': 'total', cut: 'whole', name: '4 roasts' });
    expect(rows[7]).toMatchObject({
      cut: 'all',
      'weight kg': '9.414',
      weight: '9.41 kg (20 lb 12 oz)',
    });
    expect(rows.slice(8).map(({ row }) => row)).toEqual(['6', '9']);
  });

  test('holds no cell that a spreadsheet would calculate', () => {
    const evil = fc
      .tuple(fc.constantFrom('=', '+', '-', '@', '\t', '\r', '＝', '＋'), fc.string())
      .map((parts) => parts.join(''));
    fc.assert(
      fc.property(evil, (text) => {
        const sheet = daySheetCsv(daySheet([line(1, { name: text, note: text })], []));
        const told = problemsCsv([{ row: 1, line: 2, field: text, found: text, message: text }]);
        for (const cell of [sheet, told].flatMap((csv) => parse(csv, { bom: true })).flat()) {
          expect(cell).not.toMatch(/^[=+\-@\t\r＝＋－＠]/);
        }
        const [, row]: string[][] = parse(told, { bom: true });
        expect(row[2]).toBe(`'${text}`);
      }),
    );
  });

  test('on paper runs over as many pages as it takes, whatever the texts', async () => {
    const many = Array.from({ length: 120 }, (_, i) =>
      line(i + 1, {
        name:
          i % 3 === 0
            ? 'Wilhelmina Featherstone-Brandt of the Upper Mill by the Old Bridge'
            : 'Żak',
        note: i % 5 === 0 ? 'x'.repeat(240) : '',
        pickUp: `2026-12-${20 + (i % 4)}T10:00`,
      }),
    );
    const pagesOf = async (some: readonly DayLine[], letter: boolean): Promise<PDFDocument> =>
      PDFDocument.load(
        await daySheetPdf(daySheet(some, [7]), {
          locale: 'en-GB',
          letter,
          shop: 'Mill',
          created: CREATED,
        }),
      );
    const short = await pagesOf(many.slice(0, 4), false);
    expect(short.getPageCount()).toBe(1);
    const long = await pagesOf(many, true);
    expect(long.getPageCount()).toBeGreaterThan(5);
    const { width, height } = long.getPage(0).getSize();
    expect([width, height].map((pt) => Math.round((pt / 72) * 100) / 100)).toEqual([11, 8.5]);
  });
});

test('problems are told with their place, and without one where they have none', () => {
  const problem = { field: 'weight', found: '2.2', message: 'a weight needs a unit' };
  expect(problemsText([{ ...problem, row: 3, line: 5 }])).toBe(
    'row 3 (line 5), weight: read "2.2"; a weight needs a unit\n',
  );
  expect(problemsText([{ field: 'day-sheet.csv', found: '', message: 'exists' }])).toBe(
    'day-sheet.csv: exists\n',
  );
  expect(problemsCsv([{ ...problem, row: 3, line: 5 }])).toBe(
    '\ufeffrow,field,found,message,line\r\n3,weight,2.2,a weight needs a unit,5\r\n',
  );
});

describe('one PDF out of many', () => {
  // one pixel, from memory
  const logo = Buffer.from(
    'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
    'base64',
  );

  async function card(text: string, pages = 1): Promise<string> {
    const doc = openDocument({ title: text, language: 'en', created: CREATED });
    const bytes = bytesOf(doc);
    for (let page = 0; page < pages; page++) {
      doc.addPage({ size: [200 + page, 300], margin: 0 });
      doc.image(logo, 10, 10, { width: 40 });
      doc.font('card-400', 12).text(`${text} ${page}`, 20, 100, { lineBreak: false });
    }
    doc.end();
    const file = path.join(folder, `${text}.pdf`);
    await writeFile(file, await bytes);
    return file;
  }

  const contentOf = (document: PDFDocument): string[] =>
    document.getPages().map(({ node }) => {
      const stream = document.context.lookup(node.get(PDFName.of('Contents')));
      return stream instanceof PDFRawStream ? Buffer.from(stream.contents).toString('latin1') : '';
    });

  const images = (document: PDFDocument): number =>
    document.context
      .enumerateIndirectObjects()
      .filter(
        ([, object]) =>
          object instanceof PDFRawStream &&
          object.dict.get(PDFName.of('Subtype')) === PDFName.of('Image'),
      ).length;

  test('has their pages, drawn as they were, in order, and what they share once', async () => {
    const files = [await card('one'), await card('two', 3), await card('three')];
    const target = path.join(folder, 'all.pdf');
    const digest = await combinePdfs(files, target, 'Cook cards: Żak');
    const bytes = await readFile(target);
    expect(createHash('sha256').update(bytes).digest('hex')).toBe(digest);

    const all = await PDFDocument.load(bytes, { updateMetadata: false });
    const sources = await Promise.all(
      files.map(async (file) => PDFDocument.load(await readFile(file))),
    );
    expect(all.getTitle()).toBe('Cook cards: Żak');
    expect(contentOf(all)).toEqual(sources.flatMap(contentOf));
    expect(contentOf(all)[0].length).toBeGreaterThan(20);
    expect(all.getPages().map((page) => page.getWidth())).toEqual([200, 200, 201, 202, 200]);
    // the picture and its mask, on each of five pages
    expect(sources.reduce((sum, source) => sum + images(source), 0)).toBe(10);
    expect(images(all)).toBe(2);
  });

  test('is written in the order asked for', async () => {
    const files = [await card('b'), await card('a', 2)];
    const there = path.join(folder, 'ab.pdf');
    await combinePdfs(files.toReversed(), there, 'x');
    const all = await PDFDocument.load(await readFile(there));
    expect(all.getPages().map((page) => page.getWidth())).toEqual([200, 201, 200]);
  });
});
