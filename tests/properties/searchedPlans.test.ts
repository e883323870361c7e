import {
  planCook,
  RoastError,
  rest,
  roastIn,
  searInPan,
  type TenderloinCut,
  temper,
  tenderloin,
} from '@roastsim/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';

// Dried ends that meet the air over a pan, and centres that creep towards their aim, are where a search goes astray.

const HOTTEST_C = 330; // no oven, pan or element here is hotter

function planOf(
  cut: TenderloinCut,
  massKg: number,
  ovenC: number,
  aimC: number,
  searLast: boolean,
) {
  try {
    return planCook(
      tenderloin({ massKg, cut }),
      {
        before: [temper({ minutes: 30 }), ...(searLast ? [] : [searInPan()])],
        heat: roastIn({ ovenC, until: { minutes: 0 } }),
        after: [...(searLast ? [searInPan()] : []), rest({ minutes: 20 })],
        aim: { doneness: aimC },
      },
      { stations: 16, shells: 16 },
    );
  } catch (error) {
    if (error instanceof RoastError && error.code === 'unreachable') return undefined;
    throw error;
  }
}

test.each([
  [62, 120],
  [63, 120],
  [65, 120],
  [58, 100],
])('a centre cut seared last, %s °C from an oven at %s °C', (aimC, ovenC) => {
  const plan = planOf('centre', 1.1, ovenC, aimC, true);
  expect(plan?.peak.centreC).toBeCloseTo(aimC, 1);
  expect(Math.max(...(plan?.history.hottestC ?? [Number.NaN]))).toBeLessThan(125);
});

test('law: a searched plan lands on its aim within 0.1 °C or says that it cannot, and nothing is hotter than its heat', () => {
  fc.assert(
    fc.property(
      fc.constantFrom<TenderloinCut>('whole', 'centre', 'butt', 'tail'),
      fc.double({ min: 0.4, max: 2, noNaN: true }),
      fc.integer({ min: 80, max: 300 }),
      fc.integer({ min: 45, max: 75 }),
      fc.boolean(),
      (cut, massKg, ovenC, aimC, searLast) => {
        const plan = planOf(cut, massKg, ovenC, aimC, searLast);
        if (plan === undefined) return;
        expect(Math.abs(plan.peak.centreC - aimC)).toBeLessThan(0.1);
        expect(Math.max(...plan.history.hottestC)).toBeLessThan(HOTTEST_C);
        expect(Math.min(...plan.history.frontC)).toBeGreaterThan(0);
      },
    ),
    { numRuns: 60 },
  );
});
