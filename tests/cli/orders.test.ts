import { RoastError } from '@roastsim/core';
import { stringify } from 'csv-stringify/sync';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cardFileName } from '../../packages/cli/src/pool/cardFileName.js';
import { type Order, type Orders, readOrders } from '../../packages/cli/src/read/orders.js';
import type { PlanColumn } from '../../packages/cli/src/read/ordersColumns.js';

const COLUMNS: readonly PlanColumn[] = [
  { name: 'weight', key: 'weight', holds: 'text' },
  { name: 'cut', key: 'cut', holds: 'text' },
  { name: 'girth', key: 'girth', holds: 'text' },
  { name: 'oven', key: 'oven', holds: 'text' },
  { name: 'bath', key: 'bath', holds: 'text' },
  { name: 'doneness', key: 'doneness', holds: 'text' },
  { name: 'scale', key: 'scale', holds: 'text' },
  { name: 'stages', key: 'stages', holds: 'text' },
  { name: 'serve', key: 'serve', holds: 'text' },
  { name: 'fan', key: 'fan', holds: 'flag' },
  { name: 'cold-oven', key: 'coldOven', holds: 'flag' },
  { name: 'sear', key: 'sear', holds: 'either' },
];

const read = (text: string | Uint8Array): Orders =>
  readOrders(typeof text === 'string' ? Buffer.from(text) : text, 'orders.csv', COLUMNS);

const only = ({ orders, problems }: Orders): Order => {
  expect(problems).toEqual([]);
  expect(orders).toHaveLength(1);
  return orders[0];
};

function refused(text: string | Uint8Array): RoastError {
  try {
    read(text);
  } catch (error) {
    expect(error).toBeInstanceOf(RoastError);
    return error as RoastError;
  }
  throw new Error('it was read');
}

const GOOD = 'weight,oven\n2.2kg,230C\n';

describe('the file', () => {
  const words = { weight: '2,2kg', oven: '230C' };

  test.each([
    ['semicolons', 'weight;oven\n2,2kg;230C\n'],
    ['tabs', 'weight\toven\n2,2kg\t230C\n'],
    ['commas and quotation marks', 'weight,oven\n"2,2kg","230C"\n'],
    ['a byte order mark', '\ufeffweight;oven\n2,2kg;230C\n'],
    ['lines ended as elsewhere', 'weight;oven\r\n2,2kg;230C\r\n'],
    ['lines ended in two ways', 'weight;oven\n2,2kg;230C\r\n'],
    ['no end of the last line', 'weight;oven\n2,2kg;230C'],
    ['space round the cells', ' weight ; oven \n 2,2kg ; 230C \n'],
    ['empty rows and cells at the end', '\nweight;oven;;\n\n2,2kg;230C;;\n;;;\n'],
  ])('may have %s', (_what, text) => {
    expect(only(read(text)).words).toEqual(words);
  });

  test('may be UTF-16 with a mark, as some spreadsheets write text', () => {
    const text = Buffer.from('\ufeffname\tweight\toven\nŻak\t2.2kg\t230C\n', 'utf16le');
    expect(only(read(text)).name).toBe('Żak');
  });

  test('keeps quotation marks, separators and line breaks that are part of a text', () => {
    const { orders } = read(
      'name,note,weight,oven\n"Lind, A.","say ""hello""\r\ntwice",2kg,230C\n',
    );
    expect(orders[0].name).toBe('Lind, A.');
    expect(orders[0].note).toBe('say "hello" twice');
  });

  test('takes a quotation mark inside a cell for inches', () => {
    const order = only(read('weight;oven;girth;note\n2.2kg;230C;10";a 10" pan\n'));
    expect(order.words.girth).toBe('10"');
    expect(order.note).toBe('a 10" pan');
  });

  test.each([
    ['nothing', '', 'missing', /it is empty/],
    ['blank lines', '\n\n;;\n', 'missing', /it is empty/],
    ['column names alone', 'weight,oven\n', 'missing', /no order in it/],
    [
      'a workbook',
      Buffer.from('PK\u0003\u0004 and so on'),
      'unreadable',
      /workbook.*save it as CSV/,
    ],
    ['a picture', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2]), 'unreadable', /UTF-8/],
    ['zeros', Buffer.alloc(40), 'unreadable', /no text file/],
    ['another encoding', Buffer.from('name\nRenée\n', 'latin1'), 'unreadable', /not UTF-8/],
    [
      'an open quotation mark',
      `${GOOD}"2.2kg,230C\n`,
      'unreadable',
      /row at line 3 and never closed/,
    ],
    ['prose', 'Dear shop,\nplease send a roast\n', 'unknown-name', /no column "Dear shop"/],
  ])('of %s is refused in one line', (_what, text, code, message) => {
    const error = refused(text);
    expect(error.code).toBe(code);
    expect(error.message).toMatch(message);
    expect(error.message).not.toContain('\n');
  });
});

