import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { roastsim } from '../support/cli.js';
import { roastsimInside } from '../support/cliInside.js';

const GOOD = ['order', '--guests', '8'];
const widest = (text: string): number => Math.max(...text.split('\n').map((l) => [...l].length));

const oneLine = (text: string): string => text.replace(/\s+/g, ' ');

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'roastsim-order-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function file(text: string, name: string): Promise<string> {
  const full = path.join(folder, name);
  await writeFile(full, text);
  return full;
}

const EUROS =
  'currency: EUR\nper: kg\ncuts:\n  centre: 72\n  butt: 60\n  whole: 52\n  untrimmed: 34\n';
const DOLLARS = '{"currency": "USD", "per": "lb", "cuts": {"whole": 10, "centre": 20}}';

describe('the order in words', () => {
  test('begins with what to ask for, and says why, what comes off, and how to tie it', async () => {
    const { code, stdout, stderr } = await roastsim(GOOD);
    expect(code).toBe(0);
    expect(stderr).toBe('');
    const [ask, why] = stdout.split('\n');
    expect(ask).toBe('Ask for a centre cut of 1.85 kg, trimmed.');
    expect(why).toMatch(/^ {2}It comes out nearest to the wish: \d of 8 slices as wished/);
    expect(stdout).toMatch(/^> centre cut +1\.85 kg/m);
    expect(stdout).toMatch(/side muscle \(chain\) +\d+ g/);
    expect(stdout).toMatch(/fold the last 12 cm/);
    expect(stdout).toMatch(/m of twine/);
    expect(stdout).toMatch(/^! Below whole-cut guidance/m);
    expect(stdout).toMatch(/^! The folded tail has outside surface in its middle/m);
    expect(stdout).toMatch(/^Assumed: /m);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: an escape is what must not be there
    expect(stdout).not.toMatch(/\u001b/);
  });

  test.each<[string, readonly string[]]>([
    ['metric', ['--guests', '8']],
    ['US units with leftovers', ['--guests', '9', '--leftovers', '3oz', '--children', '2']],
    ['wishes', ['--guests', '3 rare, 4 medium-rare, 1 medium-well']],
    ['a stock', ['--guests', '12', '--stock', '2.4kg; 2,6kg, 1.2kg, 1.3kg', '--oven', '120C']],
    ['a feast', ['--guests', '480', '--units', 'us']],
    ['one guest', ['--guests', '1', '--doneness', 'well-done']],
    ['another scale', ['--guests', '4 medium', '--scale', 'amsa']],
  ])('%s stays within 80 columns, with prices too', async (_what, args) => {
    const prices = await file(DOLLARS, 'wide.json');
    for (const more of [[], ['--prices', prices]]) {
      const { code, stdout, stderr } = await roastsim(['order', ...args, ...more]);
      expect(stderr).toBe('');
      expect(code).toBe(0);
      expect(widest(stdout)).toBeLessThanOrEqual(80);
    }
  });

  test('three guests: a pound and a half', async () => {
    const { stdout } = await roastsim(['order', '--guests', '3', '--units', 'us']);
    expect(stdout).toMatch(/^Ask for a centre cut of 1½ lb, trimmed\./);
  });

  test('children eat half, or as said, and are at risk', async () => {
    const half = await roastsim([...GOOD, '--children', '4']);
    expect(half.stdout).toContain('For 8 guests and 4 children: 10 portions');
    expect(half.stdout).toContain('a child eats half a portion');
    expect(half.stdout).toMatch(/^! Young children are among those most at risk/m);
    const full = await roastsim([...GOOD, '--children', '4', '--appetite', '100%']);
    expect(full.stdout).toContain(': 12 portions');
  });

  test('answers in the units typed', async () => {
    expect((await roastsim([...GOOD, '--portion', '6oz'])).stdout).toMatch(/^Ask for .* lb/);
    expect((await roastsim([...GOOD, '--portion', '6oz', '--units', 'metric'])).stdout).toMatch(
      /^Ask for .* kg/,
    );
  });

  test('quiet: what to ask for and the notices', async () => {
    const { stdout } = await roastsim([...GOOD, '--quiet']);
    expect(stdout).toMatch(/^Ask for a centre cut of 1\.85 kg, trimmed\.\n! Below whole-cut/);
    expect(stdout).not.toContain('Assumed');
  });
});

