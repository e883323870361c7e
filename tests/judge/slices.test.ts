import {
  cookingLoss,
  cutsOf,
  doneThroughC,
  type History,
  hottestProfile,
  judgeSlices,
  PORTION_KG,
  RoastError,
  roundRoast,
  SCALES,
  shareWithin,
  simulate,
  sliceRoast,
  tenderloin,
  waterBath,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';

const OPTIONS = { stations: 8, shells: 8 };
const STAGES = [waterBath({ bathC: 60, until: { minutes: 1 } })];

describe('cuts', () => {
  // an even roast, so that equal weights are equal lengths
  const even = roundRoast({ massKg: 1, diameters: [{ sizeMm: 60 }] });
  const lengthMm = 1000 * even.profile.atM[even.profile.atM.length - 1];

  test('are of equal weight, end to end, each with its middle', () => {
    const cuts = cutsOf(even, 0.25);
    expect(cuts).toHaveLength(4);
    for (const [i, { fromMm, toMm, middleMm, rawKg }] of cuts.entries()) {
      expect(fromMm).toBeCloseTo((i * lengthMm) / 4, 6);
      expect(toMm).toBeCloseTo(((i + 1) * lengthMm) / 4, 6);
      expect(middleMm).toBeCloseTo(((i + 0.5) * lengthMm) / 4, 6);
      expect(rawKg).toBeCloseTo(0.25, 12);
    }
    expect(cuts[0].fromMm).toBe(0);
  });

  test.each([
    [10, 1],
    [0.67, 1],
    [0.66, 2],
    [PORTION_KG, 4],
    [0.001, 200],
  ])('of %f kg from 1 kg are %i', (portionKg, count) => {
    expect(cutsOf(even, portionKg)).toHaveLength(count);
  });

  test.each([
    [0, 'out-of-range'],
    [-1, 'out-of-range'],
    [Number.NaN, 'not-a-number'],
  ])('of %f kg cannot be cut', (portionKg, code) => {
    expect(() => cutsOf(even, portionKg)).toThrow(RoastError);
    try {
      cutsOf(even, portionKg);
    } catch (error) {
      expect(error).toMatchObject({
        code,
        path: ['portionKg'],
        found: portionKg,
        accepted: 'a weight above 0',
        message: `a portion of ${portionKg} kg cannot be cut`,
      });
    }
  });
});

describe('slices of a roast whose hottest moments are written by hand', () => {
  const scale = SCALES.kitchen;
  const even = roundRoast({ massKg: 1, diameters: [{ sizeMm: 60 }] });
  const cook = simulate(even, STAGES, OPTIONS);
  const { node, shells } = cook.body.body.mesh;

  /** The same profile at every station: hottest as a function of r/R. */
  const heated = (hottest: (r: number) => number, lost: Partial<History> = {}): History => ({
    ...cook,
    evaporatedKg: new Float64Array(OPTIONS.stations),
    drippedKg: new Float64Array(OPTIONS.stations),
    ...lost,
    hottestC: Float64Array.from({ length: OPTIONS.stations * (shells + 1) }, (_, i) =>
      hottest(node[i % (shells + 1)]),
    ),
  });
  const middle = (history: History) => judgeSlices(history, cutsOf(even, 0.25), scale)[1];

  test('even throughout: one band, no rim', () => {
    expect(middle(heated(() => 55))).toMatchObject({
      peakCentreC: 55,
      band: 'medium-rare',
      evenness: 1,
      rimMm: 0,
    });
  });

  test('a straight rise in r²: the shares of the bands are worked out by hand', () => {
    // 54 on the axis, 74 on the surface, straight in the area: up to 58.5 is 22.5 % of it, done through from 69.5 on
    const slice = middle(heated((r) => 54 + 20 * r * r));
    expect(slice.band).toBe('medium-rare');
    expect(slice.peakCentreC).toBe(54);
    expect(slice.evenness).toBeCloseTo(4.5 / 20, 12);
    expect(slice.diameterMm).toBeCloseTo(60, 9);
    expect(slice.rimMm).toBeCloseTo(30 * (1 - Math.sqrt(15.5 / 20)), 9);
  });

  test('a fall outwards counts as well as a rise', () => {
    // 56 on the axis, 50 on the surface: above 53 is the inner half of the area
    expect(middle(heated((r) => 56 - 6 * r * r)).evenness).toBeCloseTo(0.5, 12);
  });

  test('what is done through inside alone is no rim; a rim ends where the first circle falls short', () => {
    const through = doneThroughC(scale);
    expect(middle(heated((r) => through + 5 - 10 * r * r)).rimMm).toBe(0);
    // straight in the area but for a kink at a fifth of it, below between a tenth and seven tenths
    const dip = middle(heated((r) => through + (r * r < 0.2 ? 10 - 100 * r * r : 20 * r * r - 14)));
    expect(dip.rimMm).toBeCloseTo(30 * (1 - Math.sqrt(0.7)), 9);
  });

  test('the share between two temperatures is told at any place', () => {
    const history = heated((r) => 54 + 20 * r * r);
    expect(shareWithin(history, 50, 58, 64)).toBeCloseTo(6 / 20, 12);
    expect(shareWithin(history, 50, -Infinity, 64)).toBeCloseTo(10 / 20, 12);
    expect(shareWithin(history, 50, -Infinity, Infinity)).toBe(1);
  });

  test('done right through, the rim is the radius; just short of that it is nearly so', () => {
    const through = doneThroughC(scale);
    expect(middle(heated((r) => through + r)).rimMm).toBeCloseTo(30, 9);
    const nearly = middle(heated((r) => through - 0.001 + r)).rimMm;
    expect(nearly).toBeLessThan(30);
    expect(nearly).toBeGreaterThan(28);
    expect(middle(heated(() => through)).band).toBe('well-done');
  });

  test('what the stations lost is taken from the slices that lie on them', () => {
    const each = new Float64Array(OPTIONS.stations).fill(0.01);
    const slices = judgeSlices(
      heated(() => 55, { evaporatedKg: each, drippedKg: each.map((kg) => 2 * kg) }),
      cutsOf(even, 0.25),
      scale,
    );
    const lost = slices.map(({ rawKg, servedKg }) => rawKg - servedKg);
    expect(lost.reduce((a, b) => a + b, 0)).toBeCloseTo(OPTIONS.stations * 0.03, 9);
    expect(lost[1]).toBeCloseTo(lost[2], 9);
    expect(Math.min(...lost)).toBeGreaterThan(0);
  });

  test('a loss at one end is the end slice’s alone', () => {
    const first = new Float64Array(OPTIONS.stations);
    first[0] = 0.02;
    const slices = judgeSlices(
      heated(() => 55, { evaporatedKg: first }),
      cutsOf(even, 0.25),
      scale,
    );
    expect(slices.map(({ rawKg, servedKg }) => Number((rawKg - servedKg).toFixed(9)))).toEqual([
      0.02, 0, 0, 0,
    ]);
  });

  test('between two stations the profile is theirs in proportion', () => {
    const { atM } = cook.body;
    const nodes = shells + 1;
    const history = {
      ...cook,
      hottestC: Float64Array.from(
        { length: OPTIONS.stations * nodes },
        (_, i) => 50 + Math.floor(i / nodes) + (i % nodes) / 100,
      ),
    };
    const atMm = 1000 * (0.25 * atM[3] + 0.75 * atM[4]);
    const found = hottestProfile(history, atMm);
    expect(found).toHaveLength(nodes);
    for (const [j, c] of found.entries()) expect(c).toBeCloseTo(53.75 + j / 100, 9);
  });

  test('a roast is cut and judged in one call', () => {
    const history = heated((r) => 54 + 20 * r * r);
    expect(sliceRoast(history, scale, 0.25)).toEqual(
      judgeSlices(history, cutsOf(even, 0.25), scale),
    );
    expect(sliceRoast(history, scale)).toHaveLength(4);
  });

  test('the loss of the whole is that of all stations, as a share of the raw weight', () => {
    const history = heated(() => 55, {
      roast: { ...even, massKg: 2 },
      evaporatedKg: new Float64Array(OPTIONS.stations).fill(0.01),
      drippedKg: new Float64Array(OPTIONS.stations).fill(0.02),
    });
    const { evaporatedKg, drippedKg, fraction } = cookingLoss(history);
    expect(evaporatedKg).toBeCloseTo(0.08, 12);
    expect(drippedKg).toBeCloseTo(0.16, 12);
    expect(fraction).toBeCloseTo(0.12, 12);
  });
});

test('a slice has the diameter of its middle', () => {
  const roast = tenderloin({ massKg: 2.2 });
  const slices = sliceRoast(simulate(roast, STAGES, { stations: 40, shells: 8 }), SCALES.kitchen);
  const thick = slices.map(({ diameterMm }) => diameterMm);
  expect(Math.max(...thick)).toBeLessThanOrEqual(
    1000 * Math.max(...roast.profile.areaM2.map((a) => Math.sqrt((4 * a) / Math.PI))),
  );
  expect(Math.min(...thick)).toBeGreaterThan(30);
});
