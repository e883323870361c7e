import { type QuickInterval, quickInterval } from '@roastsim/core';

/** The quick interval of a plan that has one. */
export function intervalOf(...args: Parameters<typeof quickInterval>): QuickInterval {
  const interval = quickInterval(...args);
  if (interval === undefined) throw new Error('this plan has no quick interval');
  return interval;
}
