import { RoastError } from '../errors.js';
import { STOCK_KG } from './muscle.js';
import { CUT_KINDS, type CutOrder, type CuttingRequest, KIND_PRICES, TOLERANCE } from './order.js';

/** Most that is planned at once: beyond, the programme outgrows its time. */
export const LIMITS = { orders: 300, tenderloins: 100, pieces: 200, allPieces: 1000 } as const;

/** KindPrices against that of whole tenderloins; beyond, one of them is a slip. */
const PRICE_RATIO = [0.01, 100] as const;

/** Piece weights [kg] that are planned; what lies outside is a slip. */
export const PIECE_KG: Readonly<Record<CutOrder['kind'], readonly [low: number, high: number]>> = {
  whole: [0.8, 4.5],
  centre: [0.1, 3],
  butt: [0.1, 3],
  tail: [0.1, 2],
  steak: [0.05, 0.6],
  tips: [0.05, 20],
};
/** Thicknesses of steaks [mm] that are planned. */
export const STEAK_THICKNESS_MM = [10, 80] as const;

/** @throws RoastError `out-of-range`, `missing`, `contradiction` */
export function checkRequest({
  orders,
  stockKg,
  tolerance = TOLERANCE,
  prices = KIND_PRICES,
}: CuttingRequest): void {
  checkNumber(stockKg.length, [1, LIMITS.tenderloins], ['stockKg'], 'the number of tenderloins');
  checkNumber(orders.length, [1, LIMITS.orders], ['orders'], 'the number of orders');
  checkNumber(tolerance, [0, 0.2], ['tolerance'], 'the tolerance');
  for (const [i, massKg] of stockKg.entries()) {
    checkNumber(massKg, STOCK_KG, ['stockKg', i], 'the weight of a tenderloin', 'kg');
  }
  for (const kind of CUT_KINDS) {
    const ratio = prices[kind] / prices.whole;
    checkNumber(ratio, PRICE_RATIO, ['prices', kind], `the price of ${kind} over that of whole`);
  }
  for (const [i, order] of orders.entries()) checkCutOrder(order, ['orders', i]);
  const all = orders.reduce((sum, { pieces }) => sum + pieces, 0);
  checkNumber(all, [1, LIMITS.allPieces], ['orders'], 'the number of pieces of all orders');
}

/**
 * Makes sure that an order can be meant.
 *
 * @param path - steps to it, for the error
 * @throws RoastError `out-of-range`, `missing`, `contradiction`
 * @example
 * checkCutOrder({ kind: 'steak', pieces: 4, thicknessMm: 40 }) // throws where it cannot be meant
 */
export function checkCutOrder(
  { kind, pieces, massKg, thicknessMm }: CutOrder,
  path: readonly (string | number)[] = [],
): void {
  const at = (field: string): (string | number)[] => [...path, field];
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
