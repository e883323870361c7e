import { type Roast, roundRoast } from '@roastsim/core';
import { type ChartRow, edition } from './charts.js';
import { cylinder } from './cook.js';

/** A roast that is not a tenderloin, with the shape assumed for it. No chart gives one. */
export interface HoldOut {
  readonly name: string;
  /** Width and height assumed [mm], and the shape in words. */
  readonly shape: string;
  readonly aspect: number;
  readonly massKg: number;
  readonly edition: string;
  readonly cut: string;
  /** As the library makes a round roast: height 0.85 of the width. */
  readonly roast: Roast;
}

/** Heights over widths below this lie outside what the radius of the equivalent line was fitted to. */
export const FLATTEST = 0.5;

const areaDiameter = (widthMm: number, heightMm: number): number => Math.sqrt(widthMm * heightMm);

/** Diameters along the length that fill it with the weight: a spindle, thickest in the middle. */
function spindle(massKg: number, lengthMm: number, thickMm: number, endShare: number): Roast {
  return roundRoast({
    massKg,
    lengthMm,
    diameters: [
      { sizeMm: endShare * thickMm, atMm: 0 },
      { sizeMm: thickMm, atMm: lengthMm / 2 },
      { sizeMm: endShare * thickMm, atMm: lengthMm },
    ],
  });
}

/** The same, falling in a straight line from the first end. */
function taper(massKg: number, lengthMm: number, thickMm: number, endShare: number): Roast {
  return roundRoast({
    massKg,
    lengthMm,
    diameters: [
      { sizeMm: thickMm, atMm: 0 },
      { sizeMm: ((1 + endShare) / 2) * thickMm, atMm: lengthMm / 2 },
      { sizeMm: endShare * thickMm, atMm: lengthMm },
    ],
  });
}

// End shares are what the weight leaves once length and greatest section are assumed.
export const HOLD_OUTS: readonly HoldOut[] = [
  {
    name: 'petite tender',
    shape: '60 x 42 mm, spindle 200 mm long',
    aspect: 42 / 60,
    massKg: 0.28,
    edition: 'checkoff-current',
    cut: 'petite tender',
    roast: spindle(0.28, 200, areaDiameter(60, 42), 0.63),
  },
  {
    name: 'eye of round',
    shape: '88 mm across, cylinder',
    aspect: 0.85,
    massKg: 1.13,
    edition: 'ncba-2000s',
    cut: 'eye round',
    roast: cylinder(1.13, 88),
  },
  {
    name: 'tri-tip',
    shape: '110 x 55 mm, taper 230 mm long',
    aspect: 55 / 110,
    massKg: 0.79,
    edition: 'checkoff-current',
    cut: 'tri-tip',
    roast: taper(0.79, 230, areaDiameter(110, 55), 0.64),
  },
  {
    name: 'ribeye roast, small end',
    shape: '150 x 100 mm, cylinder',
    aspect: 100 / 150,
    massKg: 1.59,
    edition: 'checkoff-current',
    cut: 'ribeye, boneless, small end',
    roast: cylinder(1.59, areaDiameter(150, 100)),
  },
  {
    name: 'strip roast',
    shape: '160 x 70 mm, cylinder',
    aspect: 70 / 160,
    massKg: 1.59,
    edition: 'checkoff-current',
    cut: 'strip, boneless',
    roast: cylinder(1.59, areaDiameter(160, 70)),
  },
];

/** The chart's line for a hold-out: its cut, its weight, medium rare. */
export function chartRowOf({ edition: id, cut, massKg }: HoldOut): ChartRow & {
  readonly time_min: readonly [number, number];
  readonly remove_C: number;
} {
  const row = edition(id).rows.find(
    (one) =>
      one.cut === cut &&
      one.doneness === 'medium rare' &&
      one.weight_kg[0] <= massKg &&
      one.weight_kg[1] >= massKg,
  );
  if (row?.time_min === undefined || row.remove_C === undefined) throw new Error(`no row: ${cut}`);
  return { ...row, time_min: row.time_min, remove_C: row.remove_C };
}