describe('prices', () => {
  test('by the kilogram, in the currency of the list', async () => {
    const { stdout } = await roastsim([...GOOD, '--prices', await file(EUROS, 'prices.yaml')]);
    expect(stdout).toMatch(/> centre cut .*€133\.20 +€16\.34/);
    expect(stdout).toMatch(/untrimmed .*€91\.80/);
    expect(oneLine(stdout)).toContain('a whole tenderloin cleaned at home would save €41.40.');
  });

  test('by the pound; a cut without a price has a dash', async () => {
    const prices = await file(DOLLARS, 'prices.json');
    const { stdout } = await roastsim([...GOOD, '--units', 'us', '--prices', prices]);
    expect(stdout).toMatch(/whole +4 lb .*\$40\.00 +\$5\.00/);
    expect(stdout).toMatch(/butt end .* - +-$/m);
  });

  test('from the settings, in their language, and overruled by a list', async () => {
    const settings = await file(
      `locale: de-DE\nportion: 200g\nprices:\n${EUROS.replace(/^/gm, '  ')}\ntrims:\n  fat: 6%\n`,
      'shop.yaml',
    );
    const { stdout } = await roastsim([...GOOD, '--settings', settings]);
    expect(stdout).toContain('8 portions of 200 g raw');
    expect(stdout).toMatch(/> centre cut .*115,20 €/);
    expect(stdout).toContain('Untrimmed, about 23 % comes off');
    const listed = await roastsim([
      ...GOOD,
      '--settings',
      settings,
      '--prices',
      await file(DOLLARS, 'other.json'),
    ]);
    expect(listed.stdout).not.toContain('€');
  });
});

/** What is wrong, the arguments, and a word the one line must hold. */
const WRONG: readonly (readonly [what: string, args: readonly string[], mentions: RegExp])[] = [
  ['nobody', [], /--guests.*missing/],
  ['no guests', ['--guests', '0'], /--guests.*nobody/],
  ['half a guest', ['--guests', '2.5'], /--guests/],
  ['a word', ['--guests', 'many'], /--guests.*there is no such name/],
  ['a town', ['--guests', '9999'], /--guests.*500/],
  ['an unknown band', ['--guests', '3 purple'], /--guests.*medium-rare/],
  ['a misspelt band', ['--guests', '3 medum'], /--guests.*did you mean medium/],
  ['an empty wish', ['--guests', '3 rare,,2 medium'], /--guests/],
  ['an empty text', ['--guests', ''], /--guests.*nothing/],
  ['wishes and a doneness', ['--guests', '3 rare', '--doneness', 'medium'], /--doneness.*guests/],
  ['children in halves', [...GOOD.slice(1), '--children', '1.5'], /--children.*whole/],
  ['an appetite without children', [...GOOD.slice(1), '--appetite', '0.5'], /--appetite/],
  ['an appetite for two', [...GOOD.slice(1), '--children', '1', '--appetite', '2'], /--appetite/],
  [
    'no appetite',
    [...GOOD.slice(1), '--children', '1', '--appetite', '0'],
    /--children|--appetite/,
  ],
  [
    'an appetite in ounces',
    [...GOOD.slice(1), '--children', '1', '--appetite', '4oz'],
    /--appetite/,
  ],
  ['a portion without a unit', [...GOOD.slice(1), '--portion', '227'], /--portion.*227/],
  ['a portion of an ox', [...GOOD.slice(1), '--portion', '5kg'], /--portion.*0\.02 to 2/],
  ['leftovers without a unit', [...GOOD.slice(1), '--leftovers', '3'], /--leftovers/],
  ['leftovers for a week', [...GOOD.slice(1), '--leftovers', '2kg'], /--leftovers.*0 to 1/],
  ['a stock without units', [...GOOD.slice(1), '--stock', '2.4, 2.6'], /--stock/],
  ['a gap in the stock', [...GOOD.slice(1), '--stock', '2.4kg,,2.6kg'], /--stock.*separator/],
  ['an ox in stock', [...GOOD.slice(1), '--stock', '400kg'], /--stock.*12/],
  ['an oven too cold', [...GOOD.slice(1), '--oven', '23C'], /--oven.*60 to 320/],
  [
    'a wish no oven meets',
    [...GOOD.slice(1), '--oven', '60C', '--doneness', 'well-done'],
    /--doneness/,
  ],
  ['an unknown scale', [...GOOD.slice(1), '--scale', 'mine'], /--scale.*kitchen/],
  ['unknown units', [...GOOD.slice(1), '--units', 'imperial'], /--units.*metric/],
  ['an unknown option', [...GOOD.slice(1), '--guest', '8'], /--guest/],
  ['no such price list', [...GOOD.slice(1), '--prices', 'nowhere.yaml'], /--prices.*nowhere/],
  ['no such settings', [...GOOD.slice(1), '--settings', 'nowhere.yaml'], /--settings.*nowhere/],
];