describe('column names', () => {
  test('stand in any order; case, spaces, hyphens and underscores do not matter', () => {
    const order = only(
      read('OVEN, --Cold_Oven,Pick-Up ,Name,WEIGHT\n230C,yes,2026-12-24,Bo,2.2kg\n'),
    );
    expect(order).toMatchObject({
      name: 'Bo',
      pickUp: '2026-12-24',
      words: { oven: '230C', coldOven: true, weight: '2.2kg' },
    });
  });

  test('that are unknown are all told, with the nearest right one', () => {
    const error = refused('weigth,ovn,hobby\n2.2kg,230C,chess\n');
    expect(error.code).toBe('unknown-name');
    expect(error.message).toContain('"weigth" (did you mean weight?)');
    expect(error.message).toContain('"ovn" (did you mean oven?)');
    expect(error.message).toContain('"hobby"');
    expect(error.message).toContain('accepted: name, pick up, note, weight');
  });

  test('that stand twice are refused', () => {
    expect(refused('weight,oven,Weight\n2.2kg,230C,3kg\n').code).toBe('contradiction');
  });
});

describe('cells', () => {
  test.each([
    ['yes', true],
    ['Y', true],
    ['TRUE', true],
    ['1', true],
    ['x', true],
    ['no', undefined],
    ['N', undefined],
    ['false', undefined],
    ['0', undefined],
    ['-', undefined],
    ['', undefined],
  ])('a yes or no may be written %s', (cell, fan) => {
    expect(only(read(`weight,oven,fan\n2.2kg,230C,${cell}\n`)).words.fan).toBe(fan);
  });

  test.each([
    ['yes', true],
    ['no', undefined],
    ['oven', 'oven'],
  ])('an option that can do without a value may be %s', (cell, sear) => {
    expect(only(read(`weight,oven,sear\n2.2kg,230C,${cell}\n`)).words.sear).toBe(sear);
  });

  test('times may carry the seconds of a spreadsheet', () => {
    const order = only(
      read('weight,oven,serve,pick up\n2.2kg,230C,18:30:00,2026-12-24 10:30:00\n'),
    );
    expect(order.words.serve).toBe('18:30');
    expect(order.pickUp).toBe('2026-12-24T10:30');
  });

  test('a name loses what would turn or break the line, and keeps its letters', () => {
    const named = (name: string): string | undefined =>
      only(
        read(
          stringify([
            ['name', 'weight', 'oven'],
            [name, '2.2kg', '230C'],
          ]),
        ),
      ).name;
    expect(named('\u202egnp.exe\u0007 A')).toBe('gnp.exe A');
    expect(named('Zoe\u0308  \t Å')).toBe('Zoë Å');
    expect(named('\u200f')).toBeUndefined();
  });

  test('any name and note that is short enough comes through as it was, less its spaces', () => {
    const text = fc.string({ unit: 'grapheme', maxLength: 20 });
    fc.assert(
      fc.property(text, text, (name, note) => {
        const csv = stringify([
          ['note', 'oven', 'weight', 'name'],
          [note, '230C', '2.2kg', name],
        ]);
        const order = only(read(csv));
        const plain = (typed: string): string => typed.normalize('NFC').replace(/\s+/g, ' ').trim();
        expect(order.name ?? '').toBe(plain(name));
        expect(order.note ?? '').toBe(plain(note));
      }),
    );
  });
});

