import {
  type OrderCut,
  planOrder,
  RoastError,
  shapeOf,
  type TyingReport,
  tyingReport,
} from '@roastsim/core';
import pc from 'picocolors';
import type { Io } from '../io.js';
import { type OrderWords, type ReadOrder, readOrderOptions } from '../read/orderOptions.js';
import { pointingAt } from '../read/planOptions.js';

/** {@link OrderWords}, the shop's files and where the answer goes. */
export interface OrderArguments extends OrderWords {
  readonly orders?: string;
  readonly tolerance?: string;
  readonly out?: string;
  readonly prices?: string;
  readonly settings?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/**
 * Sizes an order, or cuts a day of orders from a stock.
 *
 * @param fail - called when orders of the list came to nothing
 * @throws RoastError for the options and the shop's files
 */
export function runOrder(
  words: OrderArguments,
  io: Io,
  version: string,
  fail: () => void,
): Promise<void> {
  return words.orders === undefined ? size(words, io, version) : cut(words, words.orders, io, fail);
}

/** Options that belong to one of the two jobs of the command. */
const OF_GUESTS = ['guests', 'children', 'appetite', 'portion', 'leftovers', 'oven'] as const;
const OF_LIST = ['out', 'tolerance'] as const;

function refuseBeside(
  words: OrderArguments,
  keys: readonly (keyof OrderArguments)[],
  why: string,
): void {
  const key = keys.find((each) => words[each] !== undefined);
  if (key === undefined) return;
  throw new RoastError(`--${key}: ${why}; accepted: one of the two`, {
    code: 'contradiction',
    path: [`--${key}`],
    found: words[key],
    accepted: 'one of the two',
  });
}

/** The cutting list, loaded only when it is asked for. */
async function cut(words: OrderArguments, orders: string, io: Io, fail: () => void): Promise<void> {
  refuseBeside(
    words,
    [...OF_GUESTS, 'doneness', 'scale', 'quiet'],
    'a cutting list has no use for it',
  );
  const { stock } = words;
  if (stock === undefined) {
    const accepted = '--stock "2.4kg, 2.6kg" with --orders';
    throw new RoastError(`--stock: what there is to cut from is missing; accepted: ${accepted}`, {
      code: 'missing',
      path: ['--stock'],
      found: undefined,
      accepted,
    });
  }
  const { runCuttingList } = await import('./cuttingList.js');
  await runCuttingList({ ...words, orders, stock }, io, fail);
}

/** Reads the shop's files; their readers are only loaded when there are some. */
async function read(words: OrderArguments): Promise<ReadOrder> {
  const settings =
    words.settings === undefined
      ? {}
      : await (await import('../read/settings.js')).readSettings(words.settings);
  const prices =
    words.prices === undefined
      ? undefined
      : await (await import('../read/prices.js')).readPrices(words.prices);
  return readOrderOptions(words, settings, prices);
}

async function size(words: OrderArguments, io: Io, version: string): Promise<void> {
  refuseBeside(words, OF_LIST, 'it belongs to a cutting list, and there is no --orders');
  const { request, units, locale, assumed } = await read(words);
  const order = pointingAt(undefined, words, () => planOrder(request));
  const tie = (cuts: readonly OrderCut[]): ReadonlyMap<OrderCut, TyingReport> =>
    new Map(
      order.candidates
        .filter(({ cut }) => cuts.includes(cut))
        .map(({ cut, piecesKg, askKg, trimmedKg }) => [
          cut,
          tyingReport(shapeOf(cut), (piecesKg[0] * trimmedKg) / askKg, order.cook),
        ]),
    );
  const children = request.children?.length ?? 0;
  if (words.json === true) {
    const { orderDocument } = await import('../show/orderDocument.js');
    const tying = tie(order.candidates.map(({ cut }) => cut));
    const context = { version, units, locale, assumed, children, tying };
    io.out(`${JSON.stringify(orderDocument(order, context))}\n`);
    return;
  }
  const { orderReport, shortOrder } = await import('../show/orderText.js');
  const quiet = words.quiet === true;
  const { cut } = order.recommendation;
  const tying = tie(quiet ? [] : cut === 'untrimmed' ? [cut] : [cut, 'whole']);
  const context = { units, locale, assumed, children, tying, colors: pc.createColors(io.color) };
  io.out(quiet ? shortOrder(order, context) : orderReport(order, context));
}
