import {
  type CuttingList,
  type CuttingRequest,
  KIND_PRICES,
  OPENING_KG,
  type Solve,
  UNORDERED,
} from '@roastsim/core';
import fc from 'fast-check';
import { highsSolver } from '../../packages/cli/src/solve/highs.js';

/** The solver the command uses. */
export const solver: Promise<Solve> = highsSolver();

/** A solver that takes what it is given to begin with and proves nothing: fast, for what has to hold of any answer. */
export const noSolver: Solve = async (_, { start }) => ({
  status: 'stopped',
  objective: 0,
  bound: 1e6,
  values: start,
});

/** Solvers get all the time they want: nothing here may hang on how busy the machine is. */
export const UNHURRIED = { timeLimitS: 600 } as const;

/** A clock that stands still: the share of the time one question has does not hang on the machine either. */
export const stopped = (): number => 0;

/**
 * What a list makes of the meat in kilograms of whole tenderloin, counted from the list alone. Thickness steaks and shortfalls have
 * rules of their own in the programme and may not be in it.
 */
export function meatValue(
  { orders, prices = KIND_PRICES }: CuttingRequest,
  { tenderloins, served }: CuttingList,
): number {
  let value = 0;
  let tipsKg = 0;
  for (const [index, { kind, pieces, massKg = 0 }] of orders.entries()) {
    if (!served[index] || kind === 'whole') continue;
    value += pieces * massKg * prices[kind];
    if (kind === 'tips') tipsKg += massKg;
  }
  for (const { use, massKg, pieces, order } of tenderloins) {
    if (use === 'whole') {
      const wanted = orders[order ?? 0].massKg ?? massKg;
      value -= 0.5 * prices.whole * Math.abs(wanted - massKg); // as in the programme
    }
    if (use !== 'cut') continue;
    value -= (massKg + OPENING_KG) * prices.whole;
    for (const piece of pieces) {
      if (piece.use !== 'order') value += UNORDERED * piece.massKg * prices[piece.kind];
    }
  }
  return (value - UNORDERED * tipsKg * prices.tips) / prices.whole;
}

const hundredths = (low: number, high: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.round(100 * low), max: Math.round(100 * high) }).map((n) => n / 100);

const roast = (kind: 'centre' | 'butt' | 'tail', low: number, high: number) =>
  fc.record({
    kind: fc.constant(kind),
    pieces: fc.integer({ min: 1, max: 2 }),
    massKg: hundredths(low, high),
  });

/** Any order, now and then one that cannot be served. */
export const anyOrder = fc.oneof(
  roast('centre', 0.3, 1.6),
  roast('butt', 0.3, 1.5),
  roast('tail', 0.2, 0.9),
  fc.record({
    kind: fc.constant('steak' as const),
    pieces: fc.integer({ min: 1, max: 6 }),
    massKg: hundredths(0.12, 0.4),
  }),
  fc.record({
    kind: fc.constant('steak' as const),
    pieces: fc.integer({ min: 1, max: 5 }),
    thicknessMm: fc.integer({ min: 12, max: 80 }),
  }),
  fc.record({
    kind: fc.constant('tips' as const),
    pieces: fc.constant(1),
    massKg: hundredths(0.1, 1.5),
  }),
  fc.record({
    kind: fc.constant('whole' as const),
    pieces: fc.integer({ min: 1, max: 2 }),
    massKg: hundredths(1.6, 2.8),
  }),
  fc.record({ kind: fc.constant('whole' as const), pieces: fc.constant(1) }),
);

/** A day at the block. */
export const anyRequest = (mostOrders: number, mostStock: number): fc.Arbitrary<CuttingRequest> =>
  fc.record({
    orders: fc.array(anyOrder, { minLength: 1, maxLength: mostOrders }),
    stockKg: fc.array(hundredths(1.2, 3.4), { minLength: 1, maxLength: mostStock }),
    tolerance: fc.constantFrom(0, 0.05, 0.1),
  });
