import { planCook } from '@roastsim/core';
import { type PlanOrder, type PlanWords, pointingAt } from '../read/planOptions.js';
import type { Planned } from './planned.js';

/**
 * Plans an order; errors point at its options.
 *
 * @throws RoastError as the library does
 */
export async function planFor(words: PlanWords, order: PlanOrder): Promise<Planned> {
  if (order.table === undefined) {
    return { plan: pointingAt(undefined, words, () => planCook(order.roast, order.request)) };
  }
  const { planTable } = await import('./planTable.js');
  const { table } = order;
  return pointingAt(undefined, words, () => planTable(order, table));
}
