import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { PLAN_COLUMNS } from '../../packages/cli/src/commands/cards.js';
import { readCuttingOrders } from '../../packages/cli/src/read/cuttingOrders.js';
import { dataIn } from '../../packages/cli/src/read/dataFile.js';
import { type Problem, readOrders } from '../../packages/cli/src/read/orders.js';
import { readPlanOptions } from '../../packages/cli/src/read/planOptions.js';
import { kindPricesOf, PRICES, pricesOf } from '../../packages/cli/src/read/prices.js';
import { SETTINGS, withSettings } from '../../packages/cli/src/read/settings.js';
import { anyBytes, feed, must, mustBePrintable } from '../support/fuzz.js';

// Every reader of a file, against 20 000 files each. A reader of another kind of file is one more test.

const demo = (file: string): string =>
  readFileSync(new URL(`../../data/demo/${file}`, import.meta.url), 'utf8');

const joined = (bits: readonly string[], most: number): fc.Arbitrary<string> =>
  fc.array(fc.constantFrom(...bits), { maxLength: most }).map((parts) => parts.join(''));

describe('settings and prices', () => {
  const SHOP = `${demo('shop.yaml')}portion: 8oz\nunits: metric\ntrims: { chain: 9%, fat: 0.03 }\n`;
  const PRICE_LIST = demo('prices.yaml');
  const JSON_SHOP = JSON.stringify({
    name: 'Quillfeather',
    address: ['3 Thistledown Yard'],
    locale: 'en-GB',
    paper: 'a5',
    prices: { currency: 'EUR', per: 'kg', cuts: { whole: 52, centre: 72.5 } },
    trims: { chain: '9%', silverskin: 0.05 },
  });
  // what YAML is made of, good and bad
  const bits = joined(
    [
      ...[
        'name',
        'address',
        'locale',
        'oven',
        'prices',
        'cuts',
        'whole',
        'per',
        'currency',
        'trims',
      ],
      ...[
        ': ',
        ':\n',
        '\n',
        '\n  ',
        '\n- ',
        '- ',
        '? ',
        ', ',
        '[',
        ']',
        '{',
        '}',
        '"',
        "'",
        '|',
        '>',
      ],
      ...[
        '&a ',
        '*a',
        '*b',
        '<<: ',
        '!!binary ',
        '!x ',
        '%YAML 1.1\n---\n',
        '---\n',
        '...\n',
        '#',
        '\\',
      ],
      ...[
        '52',
        '-1',
        '1e308',
        '.inf',
        '.nan',
        '0x1F',
        'EUR',
        'kg',
        'lb',
        'null',
        '~',
        'yes',
        'en-GB',
      ],
      ...['\t', '\u0000', '\u001b', '\u2028', '\ufeff', '\ud800', '__proto__', 'é', '日本'],
    ],
    14,
  );
  const settings = { file: 'shop.yaml', option: '--settings', entry: 'setting' };

  test('settings', () => {
    const { read, refused } = feed(
      anyBytes([SHOP, JSON_SHOP], bits),
      (bytes) => dataIn(bytes, settings, SETTINGS),
      ['--settings'],
      (shop) => {
        const { name = 'x', address = [], footer = '' } = shop;
        must(name !== '' && name.length <= 160, 'no name', name);
        for (const line of [name, footer, ...address]) mustBePrintable(line);
        must(typeof withSettings({}, shop) === 'object', 'no words', shop);
      },
    );
    expect(read).toBeGreaterThan(500);
    expect(refused).toBeGreaterThan(500);
  });

  test('price lists', () => {
    const { read, refused } = feed(
      anyBytes(
        [PRICE_LIST, JSON.stringify({ currency: 'USD', per: 'lb', cuts: { whole: 24 } })],
        bits,
      ),
      (bytes) => {
        const list = dataIn(bytes, { file: 'p', option: '--prices', entry: 'key' }, PRICES);
        return [pricesOf(list), kindPricesOf(list.cuts, '--prices')] as const;
      },
      ['--prices'],
      ([{ perKg }, kinds]) => {
        for (const price of [...Object.values(perKg), ...Object.values(kinds)]) {
          must(price >= 0, 'not a price', price);
        }
      },
    );
    expect(read).toBeGreaterThan(500);
    expect(refused).toBeGreaterThan(500);
  });

  /** Files that ended the process or its patience once, or are made to. */
  test.each([
    ['brackets without end', '['.repeat(100_000)],
    ['braces without end', '{a: '.repeat(100_000)],
    ['lists in lists on one line', '- '.repeat(20_000)],
    ['keys of keys', '? '.repeat(20_000)],
    ['steps without end', Array.from({ length: 1000 }, (_, i) => `${' '.repeat(i)}a:\n`).join('')],
    ['brackets behind quotation marks', '[ "]", '.repeat(50_000)],
    ['an alias of nothing', 'name: *nobody'],
    ['an alias of itself', 'address: &a [*a]'],
    [
      'aliases that multiply',
      ['a: &a [x,x,x,x,x,x,x,x,x]']
        .concat(
          [...'bcdefghi'].map(
            (key, i) => `${key}: &${key} [${Array(9).fill(`*${'abcdefgh'[i]}`).join(',')}]`,
          ),
        )
        .join('\n'),
    ],
    ['a merge of no map', '%YAML 1.1\n---\n<<: 3'],
    ['a key that is a list', '? [1, 2]\n: 3'],
    ['two documents', 'oven: 200C\n---\noven: 220C'],
    ['the prototype', '__proto__: { oven: 200C }'],
    ['a price beyond numbers', 'prices: {currency: EUR, per: lb, cuts: {whole: 1e308}}'],
    ['characters of another encoding', Buffer.from('name: B\u00e4cker', 'latin1')],
  ])('%s: refused in one line', (_what, text) => {
    const bytes = typeof text === 'string' ? Buffer.from(text) : text;
    const { read, refused } = feed(
      fc.constant(bytes),
      (content) => dataIn(content, settings, SETTINGS),
      ['--settings'],
      () => undefined,
      1,
    );
    expect([read, refused]).toEqual([0, 1]);
  });

  test('forty levels are not too deep to be read', () => {
    const deep = `${'['.repeat(40)}${']'.repeat(40)}`;
    expect(() => dataIn(Buffer.from(`oven: ${deep}`), settings, SETTINGS)).toThrow(/oven: /);
  });
});

