import { KG_PER_POUND, type UnitSystem } from '../units/index.js';

/** Steps a counter weighs in [kg]: 50 g and a quarter of a pound. Common practice, no source. */
export const COUNTER_STEP_KG: Readonly<Record<UnitSystem, number>> = {
  metric: 0.05,
  us: KG_PER_POUND / 4,
};

/**
 * A need is met when no more than this share of it is missing: less than a knife and a kitchen scale can tell, and what lies
 * between 8 oz and the 227 g they are rounded to. Judgement.
 */
export const SLACK = 0.005;

/** A number without the noise of its last digits: 0.35 / 0.05 is 7.000000000000001. */
export const tidy = (value: number): number => Math.round(value * 1e9) / 1e9;

/**
 * Weights to ask for: as few pieces as can be, about equal, together the need rounded up to the counter's step, none heavier than
 * is usual and none lighter, even where that gives more than is needed. A greater need never gives less.
 *
 * @param needKg - weight wanted in all [kg], above 0
 * @param usualKg - weights a counter meets [kg]
 * @returns weights [kg], heaviest first
 */
export function piecesFor(
  needKg: number,
  [lowKg, highKg]: readonly [number, number],
  stepKg: number,
): number[] {
  const most = Math.floor(tidy(highKg / stepKg));
  const least = Math.ceil(tidy(lowKg / stepKg));
  const needed = Math.ceil(tidy((needKg * (1 - SLACK)) / stepKg));
  const count = Math.max(1, Math.ceil(needed / most));
  const steps = Math.max(needed, count * least);
  return Array.from({ length: count }, (_, i) =>
    tidy(stepKg * (Math.floor(steps / count) + (i < steps % count ? 1 : 0))),
  );
}

/** Whether a weight meets a need [kg], within {@link SLACK}. */
export const meets = (massKg: number, needKg: number): boolean =>
  massKg >= needKg * (1 - SLACK) - 1e-9;

/** Whole portions in a trimmed weight, within {@link SLACK}. */
export const portionsIn = (trimmedKg: number, portionKg: number): number =>
  Math.floor((trimmedKg * (1 + SLACK)) / portionKg + 1e-9);
