import { RoastError } from '../errors.js';
import { meatOf } from '../meat/index.js';
import type { Allotment } from './allotment.js';
import type { CuttingList, TenderloinUse } from './cuttingList.js';
import { VALUE_GAP } from './cuttingList.js';
import { type Demand, demandsOf, windowsOf } from './demand.js';
import { firstFit } from './firstFit.js';
import { type LaidPiece, layOut } from './layout.js';
import { missingFor } from './missing.js';
import { type Muscle, muscleOf, STOCK_KG } from './muscle.js';
import { CUT_KINDS, type CutOrder, type CuttingRequest, PRICES, TOLERANCE } from './order.js';
import { programmeOf } from './programme.js';
import type { Solve } from './solve.js';

/** Most that is planned at once: beyond, the programme outgrows its time. */
export const LIMITS = { orders: 300, tenderloins: 100, pieces: 200 } as const;

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
  const { orders, stockKg, tolerance = TOLERANCE, prices = PRICES } = request;
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
  const stockValue = stockKg.reduce((sum, kg) => sum + kg * prices.whole, 0);
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
    const { massKg, lengthMm } = muscles[j];
    const withOrder = ({ demand, ...piece }: LaidPiece): TenderloinUse['pieces'][number] => {
      const order = demand === undefined ? undefined : takers[demand][j].shift();
      return { ...piece, ...(order === undefined ? {} : { order }) };
    };
    const order = each.whole === undefined ? undefined : takers[each.whole][j].shift();
    return {
      massKg,
      lengthMm,
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

/** Piece weights [kg] and thicknesses [mm] that are planned; what lies outside is a slip. */
export const PIECE_KG: Readonly<Record<CutOrder['kind'], readonly [low: number, high: number]>> = {
  whole: [0.8, 4.5],
  centre: [0.1, 3],
  butt: [0.1, 3],
  tail: [0.1, 2],
  steak: [0.05, 0.6],
  tips: [0.05, 20],
};
export const STEAK_THICKNESS_MM = [10, 80] as const;

function checkRequest({
  orders,
  stockKg,
  tolerance = TOLERANCE,
  prices = PRICES,
}: CuttingRequest): void {
  checkNumber(stockKg.length, [1, LIMITS.tenderloins], ['stockKg'], 'the number of tenderloins');
  checkNumber(orders.length, [1, LIMITS.orders], ['orders'], 'the number of orders');
  checkNumber(tolerance, [0, 0.2], ['tolerance'], 'the tolerance');
  for (const [i, massKg] of stockKg.entries()) {
    checkNumber(massKg, STOCK_KG, ['stockKg', i], 'the weight of a tenderloin', 'kg');
  }
  for (const kind of CUT_KINDS) {
    checkNumber(prices[kind], [1e-6, 1e6], ['prices', kind], `the price of ${kind}`);
  }
  for (const [i, order] of orders.entries()) checkOrder(order, i);
}

/** @throws RoastError when an order cannot be meant */
function checkOrder({ kind, pieces, massKg, thicknessMm }: CutOrder, i: number): void {
  const at = (field: string): (string | number)[] => ['orders', i, field];
  const mostPieces = kind === 'tips' ? 1 : LIMITS.pieces;
  checkNumber(pieces, [1, mostPieces], at('pieces'), 'the number of pieces');
  if (!Number.isInteger(pieces)) {
    throw new RoastError(`the number of pieces is ${pieces}; it has to be whole`, {
      code: 'out-of-range',
      path: at('pieces'),
      found: pieces,
      accepted: `1 to ${mostPieces}`,
    });
  }
  if (massKg !== undefined) {
    checkNumber(massKg, PIECE_KG[kind], at('massKg'), `the weight of ${NAMES[kind]}`, 'kg');
  }
  if (thicknessMm !== undefined) {
    checkNumber(thicknessMm, STEAK_THICKNESS_MM, at('thicknessMm'), 'the thickness', 'mm');
  }
  if (thicknessMm !== undefined && (kind !== 'steak' || massKg !== undefined)) {
    throw new RoastError(
      kind === 'steak'
        ? 'a steak has a weight and a thickness; only one of them can be met'
        : `${NAMES[kind]} has no thickness`,
      {
        code: 'contradiction',
        path: at('thicknessMm'),
        found: thicknessMm,
        accepted: 'a thickness for steaks without a weight',
      },
    );
  }
  if (kind !== 'whole' && massKg === undefined && thicknessMm === undefined) {
    const accepted = kind === 'steak' ? 'a weight or a thickness' : 'a weight';
    throw new RoastError(`${NAMES[kind]} needs ${accepted}`, {
      code: 'missing',
      path: at('massKg'),
      found: massKg,
      accepted,
    });
  }
}

const NAMES: Readonly<Record<CutOrder['kind'], string>> = {
  whole: 'a whole tenderloin',
  centre: 'a centre roast',
  butt: 'a butt roast',
  tail: 'a tail roast',
  steak: 'a steak',
  tips: 'an order of tips',
};

function checkNumber(
  found: number,
  [low, high]: readonly [number, number],
  path: readonly (string | number)[],
  what: string,
  unit = '',
): void {
  const accepted = `${low} to ${high} ${unit}`.trim();
  if (Number.isFinite(found) && found >= low && found <= high) return;
  throw new RoastError(
    `${what} is ${Number(found.toPrecision(4))}${unit && ` ${unit}`}; it can be ${accepted}`,
    { code: 'out-of-range', path, found, accepted },
  );
}
