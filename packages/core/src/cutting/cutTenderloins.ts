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
import { type CuttingRequest, PRICES, type Prices, TOLERANCE } from './order.js';
import { programmeOf } from './programme.js';
import type { Solve } from './solve.js';

const TIME_LIMIT_S = 8;
/** Share of the time for finding out how many orders can be served; what it does not need goes to the second question. */
const FIRST_SHARE = 0.6;

/**
 * Allots a day's orders to the tenderloins at hand: first as many orders served as possible, then the most made of the meat. What
 * is found is exact along the muscle; what is proven of it stands in {@link CuttingList.proof}.
 *
 * @param solve - a solver for mixed-integer linear programmes
 * @param secondsNow - a clock that only runs forward [s], to share out the time limit
 * @throws RoastError `out-of-range`, `missing`, `contradiction`
 */
export async function cutTenderloins(
  request: CuttingRequest,
  solve: Solve,
  secondsNow: () => number,
): Promise<CuttingList> {
  checkRequest(request);
  const { orders, stockKg, tolerance = TOLERANCE } = request;
  const prices = inKilogramsOfWhole(request.prices ?? PRICES);
  const { densityKgPerM3 = meatOf().densityKgPerM3, timeLimitS = TIME_LIMIT_S } = request;
  const startedS = secondsNow();
  const leftS = (): number => Math.max(0.5, timeLimitS - (secondsNow() - startedS));
  const muscles = stockKg.map((massKg) => muscleOf(massKg, densityKgPerM3));
  const demands = demandsOf(orders);
  const windows = muscles.map((muscle) => demands.map((demand) => windowsOf(demand, muscle)));
  const begin = firstFit(demands, muscles, windows, tolerance);
  const programme = programmeOf(demands, muscles, tolerance, prices);
  let start = programme.encode(begin);
  let servedCount = begin.served.filter(Boolean).length;
  let servedAtMost = orders.length;
  if (servedCount < orders.length) {
    const first = await solve(programme.mostServed, {
      timeLimitS: FIRST_SHARE * timeLimitS,
      gap: COUNT_GAP,
      start,
    });
    const count = Math.round(first.objective);
    if (count >= servedCount) {
      servedCount = count;
      start = first.values;
    }
    servedAtMost = Math.max(servedCount, Math.floor(first.bound + COUNT_HAIR));
  }
  const stockValue = stockKg.reduce((sum, kg) => sum + kg, 0);
  const second = await solve(programme.mostValue(servedCount), {
    timeLimitS: leftS(),
    gap: VALUE_GAP * stockValue,
    start,
  });
  const allotment = programme.decode(second.values);
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
      valueGap: Math.max(0, (second.bound - second.objective) / stockValue),
    },
  };
}

/** Only ratios count, so a kilogram of whole tenderloin is the unit of value. */
const inKilogramsOfWhole = (prices: Prices): Prices => ({
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
  const tips = tipsOut(allotment, demands);
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

function tipsOut(
  { muscles, served }: Allotment,
  demands: readonly Demand[],
): { order: number; massKg: number }[][] {
  const left = muscles.map(({ tipsKg }) => tipsKg);
  const shares: { order: number; massKg: number }[][] = muscles.map(() => []);
  for (const { kind, massKg = 0, orders } of demands) {
    if (kind !== 'tips') continue;
    for (const { index } of orders) {
      if (!served[index]) continue;
      let wantedKg = massKg;
      while (wantedKg > HAIR_KG) {
        const from = left.indexOf(Math.max(...left));
        const taken = Math.min(wantedKg, left[from]);
        if (taken <= 0) break;
        shares[from].push({ order: index, massKg: taken });
        left[from] -= taken;
        wantedKg -= taken;
      }
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
