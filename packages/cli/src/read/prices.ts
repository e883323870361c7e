import { KG_PER_POUND, ORDER_CUTS, type OrderCut, type Prices } from '@roastsim/core';
import { z } from 'zod';
import { readDataFile } from './dataFile.js';

const price = z.number('a price, like 52.5').nonnegative('a price of 0 or more').optional();

/** Prices of a shop as its file says them. */
export const PRICES = z.strictObject({
  /** ISO 4217. */
  currency: z.string().refine(isCurrency, 'an ISO 4217 code: EUR, GBP, USD'),
  /** What a price is for. */
  per: z.enum(['kg', 'lb']),
  cuts: z
    .strictObject({ centre: price, butt: price, whole: price, untrimmed: price })
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
