import {
  type CutOrder,
  type CuttingRequest,
  cutTenderloins,
  cuttingFaults,
  type Muscle,
  meatOf,
  muscleOf,
  OPENING_KG,
  PARTS,
  type Solve,
  UNORDERED,
  VALUE_GAP,
} from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { windowsOf } from '../../packages/core/src/cutting/demand.js';
import { massBeforeShare } from '../../packages/core/src/cutting/muscle.js';
import { anyRequest, meatValue, noSolver, solver, stopped, UNHURRIED } from '../support/cutting.js';

const cut = async (request: CuttingRequest) =>
  cutTenderloins({ ...UNHURRIED, ...request }, await solver, stopped);

const SLOW_MS = 120_000;

describe('what holds of any cutting list', () => {
  test('a checker that weighs anew finds nothing wrong with first fits', async () => {
    await fc.assert(
      fc.asyncProperty(anyRequest(25, 8), async (request) => {
        const list = await cutTenderloins(request, noSolver, stopped);
        expect(cuttingFaults(request, list)).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  test(
    'nor with solved ones, and the totals add up',
    async () => {
      await fc.assert(
        fc.asyncProperty(anyRequest(8, 3), async (request) => {
          const list = await cut(request);
          expect(cuttingFaults(request, list)).toEqual([]);
          const { stockKg, orderedKg, toSellKg, spareEndsKg, spareKg } = list.totals;
          expect(orderedKg + toSellKg + spareEndsKg + spareKg).toBeCloseTo(stockKg, 3);
          expect(list.proof.servedAtMost).toBe(list.served.filter(Boolean).length);
          expect(list.proof.valueGap).toBeLessThanOrEqual(VALUE_GAP + 1e-6);
        }),
        { numRuns: 40 },
      );
    },
    SLOW_MS,
  );

  test(
    'the order of orders and of tenderloins does not matter',
    async () => {
      const shuffled = anyRequest(7, 3).chain((request) =>
        fc.record({
          request: fc.constant(request),
          orders: fc.shuffledSubarray([...request.orders], { minLength: request.orders.length }),
          stockKg: fc.shuffledSubarray([...request.stockKg], { minLength: request.stockKg.length }),
        }),
      );
      await fc.assert(
        fc.asyncProperty(shuffled, async ({ request, orders, stockKg }) => {
          const one = await cut(request);
          const other = await cut({ ...request, orders, stockKg });
          const count = (served: readonly boolean[]): number => served.filter(Boolean).length;
          expect(count(other.served)).toBe(count(one.served));
        }),
        { numRuns: 15 },
      );
    },
    SLOW_MS,
  );

  test('one more tenderloin never serves fewer', { timeout: SLOW_MS }, async () => {
    await fc.assert(
      fc.asyncProperty(anyRequest(7, 2), async (request) => {
        const count = (served: readonly boolean[]): number => served.filter(Boolean).length;
        const before = await cut(request);
        const after = await cut({ ...request, stockKg: [...request.stockKg, 2.4] });
        expect(count(after.served)).toBeGreaterThanOrEqual(count(before.served));
      }),
      { numRuns: 15 },
    );
  });
});

test('a solver without time for a proof leaves the proof out and never says infinity', async () => {
  const hasty: Solve = async (lp, options) => ({
    ...(await noSolver(lp, options)),
    bound: Number.POSITIVE_INFINITY,
  });
  const orders = [
    { kind: 'centre', pieces: 1, massKg: 1 },
    { kind: 'centre', pieces: 1, massKg: 1.1 },
  ] as const;
  const list = await cutTenderloins({ orders, stockKg: [2.4] }, hasty, stopped);
  expect(list.proof).toEqual({ servedAtMost: 2 });
  expect(list.served.filter(Boolean)).toHaveLength(1);
});

describe('the checker', () => {
  const request: CuttingRequest = {
    orders: [
      { kind: 'butt', pieces: 1, massKg: 0.8 },
      { kind: 'steak', pieces: 2, massKg: 0.2 },
      { kind: 'centre', pieces: 1, massKg: 0.7 },
      { kind: 'tips', pieces: 1, massKg: 0.2 },
    ],
    stockKg: [2.4, 2.2],
  };

  test.each([
    ['a piece moved', (p: Piece) => ({ ...p, fromMm: p.fromMm + 5 })],
    ['a piece said heavier', (p: Piece) => ({ ...p, massKg: p.massKg + 0.01 })],
    ['a piece for another order', (p: Piece) => ({ ...p, order: 0 })],
    ['a piece of another kind', (p: Piece) => ({ ...p, kind: 'tail' as const })],
  ])('finds %s', async (_, change) => {
    const list = await cut(request);
    const broken = {
      ...list,
      tenderloins: list.tenderloins.map((tenderloin) => ({
        ...tenderloin,
        pieces: tenderloin.pieces.map((piece) => (piece.kind === 'centre' ? change(piece) : piece)),
      })),
    };
    expect(cuttingFaults(request, broken)).not.toEqual([]);
  });

  test('finds tips that are promised twice, and an order left out', async () => {
    const list = await cut(request);
    const twice = list.tenderloins.map((each) => ({ ...each, tips: [...each.tips, ...each.tips] }));
    expect(cuttingFaults(request, { ...list, tenderloins: twice })).not.toEqual([]);
    const none = list.tenderloins.map((each) => ({
      ...each,
      pieces: [],
      tips: [],
      use: 'spare' as const,
    }));
    expect(cuttingFaults(request, { ...list, tenderloins: none })).not.toEqual([]);
  });
});

type Piece = Awaited<ReturnType<typeof cutTenderloins>>['tenderloins'][number]['pieces'][number];

describe('against trying everything', () => {
  // With one price for every kind it does not matter how the rest is parted, so that a list's value follows from who gets what.
  const ONE_PRICE = { whole: 1, centre: 1, butt: 1, tail: 1, steak: 1, tips: 1 };
  const weights = (...all: number[]) => fc.constantFrom(...all);
  const small = fc.record({
    orders: fc.array(
      fc.oneof(
        fc.record({
          kind: fc.constantFrom('centre' as const),
          pieces: fc.constant(1),
          massKg: weights(0.5, 0.7, 0.9, 1.2),
        }),
        fc.record({
          kind: fc.constantFrom('butt' as const),
          pieces: fc.constant(1),
          massKg: weights(0.5, 0.8, 1.1),
        }),
        fc.record({
          kind: fc.constantFrom('tail' as const),
          pieces: fc.constant(1),
          massKg: weights(0.3, 0.6),
        }),
        fc.record({
          kind: fc.constantFrom('steak' as const),
          pieces: fc.constantFrom(1, 2),
          massKg: weights(0.18, 0.25, 0.3),
        }),
        fc.record({
          kind: fc.constantFrom('tips' as const),
          pieces: fc.constant(1),
          massKg: weights(0.3, 1),
        }),
        fc.record({
          kind: fc.constantFrom('whole' as const),
          pieces: fc.constant(1),
          massKg: weights(1.6, 2.2),
        }),
      ),
      { minLength: 1, maxLength: 5 },
    ),
    stockKg: fc.array(weights(1.5, 1.6, 2.2, 2.4), { minLength: 1, maxLength: 2 }),
    tolerance: fc.constant(0),
    prices: fc.constant(ONE_PRICE),
  });

  test('as many orders are served, and the meat brings as much', { timeout: SLOW_MS }, async () => {
    await fc.assert(
      fc.asyncProperty(small, async (request) => {
        const list = await cut(request);
        const best = everything(request);
        expect(list.served.filter(Boolean).length).toBe(best.served);
        const stockKg = request.stockKg.reduce((sum, kg) => sum + kg, 0);
        const value = meatValue(request, list);
        expect(value).toBeGreaterThanOrEqual(best.value - VALUE_GAP * stockKg - 1e-6);
        expect(value).toBeLessThanOrEqual(best.value + 1e-3);
      }),
      { numRuns: 60 },
    );
  });
});

/** The most orders served, and then the best value, by trying every way to hand pieces to tenderloins and every sequence on each. */
function everything({ orders, stockKg }: CuttingRequest): { served: number; value: number } {
  const { densityKgPerM3 } = meatOf();
  const muscles = stockKg.map((massKg) => muscleOf(massKg, densityKgPerM3));
  const fits = new Map<string, boolean>();
  const fitsOn = (j: number, pieces: readonly CutOrder[]): boolean => {
    const key = `${j} ${pieces.map(({ kind, massKg }) => `${kind}${massKg}`).sort()}`;
    const known = fits.get(key) ?? sequenceFits(muscles[j], pieces);
    fits.set(key, known);
    return known;
  };
  let best = { served: 0, value: 0 };
  const jobs = orders.flatMap((order, index) =>
    order.kind === 'tips' ? [] : Array.from({ length: order.pieces }, () => ({ order, index })),
  );
  const tips = orders.filter(({ kind }) => kind === 'tips');
  const place = (
    next: number,
    on: readonly (readonly CutOrder[])[],
    left: ReadonlySet<number>,
  ): void => {
    if (next === jobs.length) {
      weigh(on, left);
      return;
    }
    const { order, index } = jobs[next];
    if (left.has(index)) {
      place(next + 1, on, left);
      return;
    }
    for (const j of muscles.keys()) {
      const more = [...on[j], order];
      if (!fitsOn(j, more)) continue;
      place(next + 1, on.with(j, more), left);
    }
    // an order is served in full or not at all: leaving it out is only tried at its first piece
    if (jobs[next - 1]?.index !== index) place(next + 1, on, new Set([...left, index]));
  };
  const weigh = (on: readonly (readonly CutOrder[])[], left: ReadonlySet<number>): void => {
    for (let chosen = 0; chosen < 2 ** tips.length; chosen++) {
      const tipsKg = tips.reduce(
        (sum, { massKg = 0 }, i) => sum + (chosen & (1 << i) ? massKg : 0),
        0,
      );
      for (let opened = 0; opened < 2 ** muscles.length; opened++) {
        let value = 0;
        let spareKg = 0;
        let possible = true;
        for (const [j, pieces] of on.entries()) {
          const isOpen = (opened & (1 << j)) > 0;
          const isWhole = pieces[0]?.kind === 'whole';
          if ((isWhole && isOpen) || (pieces.length > 0 && !isWhole && !isOpen)) possible = false;
          if (!isOpen) continue;
          const takenKg = pieces.reduce((sum, { massKg = 0 }) => sum + massKg, 0);
          spareKg += stockKg[j] - takenKg;
          value += takenKg - (stockKg[j] + OPENING_KG);
        }
        if (!possible || spareKg < tipsKg - 1e-9) continue;
        value += tipsKg + UNORDERED * (spareKg - tipsKg);
        const others = orders.length - tips.length - left.size;
        const served = others + [...tips.keys()].filter((i) => chosen & (1 << i)).length;
        if (served > best.served || (served === best.served && value > best.value)) {
          best = { served, value };
        }
      }
    }
  };
  best = { served: -1, value: 0 };
  place(
    0,
    stockKg.map(() => []),
    new Set(),
  );
  return best;
}

/** Whether pieces by weight can be cut in some sequence, each as far to the butt end as its kind allows. */
function sequenceFits(muscle: Muscle, pieces: readonly CutOrder[]): boolean {
  if (pieces.some(({ kind }) => kind === 'whole')) {
    return pieces.length === 1 && pieces[0].massKg === muscle.massKg;
  }
  const ends = (kind: string): CutOrder[] => pieces.filter((piece) => piece.kind === kind);
  const [butts, tails] = [ends('butt'), ends('tail')];
  if (butts.length > 1 || tails.length > 1) return false;
  const buttKg = butts[0]?.massKg ?? 0;
  const stopKg = muscle.massKg - (tails[0]?.massKg ?? 0);
  if (buttKg > massBeforeShare(muscle, PARTS.buttTo) + 1e-9) return false;
  if (stopKg < massBeforeShare(muscle, PARTS.tailFrom) - 1e-9) return false;
  const between = pieces.filter(({ kind }) => kind === 'centre' || kind === 'steak');
  const tryFrom = (atKg: number, rest: readonly CutOrder[]): boolean => {
    if (rest.length === 0) return atKg <= stopKg + 1e-9;
    return rest.some((piece, i) => {
      // the rule of what may come from where is the programme's own; that its rows hold exactly what fits is not
      return windowsOf({ ...piece, orders: [] }, muscle).some(({ from, to, massKg }) => {
        const toKg = Math.max(atKg, massBeforeShare(muscle, from)) + massKg;
        if (toKg > Math.min(stopKg, massBeforeShare(muscle, to)) + 1e-9) return false;
        return tryFrom(toKg, rest.toSpliced(i, 1));
      });
    });
  };
  return tryFrom(buttKg, between);
}
