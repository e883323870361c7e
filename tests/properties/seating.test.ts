import { misfitOf, SCALES, seatGuests, settleWishes, type Wish } from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const scale = SCALES.kitchen;
const bandNames = scale.bands.map(({ name }) => name);
const anyWish: fc.Arbitrary<Wish> = fc.record(
  {
    doneness: fc.oneof(fc.constantFrom(...bandNames), fc.integer({ min: 35, max: 85 })),
    name: fc.string({ minLength: 1, maxLength: 8 }),
  },
  { requiredKeys: ['doneness'] },
);
const anyPeak = fc.double({ min: 40, max: 80, noNaN: true });
const anyTable = fc
  .array(anyWish, { minLength: 1, maxLength: 6 })
  .chain((wishes) =>
    fc.tuple(fc.constant(wishes), fc.array(anyPeak, { minLength: wishes.length, maxLength: 7 })),
  );

/** Least misfit of all ways to deal out slices [K], by trying every one. */
function leastByTrying(peakC: readonly number[], wishes: ReturnType<typeof settleWishes>): number {
  const taken = new Set<number>();
  const least = (guest: number): number => {
    if (guest === wishes.length) return 0;
    let best = Number.POSITIVE_INFINITY;
    for (let slice = 0; slice < peakC.length; slice++) {
      if (taken.has(slice)) continue;
      taken.add(slice);
      best = Math.min(best, misfitOf(wishes[guest], peakC[slice]) + least(guest + 1));
      taken.delete(slice);
    }
    return best;
  };
  return least(0);
}

// the cost adds a ten-thousandth of a kelvin a missed wish and a millionth a kelvin off target, to choose among equals
const TIE_K = 6 * 1e-4 + 6 * 100 * 1e-6;

describe('guests at slices', () => {
  it('are seated at the least misfit there is', () => {
    fc.assert(
      fc.property(anyTable, ([wishes, peakC]) => {
        const settled = settleWishes(wishes, scale);
        const { misfitK } = seatGuests(peakC, settled);
        const least = leastByTrying(peakC, settled);
        expect(misfitK).toBeGreaterThanOrEqual(least - 1e-9);
        expect(misfitK).toBeLessThanOrEqual(least + TIE_K);
      }),
      { numRuns: 150 },
    );
  });

  it('each have a slice of their own, and every other slice is spare', () => {
    fc.assert(
      fc.property(anyTable, ([wishes, peakC]) => {
        const { places, spare, met } = seatGuests(peakC, settleWishes(wishes, scale));
        const all = [...places.map(({ slice }) => slice), ...spare].sort((a, b) => a - b);
        expect(all).toEqual(peakC.map((_, i) => i));
        expect(places).toHaveLength(wishes.length);
        expect(met).toBe(places.filter(({ missK }) => missK === 0).length);
        for (const { wish, peakCentreC, missK } of places) {
          expect(Math.abs(missK)).toBe(misfitOf(wish, peakCentreC));
        }
      }),
    );
  });

  it('get the same slices whatever the order of the wishes', () => {
    fc.assert(
      fc.property(anyTable, fc.infiniteStream(fc.nat()), ([wishes, peakC], keys) => {
        const shuffled = wishes
          .map((wish) => ({ wish, key: keys.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ wish }) => wish);
        const seat = (list: readonly Wish[]) => seatGuests(peakC, settleWishes(list, scale));
        expect(seat(shuffled)).toEqual(seat(wishes));
      }),
    );
  });

  it('are never worse off with one more slice to choose from', () => {
    fc.assert(
      fc.property(anyTable, anyPeak, ([wishes, peakC], more) => {
        const settled = settleWishes(wishes, scale);
        const before = seatGuests(peakC, settled).misfitK;
        expect(seatGuests([...peakC, more], settled).misfitK).toBeLessThanOrEqual(before + TIE_K);
      }),
    );
  });

  it('cannot be more than the slices', () => {
    const settled = settleWishes([{ doneness: 'rare' }, { doneness: 'rare' }], scale);
    expect(() => seatGuests([52], settled)).toThrow(
      expect.objectContaining({ code: 'contradiction', path: ['guests'] }),
    );
  });
});

describe('wishes', () => {
  it('meet their band from edge to edge, a temperature within 1.5 K', () => {
    const [rare, exact] = settleWishes([{ doneness: 'rare' }, { doneness: 60 }], scale);
    expect([rare.fromC, rare.toC, rare.targetC]).toEqual([49, 53, 50]);
    expect([exact.fromC, exact.toC, exact.band.name]).toEqual([58.5, 61.5, 'medium']);
    expect(misfitOf(rare, 48)).toBe(1);
    expect(misfitOf(rare, 55)).toBe(2);
  });

  it.each([
    [{ doneness: 'raw' }, 'unknown-name'],
    [{ doneness: 20 }, 'out-of-range'],
    [{ doneness: Number.NaN }, 'not-a-number'],
  ] as const)('refuse %j', (wish, code) => {
    expect(() => settleWishes([wish], scale)).toThrow(expect.objectContaining({ code }));
  });

  it('take 1 to 100 guests', () => {
    expect(() => settleWishes([], scale)).toThrow(expect.objectContaining({ code: 'missing' }));
    const many = Array.from({ length: 101 }, () => ({ doneness: 'rare' }));
    expect(() => settleWishes(many, scale)).toThrow(
      expect.objectContaining({ code: 'out-of-range' }),
    );
  });
});
