import {
  areaAt,
  greatestDiameter,
  lengthOf,
  mirrored,
  type Profile,
  positionOfShare,
  scaled,
  volumeBetween,
  volumeOf,
} from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { foldTail, tied } from '../../packages/core/src/shape/index.js';
import { decimal } from '../support/anyCook.js';

/** Piecewise linear areas over 1 to 12 pieces, some centimetres long in all. */
const anySmooth: fc.Arbitrary<Profile> = fc
  .array(fc.tuple(decimal(0.01, 0.1), decimal(2e-4, 8e-3)), { minLength: 2, maxLength: 13 })
  .map((knots) => {
    let at = -knots[0][0];
    return {
      atM: Float64Array.from(knots, ([width]) => {
        at += width;
        return at;
      }),
      areaM2: Float64Array.from(knots, ([, areaM2]) => areaM2),
    };
  });

/** The same, with a step in area at one of the inner knots where there is one: what folding leaves behind. */
const anyProfile: fc.Arbitrary<Profile> = fc
  .tuple(anySmooth, fc.nat(), decimal(2e-4, 8e-3))
  .map(([{ atM, areaM2 }, pick, stepM2]) => {
    if (atM.length < 3) return { atM, areaM2 };
    const i = 1 + (pick % (atM.length - 2));
    return {
      atM: Float64Array.of(...atM.slice(0, i + 1), ...atM.slice(i)),
      areaM2: Float64Array.of(...areaM2.slice(0, i + 1), stepM2, ...areaM2.slice(i + 1)),
    };
  });

const near = (found: number, expected: number, share: number): void => {
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(share * Math.abs(expected));
};

describe('law: folding and tying keep the volume to 1e-9', () => {
  test('folding, anywhere beyond the middle', () => {
    fc.assert(
      fc.property(anySmooth, decimal(0.51, 0.99), (profile, fraction) => {
        const folded = foldTail(profile, fraction);
        near(volumeOf(folded.profile), volumeOf(profile), 1e-9);
        near(lengthOf(folded.profile), fraction * lengthOf(profile), 1e-12);
        near(folded.doubledFromM, (2 * fraction - 1) * lengthOf(profile), 1e-9);
      }),
    );
  });

  test('where the tail lies doubled, areas add', () => {
    fc.assert(
      fc.property(
        anySmooth,
        decimal(0.55, 0.95),
        decimal(0.01, 0.99),
        (profile, fraction, part) => {
          const { profile: folded, doubledFromM } = foldTail(profile, fraction);
          const foldM = fraction * lengthOf(profile);
          const at = doubledFromM + part * (foldM - doubledFromM);
          near(areaAt(folded, at), areaAt(profile, at) + areaAt(profile, 2 * foldM - at), 1e-9);
          near(areaAt(folded, 0.99 * doubledFromM), areaAt(profile, 0.99 * doubledFromM), 1e-9);
        },
      ),
    );
  });

  test('tying, which also keeps the length and evens the thickness', () => {
    fc.assert(
      fc.property(anyProfile, (profile) => {
        const evened = tied(profile);
        near(volumeOf(evened), volumeOf(profile), 1e-9);
        expect(lengthOf(evened)).toBe(lengthOf(profile));
        expect(greatestDiameter(evened)).toBeLessThanOrEqual(
          greatestDiameter(profile) * (1 + 1e-12),
        );
      }),
    );
  });
});

describe('law: volumes of the parts make the whole', () => {
  test('between any two cuts', () => {
    fc.assert(
      fc.property(anyProfile, decimal(0, 1), decimal(0, 1), (profile, a, b) => {
        const length = lengthOf(profile);
        const [from, to] = a < b ? [a * length, b * length] : [b * length, a * length];
        const parts = [0, from, to, length];
        const sum = [0, 1, 2].reduce(
          (s, i) => s + volumeBetween(profile, parts[i], parts[i + 1]),
          0,
        );
        near(sum, volumeOf(profile), 1e-12);
      }),
    );
  });

  // A counterexample found: a step inside the part counted the piece before it with the area after it.
  test('across a step in area', () => {
    const stepped = { atM: Float64Array.of(0, 1, 1, 2), areaM2: Float64Array.of(1, 1, 3, 3) };
    expect(volumeBetween(stepped, 0, 2)).toBeCloseTo(4, 14);
    expect(volumeBetween(stepped, 0, 1)).toBeCloseTo(1, 14);
    expect(volumeBetween(stepped, 0.5, 1.5)).toBeCloseTo(2, 14);
  });

  test('the place up to which a share lies', () => {
    fc.assert(
      fc.property(anyProfile, decimal(0, 1), (profile, share) => {
        const at = positionOfShare(profile, share);
        near(volumeBetween(profile, 0, at) + 1, share * volumeOf(profile) + 1, 1e-12);
      }),
    );
  });

  test('mirroring keeps the volume; mirrored twice is the profile again', () => {
    fc.assert(
      fc.property(anyProfile, (profile) => {
        near(volumeOf(mirrored(profile)), volumeOf(profile), 1e-12);
        const again = mirrored(mirrored(profile));
        expect(Array.from(again.areaM2)).toEqual(Array.from(profile.areaM2));
        for (const [i, at] of again.atM.entries()) expect(at).toBeCloseTo(profile.atM[i], 14);
      }),
    );
  });

  test('scaling multiplies lengths and diameters', () => {
    fc.assert(
      fc.property(anyProfile, decimal(0.5, 2), decimal(0.5, 2), (profile, along, across) => {
        const other = scaled(profile, along, across);
        near(lengthOf(other), along * lengthOf(profile), 1e-12);
        near(greatestDiameter(other), across * greatestDiameter(profile), 1e-12);
        near(volumeOf(other), along * across ** 2 * volumeOf(profile), 1e-12);
      }),
    );
  });
});
