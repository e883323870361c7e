import { meatOf } from '../meat/index.js';
import type { Allotment } from './allotment.js';
import { checkRequest } from './checkRequest.js';
import type { CuttingList, TenderloinUse } from './cuttingList.js';
import { VALUE_GAP } from './cuttingList.js';
import { type Demand, demandsOf, windowsOf } from './demand.js';
import { firstFit } from './firstFit.js';
import { type LaidPiece, layOut } from './layout.js';
import { missingFor } from './missing.js';
import { type Muscle, muscleOf } from './muscle.js';
import { type CuttingRequest, KIND_PRICES, type KindPrices, TOLERANCE } from './order.js';
import { programmeOf } from './programme.js';
import type { Solve } from './solve.js';

const TIME_LIMIT_S = 7;
/** When the three questions have to be answered, as shares of the time; what one does not need the next may have. */
const TIME_SHARES = { served: 0.5, value: 0.8 } as const;
const LEAST_S = 0.3;

/**
 * Allots a day's orders to the tenderloins at hand: first as many orders served as possible, then the most made of the meat. What
 * is found is exact along the muscle; what is proven of it stands in {@link CuttingList.proof}.
 *
 * @param solve - a solver for mixed-integer linear programmes
 * @param secondsNow - a clock that only runs forward [s], to share out the time limit
 * @throws RoastError `out-of-range`, `missing`, `contradiction`
 * @example
 * // keeps what it is given to begin with; a program hands in a real solver
 * const solve: Solve = async (_lp, { start }) => ({ status: 'stopped', objective: 0, bound: 1e6, values: start })
 * const orders: CutOrder[] = [{ kind: 'centre', pieces: 1, massKg: 0.9 }]
 * const list = await cutTenderloins({ orders, stockKg: [2.4] }, solve, () => 0)
 * list.served // => [true]
 */
export async function cutTenderloins(
  request: CuttingRequest,
  solve: Solve,
  secondsNow: () => number,
): Promise<CuttingList> {
  checkRequest(request);
  const { orders, stockKg, tolerance = TOLERANCE } = request;
  const prices = inKilogramsOfWhole(request.prices ?? KIND_PRICES);
  const { densityKgPerM3 = meatOf().densityKgPerM3, timeLimitS = TIME_LIMIT_S } = request;
  const startedS = secondsNow();
  const until = (share: number): number =>
    Math.max(LEAST_S, share * timeLimitS - (secondsNow() - startedS));
  const muscles = stockKg.map((massKg) => muscleOf(massKg, densityKgPerM3));
  const demands = demandsOf(orders);
  const windows = muscles.map((muscle) => demands.map((demand) => windowsOf(demand, muscle)));
  const begin = firstFit(demands, muscles, windows, tolerance);
  const programme = programmeOf(demands, muscles, tolerance, prices);
  let values = programme.encode(begin);
  let servedCount = begin.served.filter(Boolean).length;
  let servedAtMost = orders.length;
  if (servedCount < orders.length) {
    const first = await solve(programme.mostServed, {
      timeLimitS: until(TIME_SHARES.served),
      gap: COUNT_GAP,
      presolve: false, // in trials it found as much in less time
      start: values,
    });
    const count = Math.round(first.objective);
    if (count >= servedCount) {
      servedCount = count;
      values = first.values;
    }
    // without time for any proof the bound is infinite
    const bound = Math.min(orders.length, Math.floor(first.bound + COUNT_HAIR));
    servedAtMost = Math.max(servedCount, bound);
  }
  const stockValue = stockKg.reduce((sum, kg) => sum + kg, 0);
  const gap = VALUE_GAP * stockValue;
  const second = await solve(programme.mostValue(servedCount), {
    timeLimitS: until(TIME_SHARES.value),
    gap: gap / 2,
    presolve: true,
    start: values,
  });
  // half of the gap is left for tidiness
  const leastValue = second.objective - gap / 2;
  const third = await solve(programme.leastSpread(servedCount, leastValue), {
    timeLimitS: until(1),
    gap: COUNT_GAP,
    presolve: true,
    start: programme.withSpread(second.values),
  });
  const allotment = programme.decode(third.values);
  const tenderloins = laidOut(allotment, demands, muscles);
  const unserved = orders.flatMap((_, index) => (allotment.served[index] ? [] : [index]));
  return {
    tenderloins,
    served: allotment.served,
    ...(unserved.length === 0
      ? {}
      : { missing: missingFor(orders, unserved, tolerance, densityKgPerM3) }),
    totals: totalsOf(tenderloins),
    proof: {
      servedAtMost,
      ...(Number.isFinite(second.bound)
        ? // what tidiness may have cost counts as not gained
          { valueGap: Math.max(0, (second.bound - leastValue) / stockValue) }
        : {}),
    },
  };
}

/** Only ratios count, so a kilogram of whole tenderloin is the unit of value. */
const inKilogramsOfWhole = (prices: KindPrices): KindPrices => ({
  whole: 1,
  centre: prices.centre / prices.whole,
  butt: prices.butt / prices.whole,
  tail: prices.tail / prices.whole,
  steak: prices.steak / prices.whole,
  tips: prices.tips / prices.whole,
});

const COUNT_GAP = 0.99; // orders are whole: nothing lies between
const COUNT_HAIR = 1e-4;

