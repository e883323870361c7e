import { readFileSync } from 'node:fs';
import { RoastError } from '@roastsim/core';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { readFreedoms, readGuests } from '../../packages/cli/src/read/readGuests.js';
import { roastsim } from '../support/cli.js';

const GOOD = ['--weight', '2.2kg', '--oven', '230C'];
const WISHES = '3 rare, 4 medium-rare, 1 medium-well';
const widest = (text: string): number => Math.max(...text.split('\n').map((l) => [...l].length));
const schema = JSON.parse(
  readFileSync(new URL('../../docs/plan.schema.json', import.meta.url), 'utf8'),
);
const validate = new Ajv2020({ strict: true, allErrors: true }).compile(schema);

const read = (text: string) => readGuests(text, 'kitchen', '--guests');

describe('wishes in words', () => {
  test.each([
    ['2', [{}, {}]],
    ['2 guests', [{}, {}]],
    ['rare', [{ doneness: 'rare' }]],
    [
      '2 rare, 1 Medium Rare',
      [{ doneness: 'rare' }, { doneness: 'rare' }, { doneness: 'medium-rare' }],
    ],
    ['1 rare and 1 medium', [{ doneness: 'rare' }, { doneness: 'medium' }]],
    [
      '1 rare + 1 medium; 1 well done',
      [{ doneness: 'rare' }, { doneness: 'medium' }, { doneness: 'well-done' }],
    ],
    ['2 at 60C', [{ doneness: 60 }, { doneness: 60 }]],
    ['140F', [{ doneness: 60 }]],
    [
      'Ada: rare, Bo: 60 °C',
      [
        { name: 'Ada', doneness: 'rare' },
        { name: 'Bo', doneness: 60 },
      ],
    ],
    ['2 x rare', [{ doneness: 'rare' }, { doneness: 'rare' }]],
  ])('%s', (text, guests) => {
    const seen = read(text).map((guest) =>
      typeof guest.doneness === 'number'
        ? { ...guest, doneness: Number(guest.doneness.toFixed(6)) }
        : guest,
    );
    expect(seen).toEqual(guests);
  });

  test.each([
    '',
    ' ',
    ',',
    '0',
    '101',
    '3 raree',
    'Ada:',
    ': rare',
    '2 at 60',
    '99 rare, 2 medium',
  ])('refuses "%s"', (text) => {
    expect(() => read(text)).toThrow(RoastError);
  });

  it('ends in guests or one clear error, whatever is typed', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ maxLength: 60 }),
          fc
            .array(
              fc.constantFrom('3', ' ', 'rare', ',', ':', 'at', '60C', '-', '×', 'and', '1e9'),
              { maxLength: 12 },
            )
            .map((parts) => parts.join('')),
        ),
        (text) => {
          try {
            const guests = read(text);
            expect(guests.length).toBeGreaterThan(0);
            expect(guests.length).toBeLessThanOrEqual(100);
          } catch (error) {
            expect(error).toBeInstanceOf(RoastError);
            expect((error as RoastError).message).toMatch(/^--guests: /);
            expect((error as RoastError).message).not.toMatch(/[\r\n]/);
          }
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('what may vary is read in any order', () => {
    expect(readFreedoms('fold, oven', '--vary')).toEqual(['oven', 'fold']);
    expect(readFreedoms('all', '--vary')).toEqual(['oven', 'sear', 'fold', 'carving']);
    expect(() => readFreedoms('ovn', '--vary')).toThrow(
      expect.objectContaining({ hint: 'did you mean oven?' }),
    );
  });
});

describe('guests at a plan', () => {
  test('each get a slice, within 80 columns', async () => {
    const { code, stdout, stderr } = await roastsim([...GOOD, '--guests', WISHES]);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/Who gets which slice: \d of 8 as wished/);
    expect(stdout.match(/ for (rare|medium-rare|medium-well)/g)).toHaveLength(8);
    expect(stdout.match(/left over/g)).toHaveLength(2);
    expect(stdout).toMatch(/Below whole-cut guidance/);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
  });

  test('decide the pull when asked, and hear what would meet more wishes', async () => {
    const { stdout } = await roastsim([...GOOD, '--guests', WISHES, '--at', 'guests']);
    expect(stdout.replace(/\s+/g, ' ')).toMatch(/wanted 3 rare, 4 medium-rare, 1 medium-well/);
    expect(stdout).toMatch(/To meet more wishes/);
    expect(stdout).toMatch(/Next best:/);
    expect(stdout).toMatch(/Below whole-cut guidance/);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
  });

  test.each([
    ['as asked', []],
    ['decided by the guests', ['--at', 'guests', '--leftovers', '100g']],
    ['with all freedom', ['--at', 'guests', '--vary', 'all']],
    ['under strict rules', ['--at', 'guests', '--at-risk']],
  ])('in JSON, %s', async (_name, more) => {
    const { code, stdout } = await roastsim([...GOOD, '--guests', WISHES, '--json', ...more]);
    expect(code).toBe(0);
    const document = JSON.parse(stdout);
    validate(document);
    expect(validate.errors).toBeNull();
    expect(document.guests.count).toBe(8);
    expect(
      document.slices.filter(({ guest }: { guest?: string }) => guest !== undefined),
    ).toHaveLength(8);
  });

  test('more guests than portions get equal parts', async () => {
    const { stdout } = await roastsim([...GOOD, '--guests', '14', '--json']);
    const { slices } = JSON.parse(stdout);
    expect(slices).toHaveLength(14);
    expect(slices[0].rawKg).toBeCloseTo(2.2 / 14, 3);
  });

  test.each([
    ['--at', ['--at', 'guests']],
    ['--vary', ['--guests', '4', '--vary', 'oven']],
    ['--within', ['--within', '2h']],
    ['--leftovers', ['--leftovers', '3oz']],
    ['--doneness', ['--guests', '4', '--at', 'guests', '--doneness', 'rare']],
    ['--pull', ['--guests', '4', '--at', 'guests', '--pull', '50C']],
    ['--guests', ['--guests', '4 at 20C']],
    ['--within', ['--guests', '4 rare', '--at', 'guests', '--within', '40min']],
  ])('%s is pointed at when it is wrong', async (option, args) => {
    const { code, stdout, stderr } = await roastsim([...GOOD, ...args]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(new RegExp(`^roastsim: ${option}: .*\n$`));
  });
});
