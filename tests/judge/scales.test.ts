import {
  bandIndex,
  bandNamed,
  bandOf,
  donenessScale,
  doneThroughC,
  misfitOf,
  SCALES,
  type Scale,
  type SettledWish,
  seatGuests,
  settleWishes,
  upperEdge,
} from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { errorOf } from '../support/errorOf.js';

describe.each(Object.values(SCALES))('the $name scale', (scale: Scale) => {
  test('has edges that rise from none, and every target within its band', () => {
    expect(scale.bands[0].fromC).toBe(Number.NEGATIVE_INFINITY);
    for (const [i, { fromC, targetC, name }] of scale.bands.entries()) {
      const toC = upperEdge(scale, i);
      expect(toC, name).toBeGreaterThan(fromC);
      expect(targetC, name).toBeGreaterThanOrEqual(fromC);
      expect(targetC, name).toBeLessThan(toC);
      expect(bandOf(scale, targetC).name).toBe(name);
      expect(bandIndex(scale, targetC)).toBe(i);
    }
    expect(upperEdge(scale, scale.bands.length - 1)).toBe(Number.POSITIVE_INFINITY);
  });

  test('an edge belongs to the band above it', () => {
    for (const [i, { fromC }] of scale.bands.entries()) {
      if (i === 0) continue;
      expect(bandIndex(scale, fromC)).toBe(i);
      expect(bandIndex(scale, fromC - 1e-9)).toBe(i - 1);
    }
    expect(bandIndex(scale, -50)).toBe(0);
    expect(bandIndex(scale, 200)).toBe(scale.bands.length - 1);
  });

  test('names its source, and the band that is done through', () => {
    expect(scale.source.length).toBeGreaterThan(100);
    expect(doneThroughC(scale)).toBe(bandNamed(scale, 'well-done').fromC);
  });

  test('a name may be written in any way; another is refused with all of them', () => {
    for (const name of ['Medium Rare', 'medium_rare', 'MEDIUM-RARE', 'mediumrare']) {
      expect(bandNamed(scale, name).name).toBe('medium-rare');
    }
    const error = errorOf(() => bandNamed(scale, 'purple'));
    expect(error).toMatchObject({ code: 'unknown-name', path: ['doneness'], found: 'purple' });
    expect(error.message).toContain(`no doneness "purple" on the ${scale.name} scale`);
    expect(error.accepted).toBe(scale.bands.map(({ name }) => name).join(', '));
  });
});

describe('a scale of one’s own', () => {
  const house: Scale = {
    name: 'house',
    source: 'what our guests say',
    bands: [
      { name: 'pink', fromC: Number.NEGATIVE_INFINITY, targetC: 55 },
      { name: 'done', fromC: 62, targetC: 66 },
    ],
    doneThrough: 'done',
  };
  const bands = (...list: (readonly [name: string, fromC: number, targetC: number])[]): Scale => ({
    ...house,
    bands: list.map(([name, fromC, targetC]) => ({ name, fromC, targetC })),
    doneThrough: list.at(-1)?.[0] ?? 'done',
  });

  test('is taken as it is', () => {
    expect(donenessScale(house)).toBe(house);
    expect(donenessScale(bands(['all', -Infinity, 55])).bands).toHaveLength(1);
    // a target on the lower edge is inside
    expect(donenessScale(bands(['a', -Infinity, 55], ['b', 60, 60])).name).toBe('house');
  });

  test.each<[string, Scale]>([
    ['no band', bands()],
    ['no name', { ...house, name: '' }],
    ['a band without a name', bands(['pink', -Infinity, 55], ['', 62, 66])],
  ])('%s is missing', (_what, scale) => {
    expect(errorOf(() => donenessScale(scale))).toMatchObject({
      code: 'missing',
      path: ['bands'],
      found: scale.bands.length,
      accepted: 'a name and one band or more, each with a name',
      message: 'a doneness scale needs a name, and bands with names',
    });
  });

  test.each<[string, Scale, number]>([
    ['a first band from somewhere', bands(['a', 40, 55]), 0],
    ['edges that fall', bands(['a', -Infinity, 50], ['b', 60, 62], ['c', 55, 70]), 1],
    ['edges that stand', bands(['a', -Infinity, 50], ['b', 60, 60], ['c', 60, 70]), 1],
    ['a target below its band', bands(['a', -Infinity, 50], ['b', 60, 59]), 1],
    ['a target on the edge above', bands(['a', -Infinity, 60], ['b', 60, 62]), 0],
    ['a target without end', bands(['a', -Infinity, -Infinity], ['b', 60, 62]), 0],
    ['one name twice', bands(['well done', -Infinity, 50], ['Well-Done', 60, 62]), 1],
  ])('%s does not fit', (_what, scale, index) => {
    const error = errorOf(() => donenessScale(scale));
    expect(error).toMatchObject({
      code: 'contradiction',
      path: ['bands', index],
      found: scale.bands[index],
      message: `the band "${scale.bands[index].name}" does not fit into the house scale`,
    });
    expect(error.accepted).toContain('edges that rise');
  });

  test('its band that is done through is one of them', () => {
    expect(errorOf(() => donenessScale({ ...house, doneThrough: 'cooked' })).code).toBe(
      'unknown-name',
    );
  });
});

