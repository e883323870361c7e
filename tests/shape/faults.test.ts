import {
  diameterFromGirth,
  lengthOf,
  type Roast,
  RoastError,
  roastOfProfile,
  roundRoast,
  tenderloin,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';

// Every fault of a shape in full: code, field, what was found, what is accepted, and the sentence a person reads.

const at = (sizeMm: number, atMm: number) => ({ sizeMm, atMm });

/** Density of the usual meat, and what follows from it by the closed form of a round bar: the rest of the test needs no model. */
const { densityKgPerM3 } = tenderloin({ massKg: 1 }).meat;
const barKg = (acrossM: number, lengthM: number): number =>
  densityKgPerM3 * (Math.PI / 4) * acrossM ** 2 * lengthM;
const USUAL_MM = 1000 * lengthOf(tenderloin({ massKg: 1.1, cut: 'centre' }).profile);

const FAULTS: readonly (readonly [
  what: string,
  make: () => Roast,
  fault: { code: string; path: string[]; found?: unknown; accepted: string; message: string },
])[] = [
  [
    'too light',
    () => tenderloin({ massKg: 0.049 }),
    {
      code: 'out-of-range',
      path: ['massKg'],
      found: 0.049,
      accepted: '0.05 to 12 kg',
      message: 'the weight is 0.049 kg; it can be 0.05 to 12 kg',
    },
  ],
  [
    'too heavy, the number rounded',
    () => tenderloin({ massKg: 12.345678 }),
    {
      code: 'out-of-range',
      path: ['massKg'],
      found: 12.345678,
      accepted: '0.05 to 12 kg',
      message: 'the weight is 12.35 kg; it can be 0.05 to 12 kg',
    },
  ],
  [
    'no number',
    () => tenderloin({ massKg: Number.POSITIVE_INFINITY }),
    {
      code: 'not-a-number',
      path: ['massKg'],
      found: Number.POSITIVE_INFINITY,
      accepted: '0.05 to 12 kg',
      message: 'the weight is not a number',
    },
  ],
  [
    'a text for a number',
    () => tenderloin({ massKg: '2' as unknown as number }),
    {
      code: 'not-a-number',
      path: ['massKg'],
      found: '2',
      accepted: '0.05 to 12 kg',
      message: 'the weight is not a number',
    },
  ],
  [
    'too short',
    () => tenderloin({ massKg: 1, lengthMm: 39 }),
    {
      code: 'out-of-range',
      path: ['lengthMm'],
      found: 39,
      accepted: '40 to 1200 mm',
      message: 'the length is 39 mm; it can be 40 to 1200 mm',
    },
  ],
  [
    'a diameter of a pencil',
    () => roundRoast({ lengthMm: 200, diameters: [{ sizeMm: 19 }] }),
    {
      code: 'out-of-range',
      path: ['diameters'],
      found: 19,
      accepted: '20 to 250 mm',
      message: 'the diameter by the tape is 19 mm; it can be 20 to 250 mm',
    },
  ],
  [
    'a girth of a barrel points at the girth',
    () => roundRoast({ lengthMm: 200, girths: [{ sizeMm: 900 }] }),
    {
      code: 'out-of-range',
      path: ['girths'],
      accepted: '20 to 250 mm',
      message: 'the diameter by the tape is 284.7 mm; it can be 20 to 250 mm',
    },
  ],
  [
    'a place before the beginning',
    () => roundRoast({ lengthMm: 200, diameters: [at(70, -1)] }),
    {
      code: 'out-of-range',
      path: ['diameters'],
      found: -1,
      accepted: '0 to 1200 mm',
      message: 'the place of a measurement is -1 mm; it can be 0 to 1200 mm',
    },
  ],
  [
    'several without places',
    () => roundRoast({ lengthMm: 200, girths: [{ sizeMm: 220 }, at(240, 50)] }),
    {
      code: 'missing',
      path: ['girths'],
      accepted: 'one size, or several with their places: 24cm@5cm, 26cm@20cm',
      message: 'several measurements need their places along the roast',
    },
  ],
  [
    'two at one place',
    () => roundRoast({ lengthMm: 200, diameters: [at(70, 50), at(80, 50)] }),
    {
      code: 'contradiction',
      path: ['diameters'],
      found: 80,
      accepted: 'one size at each place',
      message: 'two sizes are given at 50 mm: 70 and 80 mm across',
    },
  ],
  [
    'a cut without a tail, folded',
    () => tenderloin({ massKg: 1, cut: 'butt', folded: true }),
    {
      code: 'contradiction',
      path: ['folded'],
      found: true,
      accepted: 'folding for a whole tenderloin only',
      message: 'a butt cut has no thin tail to fold',
    },
  ],
  [
    'folded at the very end',
    () => tenderloin({ massKg: 2, foldAt: 0.96 }),
    {
      code: 'out-of-range',
      path: ['foldAt'],
      found: 0.96,
      accepted: '0.55 to 0.95 of the length',
      message: 'the place of the fold is 0.96 of the length; it can be 0.55 to 0.95 of the length',
    },
  ],
  [
    'a size beyond the end',
    () => roundRoast({ lengthMm: 200, diameters: [at(70, 201)] }),
    {
      code: 'contradiction',
      path: ['lengthMm'],
      found: 200,
      accepted: 'a length of at least 201 mm',
      message: 'a size is given 201 mm along a roast that is 200 mm long',
    },
  ],
  [
    'sizes without a length or a weight',
    () => tenderloin({ diameters: [{ sizeMm: 70 }] }),
    {
      code: 'missing',
      path: ['lengthMm'],
      accepted: 'a weight or a length',
      message: 'sizes without a length do not fix the roast',
    },
  ],
  [
    'nothing at all',
    () => tenderloin({}),
    {
      code: 'missing',
      path: ['massKg'],
      accepted: 'a weight, or a length and diameters',
      message: 'the weight is missing',
    },
  ],
  [
    'a round roast by its weight',
    () => roundRoast({ massKg: 1 }),
    {
      code: 'missing',
      path: ['diameters'],
      accepted: 'a diameter, a girth or a length',
      message: 'a roast that is not a tenderloin needs a diameter, a girth or a length',
    },
  ],
  [
    'a length far from the usual one',
    () => tenderloin({ massKg: 1.1, cut: 'centre', lengthMm: 100 }),
    {
      code: 'contradiction',
      path: ['lengthMm'],
      found: 100,
      accepted: `${Math.round(USUAL_MM / 2)} to ${Math.round(2 * USUAL_MM)} mm`,
      message: `100 mm is too far from the ${Math.round(USUAL_MM)} mm usual for this weight and cut`,
    },
  ],
  [
    'weight against tape',
    () => roundRoast({ massKg: 5, lengthMm: 250, girths: [{ sizeMm: 240 }] }),
    {
      code: 'contradiction',
      path: ['girths'],
      accepted: 'weight and tape within a factor of two',
      message:
        `the scale says 5.00 kg, the tape says ${barKg(diameterFromGirth(0.24, 0.85), 0.25).toFixed(2)} kg: ` +
        'they do not measure the same roast ' +
        '(check the units, and whether a girth was given as a diameter)',
    },
  ],
  [
    'a weight that makes the piece too thick',
    () => roundRoast({ massKg: 12, lengthMm: 200 }),
    {
      code: 'out-of-range',
      path: ['diameters'],
      accepted: '20 to 250 mm',
      message: `the thickest diameter is ${(1000 * Math.sqrt(12 / barKg(1, 0.2))).toPrecision(4)} mm; it can be 20 to 250 mm`,
    },
  ],
  [
    'a weight and a size that make the piece too long',
    () => roundRoast({ massKg: 6, diameters: [{ sizeMm: 60 }] }),
    {
      code: 'out-of-range',
      path: ['lengthMm'],
      accepted: '40 to 1200 mm',
      message: `the length is ${(1000 * (6 / barKg(0.06, 1))).toPrecision(4)} mm; it can be 40 to 1200 mm`,
    },
  ],
];

const own = (atM: readonly number[], areaM2: readonly number[], options = {}): Roast =>
  roastOfProfile({ atM: Float64Array.from(atM), areaM2: Float64Array.from(areaM2) }, options);
const ROUND = (acrossMm: number): number => (Math.PI / 4) * (acrossMm / 1000) ** 2;

const OWN_FAULTS: typeof FAULTS = [
  [
    'two places, one area',
    () => own([0, 0.3], [0.004]),
    {
      code: 'contradiction',
      path: ['profile', 'areaM2'],
      found: 1,
      accepted: 'an area for each of two places or more',
      message: 'the profile has 2 places and 1 areas',
    },
  ],
  [
    'one place',
    () => own([0], [0.004]),
    {
      code: 'contradiction',
      path: ['profile', 'areaM2'],
      found: 1,
      accepted: 'an area for each of two places or more',
      message: 'the profile has 1 places and 1 areas',
    },
  ],
  [
    'a profile that begins inside',
    () => own([0.1, 0.3], [0.004, 0.004]),
    {
      code: 'contradiction',
      path: ['profile', 'atM'],
      found: 0.1,
      accepted: 'a first place of 0',
      message: 'the profile begins at 0.1 m',
    },
  ],
  [
    'places that go back',
    () => own([0, 0.3, 0.2], [0.004, 0.004, 0.004]),
    {
      code: 'contradiction',
      path: ['profile', 'atM'],
      found: 0.2,
      accepted: 'places that never decrease',
      message: 'the places of the profile go back',
    },
  ],
  [
    'a place far away',
    () => own([0, 1.3], [0.004, 0.004]),
    {
      code: 'out-of-range',
      path: ['profile'],
      found: 1300,
      accepted: '0 to 1200 mm',
      message: 'a place of the profile is 1300 mm; it can be 0 to 1200 mm',
    },
  ],
  [
    'a thread',
    () => own([0, 0.3], [0.004, ROUND(4)]),
    {
      code: 'out-of-range',
      path: ['profile'],
      accepted: '5 to 250 mm',
      message: 'a diameter of the profile is 4 mm; it can be 5 to 250 mm',
    },
  ],
  [
    'a ribbon',
    () => own([0, 0.3], [0.004, 0.004], { aspect: 0.4 }),
    {
      code: 'out-of-range',
      path: ['aspect'],
      found: 0.4,
      accepted: '0.5 to 1 ',
      message: 'height over width is 0.4 ; it can be 0.5 to 1 ',
    },
  ],
  [
    'too heavy for anybody',
    () => own([0, 0.3], [0.004, 0.004], { massKg: 13 }),
    {
      code: 'out-of-range',
      path: ['massKg'],
      found: 13,
      accepted: '0.05 to 12 kg',
      message: 'the weight is 13 kg; it can be 0.05 to 12 kg',
    },
  ],
  [
    'too short to be a roast',
    () => own([0, 0.03], [0.004, 0.004]),
    {
      code: 'out-of-range',
      path: ['profile'],
      accepted: '40 to 1200 mm',
      message: 'the length is 30 mm; it can be 40 to 1200 mm',
    },
  ],
  [
    'too thick by its weight',
    () => own([0, 0.2], [0.004, 0.004], { massKg: 12 }),
    {
      code: 'out-of-range',
      path: ['profile'],
      accepted: '20 to 250 mm',
      message: `the thickest diameter is ${(1000 * Math.sqrt(12 / barKg(1, 0.2))).toPrecision(4)} mm; it can be 20 to 250 mm`,
    },
  ],
  [
    'too light by its profile',
    () => own([0, 0.1], [ROUND(21), ROUND(21)]),
    {
      code: 'out-of-range',
      path: ['profile'],
      accepted: '0.05 to 12 kg',
      message: `the weight by the profile is ${Number(barKg(0.021, 0.1).toPrecision(4))} kg; it can be 0.05 to 12 kg`,
    },
  ],
];

test('a profile of one’s own with a weight keeps its length and gets its thickness from it', () => {
  const light = own([0, 0.1, 0.1, 0.3], [0.004, 0.003, 0.005, 0.004]);
  const heavy = own([0, 0.1, 0.1, 0.3], [0.004, 0.003, 0.005, 0.004], { massKg: 2, aspect: 0.5 });
  expect(light.massKg / densityKgPerM3).toBeCloseTo(0.00035 + 0.0009, 12);
  expect(heavy.massKg).toBe(2);
  expect([light.aspect, heavy.aspect]).toEqual([1, 0.5]);
  expect(lengthOf(heavy.profile)).toBe(0.3);
  expect(heavy.profile.areaM2[0] / light.profile.areaM2[0]).toBeCloseTo(2 / light.massKg, 12);
});

test.each([...FAULTS, ...OWN_FAULTS])('%s', (_what, make, fault) => {
  try {
    make();
  } catch (error) {
    expect(error).toBeInstanceOf(RoastError);
    expect(error).toMatchObject(fault);
    return;
  }
  expect.unreachable('nothing was refused');
});

describe('what lies on an edge is taken', () => {
  const round = (sizeMm: number, lengthMm: number): Roast =>
    roundRoast({ lengthMm, diameters: [{ sizeMm }] });
  test.each<[string, () => Roast]>([
    ['50 g', () => roundRoast({ massKg: 0.05, diameters: [{ sizeMm: 35 }] })],
    ['12 kg', () => roundRoast({ massKg: 12, lengthMm: 400 })],
    ['40 mm long', () => round(60, 40)],
    ['20 mm across', () => round(20.0000001, 200)],
    ['folded at 0.55', () => tenderloin({ massKg: 2, foldAt: 0.55 })],
    ['folded at 0.95', () => tenderloin({ massKg: 2, foldAt: 0.95 })],
    ['a size at the very end', () => roundRoast({ lengthMm: 200, diameters: [at(70, 200)] })],
    ['a size at the beginning', () => roundRoast({ lengthMm: 200, diameters: [at(70, 0)] })],
  ])('%s', (_what, make) => expect(make().massKg).toBeGreaterThan(0));

  /** Twice and half of what the tape says is the furthest a scale may be from it. */
  test.each([
    [1.999, true],
    [2.001, false],
    [0.501, true],
    [0.499, false],
  ])('a scale that says %f of the tape: %s', (share, taken) => {
    const tape = { lengthMm: 250, diameters: [{ sizeMm: 76 }] };
    const make = (): Roast => roundRoast({ ...tape, massKg: share * roundRoast(tape).massKg });
    if (taken) expect(make().massKg).toBeGreaterThan(0);
    else expect(make).toThrow(/do not measure the same roast/);
  });

  test.each([
    [1.999, true],
    [2.001, false],
    [0.501, true],
    [0.499, false],
  ])('a length %f times the usual one: %s', (share, taken) => {
    const usual = { massKg: 1.1, cut: 'centre' } as const;
    const usualMm = 1000 * lengthOf(tenderloin(usual).profile);
    const make = (): Roast => tenderloin({ ...usual, lengthMm: share * usualMm });
    if (taken) expect(make().usualLengthMm).toBeCloseTo(usualMm, 9);
    else expect(make).toThrow(/too far from/);
  });
});
