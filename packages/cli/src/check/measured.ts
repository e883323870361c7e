import { published } from './published.js';

/** Figures of one record of data/published/measured-roasts.json; only those its kind has. */
export interface MeasuredRoast {
  readonly id: string;
  readonly evidence: string;
  readonly source: string;
  readonly mass_kg: number;
  readonly oven_C: number;
  readonly in_oven_min: number;
  readonly removed_C: number;
  readonly rise_K: number;
  readonly rise_at_14_min_K: number;
  readonly time_min: readonly number[];
  readonly axis_C: readonly number[];
  readonly min: number;
  readonly end_C: number;
  readonly loss_pct: number;
  readonly fan_over_static_time: number;
}

const tables =
  published<
    Readonly<Record<'carryover' | 'temperature_time' | 'loss', readonly Partial<MeasuredRoast>[]>>
  >('measured-roasts');

/**
 * A measured roast by its id, with the figures the caller names.
 *
 * @throws Error when the record or a figure is missing
 */
export function measured<K extends keyof MeasuredRoast>(
  id: string,
  ...figures: readonly K[]
): Pick<MeasuredRoast, K> {
  const found = [...tables.carryover, ...tables.temperature_time, ...tables.loss].find(
    (one) => one.id === id,
  );
  for (const figure of figures) {
    if (found?.[figure] === undefined) throw new Error(`${id} has no ${figure}`);
  }
  return found as Pick<MeasuredRoast, K>;
}
