import { RoastError } from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readDay } from '../../packages/cli/src/read/readDay.js';

describe('days', () => {
  test.each([
    ['2026-12-24', '2026-12-24'],
    ['24.12.2026', '2026-12-24'],
    ['4.1.2027', '2027-01-04'],
    ['24 Dec 2026', '2026-12-24'],
    ['24 December 2026', '2026-12-24'],
    ['24/12/2026', '2026-12-24'],
    ['12/24/2026', '2026-12-24'],
    ['05/05/2026', '2026-05-05'],
    ['2026-12-24 16:00', '2026-12-24T16:00'],
    ['2026-12-24T16:05', '2026-12-24T16:05'],
    ['24 Dec 2026 4:30pm', '2026-12-24T16:30'],
    ['24.12.2026, 16:00', '2026-12-24T16:00'],
    ['2028-02-29', '2028-02-29'],
  ])('%s is %s', (text, iso) => expect(readDay(text, '--pick-up')).toBe(iso));

  test.each([
    ['04/12/2026', 'contradiction', /2026-12-04 or 2026-04-12/],
    ['2026-02-30', 'not-a-number', /no day/],
    ['31/31/2026', 'not-a-number', /no day/],
    ['tomorrow', 'not-a-number', /no day/],
    ['', 'not-a-number', /nothing/],
    ['2026-12-24 25:00', 'out-of-range', /pick-up/],
    ['2026-12-24 16', 'missing-unit', /pick-up/],
  ])('%s is refused', (text, code, message) => {
    try {
      readDay(text, '--pick-up');
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(RoastError);
      expect(error).toMatchObject({ code, message: expect.stringMatching(message) });
    }
  });

  test('any text is a day or one clear error', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        try {
          expect(readDay(text, '--pick-up')).toMatch(/^\d{4}-\d\d-\d\d(T\d\d:\d\d)?$/);
        } catch (error) {
          expect(error).toBeInstanceOf(RoastError);
        }
      }),
      { numRuns: 2000 },
    );
  });
});