describe('tables of orders', () => {
  const HEADER = 'name,pick up,weight,cut,oven,fan,doneness,serve,sear,girth,guests,note\n';
  const GOOD = [
    `${HEADER}Anna,2026-12-22 09:00,2.2kg,,230C,,,18:30,,,,\n`,
    `${HEADER}Bo,24.12.2026,"2,2kg",centre,425F,yes,rare,6pm,pan,,"3 rare, 1 medium",=1+1\n`,
    'Name;Weight;Oven\r\n"Bo; Ek";4lb 8oz;200C\r\nÇiğdem;1,1kg;160C\r\n',
    'weight\toven\tat risk\n1.1kg\t160C\tyes\n',
  ];
  const bits = joined(
    [
      ...[
        'name',
        'weight',
        'oven',
        'cut',
        'serve',
        'pick up',
        'at risk',
        'sear',
        'pieces',
        'thickness',
      ],
      ...[',', ';', '\t', '\n', '\r', '\r\n', '"', '""', "'", ' ', '\u0000', '\ufeff', '\ud800'],
      ...[
        '2.2kg',
        '23C',
        '230C',
        'yes',
        'no',
        'whole',
        'steak',
        'tips',
        '18:30',
        '2026-12-24',
        '=1+1',
      ],
      ...['\u001b[2J', '\u202e', '日本', '__proto__', 'constructor'],
    ],
    20,
  );

  function mustTell(problems: readonly Problem[]): void {
    for (const { message, field, found, row = 0, line = 0 } of problems) {
      for (const text of [message, field, found]) mustBePrintable(text);
      must(message !== '' && field !== '', 'says nothing', { message, field });
      must(row >= 1 && line >= 2, 'is of no row', { row, line });
    }
  }

  test('orders for cards', () => {
    let orders = 0;
    let problems = 0;
    const { refused } = feed(
      anyBytes(GOOD, bits),
      (bytes) => readOrders(bytes, 'orders', PLAN_COLUMNS),
      ['orders', 'column names'],
      (found) => {
        mustTell(found.problems);
        for (const { name = '', note = '', words } of found.orders) {
          mustBePrintable(name);
          mustBePrintable(note);
          readPlanOptions(words); // what was found good is good
        }
        orders += found.orders.length;
        problems += found.problems.length;
      },
    );
    expect(Math.min(orders, problems, refused)).toBeGreaterThan(500);
  });

  test('orders to be cut', () => {
    const cutting = 'name,pick up,cut,weight,pieces,thickness,note\n';
    let rows = 0;
    let problems = 0;
    const { refused } = feed(
      anyBytes(
        [
          `${cutting}Anna,2026-12-23,whole,2.2kg,,,\nBo,,steak,8oz,6,,\nCy,,steak,,4,4cm,\n`,
          'cut;weight;count\ncentre;1,1kg;x 2\ntrimmings;2lb;\nother;3kg;\n',
        ],
        bits,
      ),
      (bytes) => readCuttingOrders(bytes, 'orders', ['oven', 'serve']),
      ['orders', 'column names'],
      (found) => {
        mustTell(found.problems);
        for (const { name = '', order } of found.rows) {
          mustBePrintable(name);
          must(order.pieces >= 1, 'no piece', order);
        }
        rows += found.rows.length;
        problems += found.problems.length;
      },
    );
    expect(Math.min(rows, problems, refused)).toBeGreaterThan(500);
  });
});
