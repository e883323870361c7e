import {
  type CutKind,
  KG_PER_POUND,
  KIND_PRICES,
  type KindPrices,
  ORDER_CUTS,
  type OrderCut,
  type Prices,
  RoastError,
} from '@roastsim/core';
import { z } from 'zod';
import { readDataFile } from './dataFile.js';

/** Highest price read: a currency of small coins has seven digits for a kilogram, and a slip has more. */
const HIGHEST = 1e9;

const price = z
  .number('a price, like 52.5')
  .nonnegative('a price of 0 or more')
  .max(HIGHEST, `a price up to ${HIGHEST}`)
  .optional();

/** Prices of a shop as its file says them. */
export const PRICES = z.strictObject({
  /** ISO 4217. */
  currency: z.string().refine(isCurrency, 'an ISO 4217 code: EUR, GBP, USD'),
  /** What a price is for. */
  per: z.enum(['kg', 'lb']),
  cuts: z
    .strictObject({
      centre: price,
      butt: price,
      whole: price,
      untrimmed: price,
      // what only a cutting list sells
      tail: price,
      steak: price,
      tips: price,
    })
    .refine((cuts) => ORDER_CUTS.some((cut) => cuts[cut] !== undefined), 'a price for a cut'),
});

function isCurrency(code: string): boolean {
  return Intl.supportedValuesOf('currency').includes(code);
}

/** Prices for a kilogram. */
export function pricesOf({ currency, per, cuts }: z.infer<typeof PRICES>): Prices {
  const perKg: Partial<Record<OrderCut, number>> = {};
  for (const cut of ORDER_CUTS) {
    const said = cuts[cut];
    if (said !== undefined) perKg[cut] = said / (per === 'lb' ? KG_PER_POUND : 1);
  }
  return { currency, perKg };
}

/**
 * Reads a price list, YAML or JSON.
 *
 * @throws RoastError `unreadable`, `unknown-name`, `out-of-range`
 */
export const readPrices = async (file: string): Promise<Prices> =>
  pricesOf(await readDataFile({ file, option: '--prices', entry: 'key' }, PRICES));

/**
 * Reads what each kind of piece brings by weight from a price list.
 *
 * @throws RoastError as {@link readPrices}, and as {@link kindPricesOf}
 */
export async function readKindPrices(file: string): Promise<KindPrices> {
  const { cuts } = await readDataFile({ file, option: '--prices', entry: 'key' }, PRICES);
  return kindPricesOf(cuts, '--prices');
}

/**
 * What each kind of piece brings by weight. Only the ratios count; kinds left out keep their usual ratio to whole.
 *
 * @throws RoastError `missing` without a price above 0 for whole
 */
export function kindPricesOf(
  cuts: { readonly [K in CutKind]?: number | undefined },
  option: string,
): KindPrices {
  const { whole } = cuts;
  if (whole === undefined || whole === 0) {
    const accepted = 'a price above 0 for whole, which the others go by';
    throw new RoastError(`${option}: there is no price for whole; accepted: ${accepted}`, {
      code: 'missing',
      path: [option],
      found: whole,
      accepted,
    });
  }
  const of = (kind: CutKind): number => {
    const said = cuts[kind];
    return said === undefined || said === 0 ? whole * KIND_PRICES[kind] : said;
  };
  return {
    whole,
    centre: of('centre'),
    butt: of('butt'),
    tail: of('tail'),
    steak: of('steak'),
    tips: of('tips'),
  };
}
