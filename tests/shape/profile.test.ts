import {
  areaAt,
  CUTS,
  diameterAt,
  diameterVariation,
  greatestDiameter,
  KNOT_MM,
  lengthOf,
  mirrored,
  type Profile,
  positionOfShare,
  profileFromDiameters,
  twineFor,
  volumeBetween,
  volumeOf,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import {
  foldTail,
  profileBetween,
  TIED_ASPECT,
  tied,
} from '../../packages/core/src/shape/index.js';

// Everything here is worked out by hand on profiles simple enough for it.

const profile = (atM: readonly number[], areaM2: readonly number[]): Profile => ({
  atM: Float64Array.from(atM),
  areaM2: Float64Array.from(areaM2),
});
const areas = ({ atM, areaM2 }: Profile): number[][] => [Array.from(atM), Array.from(areaM2)];

/** Area 1, 3, 2 at 0, 2, 6. */
const ROOF = profile([0, 2, 6], [1, 3, 2]);
/** Area 1 up to 1, then 3. */
const STEP = profile([0, 1, 1, 2], [1, 1, 3, 3]);

describe('a profile', () => {
  test('has a length, a volume and a greatest diameter', () => {
    expect(lengthOf(ROOF)).toBe(6);
    expect(volumeOf(ROOF)).toBe(4 + 10);
    expect(greatestDiameter(ROOF)).toBeCloseTo(Math.sqrt((4 * 3) / Math.PI), 14);
    expect(diameterAt(ROOF, 0)).toBeCloseTo(Math.sqrt(4 / Math.PI), 14);
  });

  test.each([
    [-1, 1],
    [0, 1],
    [0.5, 1.5],
    [2, 3],
    [4, 2.5],
    [6, 2],
    [9, 2],
  ])('at %f has the area %f; beyond the ends theirs goes on', (at, area) => {
    expect(areaAt(ROOF, at)).toBeCloseTo(area, 14);
  });

  test('at a step has the area behind it', () => {
    expect(areaAt(STEP, 1)).toBe(3);
    expect(areaAt(STEP, 1 - 1e-9)).toBeCloseTo(1, 8);
  });

  test.each([
    [0, 6, 14],
    [0, 2, 4],
    [1, 2, 2.5],
    [1, 4, 2.5 + 5.5],
    [3, 3, 0],
    [-5, 99, 14],
    [7, 9, 0],
  ])('from %f to %f holds %f', (from, to, volume) => {
    expect(volumeBetween(ROOF, from, to)).toBeCloseTo(volume, 13);
  });

  test('a part of it keeps the knots inside and is cut square', () => {
    expect(areas(profileBetween(ROOF, 1, 4))).toEqual([
      [0, 1, 3],
      [2, 3, 2.5],
    ]);
    expect(areas(profileBetween(ROOF, 2, 6))).toEqual([
      [0, 4],
      [3, 2],
    ]);
    expect(areas(profileBetween(ROOF, 0, 2))).toEqual([
      [0, 2],
      [1, 3],
    ]);
    expect(areas(profileBetween(ROOF, 3, 4))).toEqual([
      [0, 1],
      [2.75, 2.5],
    ]);
  });

  test.each([
    [0, 0],
    [1 / 14, (Math.sqrt(3) - 1) / 1], // t + t²/2 = 1
    [4 / 14, 2],
    [1, 6],
  ])('a share of %f lies before %f', (share, at) => {
    expect(positionOfShare(ROOF, share)).toBeCloseTo(at, 12);
  });

  test('shares before, at and behind a step', () => {
    expect(positionOfShare(STEP, 1 / 8)).toBeCloseTo(0.5, 14);
    expect(positionOfShare(STEP, 1 / 4)).toBeCloseTo(1, 14);
    expect(positionOfShare(STEP, 5 / 8)).toBeCloseTo(1.5, 14);
    expect(positionOfShare(STEP, 1)).toBe(2);
  });

  test('mirrored begins at 0 with its other end', () => {
    expect(areas(mirrored(ROOF))).toEqual([
      [0, 4, 6],
      [2, 3, 1],
    ]);
  });

  test('through diameters is straight in the diameter between them, to 1 % in the area between knots', () => {
    const cone = profileFromDiameters([
      [0, 1],
      [2, 3],
      [3, 3],
    ]);
    expect(cone.atM).toHaveLength(33);
    expect(Array.from(cone.atM.slice(15, 18))).toEqual([1.875, 2, 2.0625]);
    for (const at of [0, 0.25, 0.5, 1, 1.75, 2, 2.5, 3]) {
      expect(diameterAt(cone, at)).toBeCloseTo(Math.min(3, 1 + at), 12);
    }
    expect(diameterAt(cone, 1.0325)).toBeCloseTo(2.0325, 2);
    const frustum = ((Math.PI / 12) * 2 * (1 + 3 + 9) + (Math.PI / 4) * 9) / volumeOf(cone);
    expect(frustum).toBeCloseTo(1, 3);
  });
});

describe('the spread of the diameter', () => {
  test('of an even roast is none', () => {
    expect(diameterVariation(profile([0, 1, 3], [2, 2, 2]))).toBeCloseTo(0, 7);
  });

  test('of two halves of diameters 1 and 3 is a half', () => {
    // mean 2, mean square 5: the standard deviation is 1
    expect(diameterVariation(profile([0, 1, 1, 2], [1, 1, 9, 9]))).toBeCloseTo(0.5, 12);
  });

  test('of an area that grows in a straight line from 0 is that of a root', () => {
    // diameter sqrt(x): mean 2/3, mean square 1/2
    const expected = Math.sqrt(1 / 2 - 4 / 9) / (2 / 3);
    expect(diameterVariation(profile([0, 1], [1e-12, 1]))).toBeCloseTo(expected, 5);
  });
});

describe('folding', () => {
  test('lays the tail back: areas add, and a step is left where its tip ends', () => {
    const { profile: folded, doubledFromM } = foldTail(profile([0, 10], [4, 2]), 0.8);
    expect(doubledFromM).toBeCloseTo(6, 12);
    const [at, area] = areas(folded);
    expect(at).toHaveLength(4);
    for (const [i, expected] of [0, 6, 6, 8].entries()) expect(at[i]).toBeCloseTo(expected, 12);
    // single up to 6: 4, 2.8; doubled from there: 2.8 + 2, and twice the 2.4 of the fold
    for (const [i, expected] of [4, 2.8, 4.8, 4.8].entries())
      expect(area[i]).toBeCloseTo(expected, 12);
  });

  test('keeps the knots of both layers, each once', () => {
    const { profile: folded } = foldTail(profile([0, 3, 7, 9, 10], [4, 4, 3, 2, 1]), 0.8);
    // 9 lies back at 7, where a knot is already; 10 at 6, where the doubling begins
    expect(Array.from(folded.atM, (at) => Number(at.toFixed(9)))).toEqual([0, 3, 6, 6, 7, 8]);
    for (const [i, expected] of [4, 4, 3.25, 4.25, 5, 5].entries()) {
      expect(folded.areaM2[i]).toBeCloseTo(expected, 9);
    }
  });

  test('a knot at the fold itself is there once', () => {
    const { profile: folded } = foldTail(profile([0, 8, 10], [4, 4, 1]), 0.8);
    expect(Array.from(folded.atM, (at) => Number(at.toFixed(9)))).toEqual([0, 6, 6, 8]);
  });
});

describe('tying', () => {
  test('moves every diameter six tenths of the way to the mean one, at the same volume', () => {
    const lying = profile([0, 1, 1, 2], [1, 1, 9, 9]);
    const evened = tied(lying);
    // root-mean-square diameter sqrt(5); 0.6 of it and 0.4 of 1 and 3, then scaled to a volume of 10
    const [thin, thick] = [0.6 * Math.sqrt(5) + 0.4, 0.6 * Math.sqrt(5) + 1.2].map((d) => d * d);
    expect(volumeOf(evened)).toBeCloseTo(10, 12);
    expect(evened.areaM2[3] / evened.areaM2[0]).toBeCloseTo(thick / thin, 12);
    expect(areas(evened)[0]).toEqual(areas(lying)[0]);
    expect(TIED_ASPECT).toBe(0.85);
  });
});

describe('twine', () => {
  const even = (lengthM: number): Profile => profile([0, lengthM], [Math.PI / 400, Math.PI / 400]); // 100 mm across

  test.each([
    [0.4, 10],
    [0.379, 9],
    [0.2, 5],
    [0.05, 2],
    [0.01, 2],
  ])('a roast of %f m has %i ties, half a distance from both ends', (lengthM, ties) => {
    const { atMm, spacingMm, lengthMm } = twineFor(even(lengthM));
    expect(atMm).toHaveLength(ties);
    expect(spacingMm).toBeCloseTo((1000 * lengthM) / ties, 9);
    expect(atMm[0]).toBeCloseTo(spacingMm / 2, 9);
    expect(atMm[ties - 1]).toBeCloseTo(1000 * lengthM - spacingMm / 2, 9);
    expect(lengthMm).toBeCloseTo(ties * (Math.PI * 100 + KNOT_MM), 6);
  });

  test('each tie goes round where it sits', () => {
    const cone = profileFromDiameters([
      [0, 0.05],
      [0.08, 0.1],
    ]);
    // two ties, at a quarter and three quarters: 62.5 and 87.5 mm across
    expect(twineFor(cone).lengthMm).toBeCloseTo(Math.PI * (62.5 + 87.5) + 2 * KNOT_MM, 1);
  });
});

describe.each(Object.entries(CUTS))(
  'the %s',
  (_cut, { profile: shape, usualKg, aspect, scaleM, power }) => {
    test('is a relative shape: length 1, thickest 1, at least a sixth of that everywhere', () => {
      expect(lengthOf(shape)).toBe(1);
      expect(greatestDiameter(shape)).toBeCloseTo(1, 12);
      for (const area of shape.areaM2)
        expect(Math.sqrt((4 * area) / Math.PI)).toBeGreaterThan(1 / 6);
    });

    test('has usual weights from light to heavy, and sizes of a muscle', () => {
      expect(usualKg).toHaveLength(2);
      expect(usualKg[0]).toBeLessThan(usualKg[1]);
      expect(aspect).toBeGreaterThanOrEqual(0.7);
      expect(aspect).toBeLessThanOrEqual(0.75);
      for (const massKg of usualKg) {
        const thickM = scaleM * massKg ** power;
        expect(thickM).toBeGreaterThan(0.045);
        expect(thickM).toBeLessThan(0.1);
      }
    });
  },
);

/** Engineering judgement, pinned: the diameters at the knots that model.md prints. */
test.each<[keyof typeof CUTS, number, number, boolean]>([
  ['whole', 12, 0.18, false],
  ['centre', 5, 0.94, true],
  ['butt', 7, 0.91, false],
  ['tail', 7, 0.2, false],
])('%s: %i given diameters, the last %f of the thickest', (cut, knots, last, even) => {
  const { profile: shape, evenAsCut } = CUTS[cut];
  expect(shape.atM).toHaveLength(16 * (knots - 1) + 1);
  expect(diameterAt(shape, 1)).toBeCloseTo(last, 12);
  expect(evenAsCut).toBe(even);
});