/** What is wrong with a price list, and a word the one line must hold. */
const WRONG_LISTS: readonly (readonly [what: string, text: string, mentions: RegExp])[] = [
  ['no YAML', 'currency: "EUR\n: {', /line \d+ is not YAML/],
  ['nothing in it', '', /currency/],
  ['a currency that is none', EUROS.replace('EUR', 'EURO'), /currency.*ISO 4217/],
  ['no unit', EUROS.replace('per: kg\n', ''), /per/],
  ['another unit', EUROS.replace('kg', 'stone'), /per.*kg/],
  ['a misspelt cut', EUROS.replace('centre', 'center'), /cuts: there is no key "center".*centre/],
  ['a misspelt key', EUROS.replace('currency', 'curency'), /"curency".*did you mean currency/],
  ['no price at all', 'currency: EUR\nper: kg\ncuts: {}\n', /cuts.*a price/],
  ['a word for a price', EUROS.replace('72', 'dear'), /cuts\.centre.*a price/],
  ['money back', EUROS.replace('72', '-72'), /cuts\.centre.*0 or more/],
  ['endless money', EUROS.replace('72', '.inf'), /cuts\.centre/],
];

describe('wrong input: one line, exit 2, no stack', () => {
  test.each(WRONG)('%s', async (_what, args, mentions) => {
    const { code, stdout, stderr } = await roastsimInside(['order', ...args]);
    expect(stderr).toMatch(mentions);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr.trim().split('\n')).toHaveLength(1);
    expect(stderr).toMatch(/^roastsim: /);
    expect(stderr).not.toMatch(/\n\s+at /);
  });

  test.each(WRONG_LISTS)('a price list with %s', async (_what, text, mentions) => {
    const prices = await file(text, 'wrong.yaml');
    const { code, stdout, stderr } = await roastsimInside([...GOOD, '--prices', prices]);
    expect(stderr).toMatch(/^roastsim: --prices: /);
    expect(stderr).toMatch(mentions);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr.trim().split('\n')).toHaveLength(1);
  });

  test.each([
    ['a misspelt part', 'trims:\n  chian: 10%\n', /trims: .*"chian".*did you mean chain/],
    ['a share above all', 'trims:\n  fat: 160%\n', /trims\.fat.*160%/],
    ['nearly everything cut off', 'trims:\n  fat: 90%\n', /0 to 0\.6/],
    ['a wrong price', 'prices:\n  currency: EUR\n  per: kg\n  cuts: {whole: x}\n', /cuts\.whole/],
  ])('settings with %s', async (_what, text, mentions) => {
    const settings = await file(text, 'wrong-shop.yaml');
    const { code, stderr } = await roastsim([...GOOD, '--settings', settings]);
    expect(code).toBe(2);
    expect(stderr).toMatch(/^roastsim: --settings/);
    expect(stderr).toMatch(mentions);
    expect(stderr.trim().split('\n')).toHaveLength(1);
  });
});
