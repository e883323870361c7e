import { RoastError } from '../errors.js';

/** What a roast can weigh and measure; in one place so that all ways to describe one agree. */
export const MASS_KG = [0.05, 12] as const;
export const LENGTH_MM = [40, 1200] as const;
export const DIAMETER_MM = [20, 250] as const;

/** @throws RoastError `not-a-number` or `out-of-range` */
export function checkRange(
  found: number,
  [low, high]: readonly [number, number],
  field: string,
  what: string,
  unit: string,
): void {
  if (typeof found !== 'number' || !Number.isFinite(found)) {
    throw new RoastError(`${what} is not a number`, {
      code: 'not-a-number',
      path: [field],
      found,
      accepted: `${low} to ${high} ${unit}`,
    });
  }
  if (found < low || found > high) {
    throw new RoastError(
      `${what} is ${Number(found.toPrecision(4))} ${unit}; it can be ${low} to ${high} ${unit}`,
      { code: 'out-of-range', path: [field], found, accepted: `${low} to ${high} ${unit}` },
    );
  }
}