describe('wishes', () => {
  const scale = SCALES.kitchen;

  test('of a band are met within it, of a temperature within 1.5 K', () => {
    const [rare, exact] = settleWishes([{ doneness: 'rare' }, { doneness: 54 }], scale);
    expect(rare).toStrictEqual({
      band: scale.bands[1],
      exact: false,
      fromC: 49,
      toC: 53,
      targetC: 50,
    });
    expect(exact).toEqual({
      band: scale.bands[2],
      exact: true,
      fromC: 52.5,
      toC: 55.5,
      targetC: 54,
    });
    expect([48, 49, 51, 53, 55].map((c) => misfitOf(rare, c))).toEqual([1, 0, 0, 0, 2]);
  });

  test('come rarest first, the narrower of one target before the wider, then by name', () => {
    const wishes = [
      { doneness: 'well-done', name: 'Zoe' },
      { doneness: 'rare', name: 'Bo' },
      { doneness: 'rare' },
      { doneness: 50, name: 'Cy' },
      { doneness: 'rare', name: 'Ada' },
    ];
    const order = (list: typeof wishes): (string | undefined)[] =>
      settleWishes(list, scale).map(({ name }) => name);
    expect(order(wishes)).toEqual(['Cy', undefined, 'Ada', 'Bo', 'Zoe']);
    expect(order([...wishes].reverse())).toEqual(order(wishes));
  });

  test('of guests of one kind come by name, whoever is told of first', () => {
    const names = ['Ada', 'Bo', 'Bo', 'Cy', 'Dee', 'Eve'];
    fc.assert(
      fc.property(fc.shuffledSubarray(names, { minLength: 2 }), (some) => {
        const settled = settleWishes(
          some.map((name) => ({ doneness: 'rare', name })),
          scale,
        );
        expect(settled.map(({ name }) => name)).toEqual(some.toSorted());
      }),
    );
  });

  test.each([
    [35, true],
    [34.9, false],
    [85, true],
    [85.1, false],
    [Number.NaN, false],
  ])('for %f °C', (doneness, taken) => {
    if (taken) {
      expect(settleWishes([{ doneness }], scale)[0].targetC).toBe(doneness);
      return;
    }
    const error = errorOf(() => settleWishes([{ doneness }], scale));
    expect(error.code).toBe(Number.isNaN(doneness) ? 'not-a-number' : 'out-of-range');
    expect(error.path).toEqual(['guests']);
    expect(error.message).toBe(`a guest wishes for ${doneness} °C; it can be 35 to 85 °C`);
    expect(error.accepted).toMatch(/^35 to 85 °C, or very-rare, rare, .*well-done$/);
  });

  test.each([
    [0, 'missing'],
    [1, undefined],
    [100, undefined],
    [101, 'out-of-range'],
  ])('of %i guests', (count, code) => {
    const wishes = Array.from({ length: count }, () => ({ doneness: 'rare' }));
    if (code === undefined) {
      expect(settleWishes(wishes, scale)).toHaveLength(count);
      return;
    }
    const error = errorOf(() => settleWishes(wishes, scale));
    expect(error).toMatchObject({
      code,
      path: ['guests'],
      found: count,
      accepted: '1 to 100 guests',
    });
    expect(error.message).toBe(`there are ${count} guests; there can be 1 to 100`);
  });
});