describe('slips', () => {
  const problemsOf = (row: string): [string, string][] =>
    read(`name,weight,oven,bath,doneness,scale,serve,pick up,girth,fan\n${row}\n`).problems.map(
      ({ field, message }) => [field, message],
    );

  test('are told with row, line and field, in the words of the table, and stop no other row', () => {
    const { orders, problems } = read(
      'name,weight,oven,note\nA,2.2kg,230C,"two\nlines"\n\nB,2.2,230C,\nC,2.2kg,,\nD,3kg,200C,\n',
    );
    expect(orders.map(({ name, row }) => [name, row])).toEqual([
      ['A', 1],
      ['D', 4],
    ]);
    expect(problems).toEqual([
      {
        row: 2,
        line: 5,
        field: 'weight',
        found: '2.2',
        message: expect.stringMatching(/^a weight needs a unit/),
      },
      {
        row: 3,
        line: 6,
        field: 'oven',
        found: '',
        message: 'the heat is missing; accepted: oven 230C, or bath 58C',
      },
    ]);
  });

  test('of one row are all told, and only those that are there', () => {
    expect(
      problemsOf('A,2.2,23C,,mediun,,half past six,03/04/2026,,perhaps').map(([field]) => field),
    ).toEqual(['fan', 'pick up', 'weight', 'oven', 'doneness', 'serve']);
    // a bath that cannot be read does not make the oven a missing one
    expect(problemsOf('A,2.2kg,,58X,,,,,,').map(([field]) => field)).toEqual(['bath']);
    // an unknown scale does not make its bands unknown
    expect(problemsOf('A,2.2kg,230C,,rare,kichen,,,,').map(([field]) => field)).toEqual(['scale']);
    // girths that fit the weight that was meant are not held against the one that stands in
    const fields = (table: string): string[] => read(table).problems.map(({ field }) => field);
    expect(fields('weight,stages\n2.2kg,ovn 230C\n')).toEqual(['stages']);
    expect(fields('weight,stages\n2.2,"ovn 230C, rest 5min"\n')).toEqual(['weight', 'stages']);
    expect(problemsOf('A,220,230C,,,,,,40cm,').map(([field]) => field)).toEqual(['weight']);
  });

  test('a date that can be read in two ways is told with both', () => {
    const [[field, message]] = problemsOf('A,2.2kg,230C,,,,,03/04/2026,,');
    expect(field).toBe('pick up');
    expect(message).toContain('2026-04-03');
    expect(message).toContain('2026-03-04');
    expect(problemsOf('A,2.2kg,230C,,,,,24/12/2026,,')).toEqual([]);
  });

  test('text beyond the last column is told, a missing end is not', () => {
    expect(read('weight,oven\n2,2kg,230C\n').problems.map(({ field }) => field)).toContain('cells');
    expect(read('weight,oven,name\n2.2kg,230C\n').problems).toEqual([]);
  });

  test('a name or note without end is told', () => {
    expect(problemsOf(`${'N'.repeat(81)},2.2kg,230C,,,,,,,`)).toEqual([
      ['name', expect.stringMatching(/81 characters.*at most 80/)],
    ]);
    expect(problemsOf(`${'N'.repeat(80)},2.2kg,230C,,,,,,,`)).toEqual([]);
  });
});

describe('names of files', () => {
  test.each([
    ['Anna Lind', '001-anna-lind.pdf'],
    ['Ελένη Παππά', '001-eleni-pappa.pdf'],
    ['Наталія Мороз', '001-nataliya-moroz.pdf'],
    ['Søren Åkerbæk', '001-soren-akerbaek.pdf'],
    ['../../etc/passwd', '001-etc-passwd.pdf'],
    ['C:\\con', '001-c-con.pdf'],
    ['日本', '001-order.pdf'],
    ['...', '001-order.pdf'],
    [undefined, '001-order.pdf'],
  ])('%s is %s', (name, file) => {
    expect(cardFileName(1, name, 'pdf')).toBe(file);
  });

  test('are safe and short whatever the name', () => {
    const name = fc.string({ unit: 'binary', maxLength: 120 });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), name, (row, text) => {
        const file = cardFileName(row, text, 'pdf');
        expect(file).toMatch(/^\d{3,6}-[a-z0-9]+(?:-[a-z0-9]+)*\.pdf$/);
        expect(file.length).toBeLessThanOrEqual(6 + 1 + 40 + 4);
      }),
    );
  });
});
