import { published } from './published.js';

/** What the compositions of raw and roasted tenderloin say about the weight that is left. */
export interface YieldRow {
  readonly ndb_raw: string;
  readonly ndb_cooked: string;
  readonly food: string;
  readonly yield_by_protein: number;
}

interface Food {
  readonly ndb: string;
  readonly protein: number;
}

const { cooking_yield } = published<{
  readonly cooking_yield: { readonly rows: readonly YieldRow[]; readonly source: string };
}>('yields');
const { composition } = published<{
  readonly composition: { readonly tenderloin: readonly Food[] };
}>('thermal-properties');

export const YIELDS = cooking_yield;

/** Protein of a record of the nutrient database [g per 100 g]. */
export function proteinOf(ndb: string): number {
  const found = composition.tenderloin.find((food) => food.ndb === ndb);
  if (found === undefined) throw new Error(`no record ${ndb}`);
  return found.protein;
}

/** Loss of weight by those yields, smallest and largest, as shares. */
export const DERIVED_LOSS = {
  low: 1 - Math.max(...YIELDS.rows.map((row) => row.yield_by_protein)),
  high: 1 - Math.min(...YIELDS.rows.map((row) => row.yield_by_protein)),
} as const;

/** End point of those roasts before standing [°C], from memory. */
export const DERIVED_END_C = 60;