describe('seats', () => {
  const wishes = (...doneness: (string | number)[]) =>
    settleWishes(
      doneness.map((wish) => ({ doneness: wish })),
      SCALES.kitchen,
    );

  test('tell how far off each slice is, above and below', () => {
    const { places, met, misfitK, offTargetK, spare } = seatGuests(
      [47, 56, 72],
      wishes('rare', 'medium'),
    );
    // rare from 49: the first is 2 K too rare; medium from 58.5 to 64.5: the second is 2.5 K short, the third 7.5 K over
    expect(places.map(({ slice, missK, peakCentreC }) => [slice, missK, peakCentreC])).toEqual([
      [0, -2, 47],
      [1, -2.5, 56],
    ]);
    expect({ met, misfitK, spare }).toEqual({ met: 0, misfitK: 4.5, spare: [2] });
    expect(offTargetK).toBeCloseTo(3 + 5, 12);
    expect(seatGuests([70], wishes('medium')).places[0].missK).toBe(5.5);
  });

  /** A wish met up to a temperature, aimed at another. */
  const upTo = (toC: number, targetC: number): SettledWish => ({
    ...wishes('rare')[0],
    fromC: 40,
    toC,
    targetC,
  });

  test.each([[[52, 51]], [[51, 52]]])(
    'of equal sums, one guest far off rather than two a little off: %o',
    (peakC) => {
      // 1 K and 1 K, or 0 K and 2 K: the sums agree, the second leaves one guest content
      for (const table of [
        [upTo(50, 50), upTo(51, 50)],
        [upTo(51, 50), upTo(50, 50)],
      ]) {
        const { met, misfitK } = seatGuests(peakC, table);
        expect(misfitK).toBe(2);
        expect(met).toBe(1);
      }
    },
  );

  test('law: wishes that share an end or a target stay apart, and those of one wish sit in the order of the roast', () => {
    const kinds = [upTo(50, 45), upTo(52, 45), upTo(50, 48), { ...upTo(50, 45), fromC: 44 }];
    const anyTable = fc.tuple(
      fc.array(fc.constantFrom(...kinds.keys()), { minLength: 2, maxLength: 5 }),
      fc.array(fc.integer({ min: 40, max: 56 }), { minLength: 5, maxLength: 6 }),
    );
    fc.assert(
      fc.property(anyTable, ([guests, peakC]) => {
        const table = guests.toSorted().map((kind) => kinds[kind]);
        const { places, misfitK, offTargetK } = seatGuests(peakC, table);
        for (const kind of kinds) {
          const slices = places.filter(({ wish }) => wish === kind).map(({ slice }) => slice);
          expect(slices).toEqual(slices.toSorted((a, b) => a - b));
        }
        // the best of every way to deal them out: misfit first, then wishes met, then distance from the targets
        const costs = (dealt: readonly number[]): number =>
          dealt.reduce((sum, slice, guest) => {
            const missK = misfitOf(table[guest], peakC[slice]);
            const offK = Math.abs(peakC[slice] - table[guest].targetC);
            return sum + missK + (missK > 0 ? 1e-4 : 0) + 1e-6 * offK;
          }, 0);
        const deal = (dealt: number[]): number =>
          dealt.length === table.length
            ? costs(dealt)
            : Math.min(
                ...peakC.flatMap((_, slice) =>
                  dealt.includes(slice) ? [] : [deal([...dealt, slice])],
                ),
              );
        const found = costs(places.map(({ slice }) => slice));
        expect(found).toBeCloseTo(deal([]), 9);
        expect(misfitK).toBeLessThanOrEqual(found);
        expect(offTargetK).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 150 },
    );
  });

  test('of equal misfits, the centres nearer to the targets', () => {
    const { places } = seatGuests([57.9, 56, 60.5, 62], wishes('medium-rare', 'medium'));
    expect(places.map(({ slice }) => slice)).toEqual([1, 2]);
  });

  test('guests of one wish sit in the order of the roast', () => {
    const { places } = seatGuests(
      [56, 50.5, 56, 50.5],
      wishes('rare', 'rare', 'medium-rare', 'medium-rare'),
    );
    expect(places.map(({ slice }) => slice)).toEqual([1, 3, 0, 2]);
  });

  test('more guests than slices are refused', () => {
    const error = errorOf(() => seatGuests([50], wishes('rare', 'rare')));
    expect(error).toMatchObject({
      code: 'contradiction',
      path: ['guests'],
      found: 2,
      accepted: 'at most 1 guests',
    });
    expect(error.message).toBe('2 guests cannot share 1 slices');
  });
});