/** Pieces at their places, and each handed to an order. */
function laidOut(
  allotment: Allotment,
  demands: readonly Demand[],
  muscles: readonly Muscle[],
): TenderloinUse[] {
  const laid = allotment.muscles.map((each, j) =>
    isCut(each) ? layOut(each, demands, muscles[j]) : [],
  );
  const takers = demands.map((demand, d) =>
    handOut(
      // tips are portioned, not counted
      demand.orders.filter(({ index }) => demand.kind !== 'tips' && allotment.served[index]),
      allotment.muscles.map(({ whole }, j) =>
        whole === d ? 1 : laid[j].filter((piece) => piece.demand === d).length,
      ),
    ),
  );
  const endsKg = laid.map((pieces) =>
    pieces.reduce((sum, { use, massKg }) => sum + (use === 'ends' ? massKg : 0), 0),
  );
  const tips = tipsOut(allotment.served, demands, endsKg);
  return allotment.muscles.map((each, j): TenderloinUse => {
    const { massKg, lengthMm, thickestMm } = muscles[j];
    const withOrder = ({ demand, ...piece }: LaidPiece): TenderloinUse['pieces'][number] => {
      const order = demand === undefined ? undefined : takers[demand][j].shift();
      return { ...piece, ...(order === undefined ? {} : { order }) };
    };
    const order = each.whole === undefined ? undefined : takers[each.whole][j].shift();
    return {
      massKg,
      lengthMm,
      thickestMm,
      use: each.whole !== undefined ? 'whole' : isCut(each) ? 'cut' : 'spare',
      ...(order === undefined ? {} : { order }),
      pieces: laid[j].map(withOrder),
      tips: tips[j],
    };
  });
}

const isCut = ({ butt, tail, lots, tipsKg }: Allotment['muscles'][number]): boolean =>
  butt !== undefined || tail !== undefined || lots.length > 0 || tipsKg > 0;

/**
 * Hands like pieces to orders, large orders first, so that as few as possible come from several tenderloins.
 *
 * @param counts - pieces there are of each muscle
 * @returns by muscle the orders its pieces go to, one entry a piece
 */
function handOut(orders: Demand['orders'], counts: readonly number[]): number[][] {
  const left = [...counts];
  const takers: number[][] = counts.map(() => []);
  for (const { index, pieces } of orders.toSorted((a, b) => b.pieces - a.pieces)) {
    let wanted = pieces;
    while (wanted > 0) {
      // the muscle that has just enough, else the one that has most
      const enough = left.flatMap((count, j) => (count >= wanted ? [j] : []));
      const from =
        enough.length > 0
          ? enough.reduce((best, j) => (left[j] < left[best] ? j : best))
          : left.indexOf(Math.max(...left));
      const taken = Math.min(wanted, left[from]);
      if (taken === 0) throw new Error('the allotment holds too few pieces');
      takers[from].push(...new Array<number>(taken).fill(index));
      left[from] -= taken;
      wanted -= taken;
    }
  }
  return takers;
}

const HAIR_KG = 1e-5;

/** Hands tips to orders from the ends there are: from the muscle that has just enough, else from the one that has most. */
function tipsOut(
  served: readonly boolean[],
  demands: readonly Demand[],
  endsKg: readonly number[],
): { order: number; massKg: number }[][] {
  const left = [...endsKg];
  const shares: { order: number; massKg: number }[][] = endsKg.map(() => []);
  const wanted = demands
    .flatMap(({ kind, massKg = 0, orders }) =>
      kind === 'tips' ? orders.map(({ index }) => ({ index, massKg })) : [],
    )
    .filter(({ index }) => served[index])
    .sort((a, b) => b.massKg - a.massKg);
  for (const { index, massKg } of wanted) {
    let wantedKg = massKg;
    while (wantedKg > HAIR_KG) {
      const enough = left.flatMap((kg, j) => (kg >= wantedKg ? [j] : []));
      const from =
        enough.length > 0
          ? enough.reduce((best, j) => (left[j] < left[best] ? j : best))
          : left.indexOf(Math.max(...left));
      const taken = Math.min(wantedKg, left[from]);
      if (taken <= 0) break; // the hair of mass that the solver may be off
      shares[from].push({ order: index, massKg: taken });
      left[from] -= taken;
      wantedKg -= taken;
    }
  }
  return shares;
}

function totalsOf(tenderloins: readonly TenderloinUse[]): CuttingList['totals'] {
  const sum = (values: readonly number[]): number => values.reduce((total, kg) => total + kg, 0);
  const massOf = (use: TenderloinUse['use']): number =>
    sum(tenderloins.filter((each) => each.use === use).map(({ massKg }) => massKg));
  const pieces = tenderloins.flatMap((each) => each.pieces);
  const kg = (use: string): number => sum(pieces.filter((p) => p.use === use).map((p) => p.massKg));
  const tipsKg = sum(tenderloins.flatMap(({ tips }) => tips.map(({ massKg }) => massKg)));
  const cutKg = massOf('cut');
  const spareEndsKg = Math.max(0, kg('ends') - tipsKg);
  return {
    stockKg: sum(tenderloins.map(({ massKg }) => massKg)),
    cutKg,
    orderedKg: kg('order') + massOf('whole') + tipsKg,
    toSellKg: kg('sell'),
    spareEndsKg,
    wasteShare: cutKg === 0 ? 0 : spareEndsKg / cutKg,
    spareKg: massOf('spare'),
  };
}
