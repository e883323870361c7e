import { type TenderloinCut, tenderloin } from '@roastsim/core';
import { type Ask, cooked, type Outcome, READING } from './cook.js';
import { published } from './published.js';

type Pair = readonly [low: number, high: number];

/** One line of a roasting chart, as kept in data/published/roasting-charts.json. */
export interface ChartRow {
  readonly cut: string;
  readonly oven_C: number;
  readonly weight_kg: Pair;
  readonly doneness: string | null;
  readonly time_min?: Pair;
  readonly remove_C?: number;
  readonly rise_K?: number;
  readonly width_m?: Pair;
}

export interface Edition {
  readonly id: string;
  readonly source: string;
  readonly rows: readonly ChartRow[];
}

export interface RiseRecord {
  readonly what: string;
  readonly rise_K?: readonly [number, number | null];
  readonly average_roasts_rise_K?: Pair;
  readonly source: string;
}

export const CHARTS = published<{
  readonly editions: readonly Edition[];
  readonly carryover: readonly RiseRecord[];
}>('roasting-charts');

/** An edition by its id. */
export function edition(id: string): Edition {
  const found = CHARTS.editions.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no edition ${id}`);
  return found;
}

/**
 * Who says what the thermometer shows at removal. Rows of one group are held against their common window; the cold oven and the
 * charts without a removal temperature are shown, not judged.
 */
export const GROUPS = {
  'nlsmb-rare-medium': 'cold oven',
  'checkoff-1990s-servings': 'no temperature',
  deca: 'no temperature',
  'ncba-2000s': 'trade',
  'checkoff-current': 'trade',
  'usda-fsis-farm-to-table': 'government',
  'foodsafety-gov-2011': 'government',
  'foodsafety-gov-later': 'government',
} as const;
export type Group = (typeof GROUPS)[keyof typeof GROUPS];

/** Removal temperature taken for charts that state none [°C]: what the others ask of "medium rare". */
const MEDIUM_RARE_C = 57.2;
const WHOLE_FROM_KG = 1.6; // charts that say only "tenderloin" sell halves below and whole ones above

/** A tenderloin row of a chart, made comparable. */
export interface TenderloinRow {
  readonly edition: string;
  readonly group: Group;
  readonly cut: Extract<TenderloinCut, 'whole' | 'centre'>;
  readonly weightKg: Pair;
  readonly ovenC: number;
  readonly removeC: number;
  readonly minutes: Pair;
}

export const TENDERLOIN_ROWS: readonly TenderloinRow[] = CHARTS.editions.flatMap(({ id, rows }) =>
  rows
    .filter((row) => row.cut.startsWith('tenderloin'))
    .map((row) => ({
      edition: id,
      group: GROUPS[id as keyof typeof GROUPS],
      cut: row.weight_kg[0] > WHOLE_FROM_KG ? ('whole' as const) : ('centre' as const),
      weightKg: row.weight_kg,
      ovenC: row.oven_C,
      removeC: row.remove_C ?? MEDIUM_RARE_C,
      minutes: row.time_min ?? [Number.NaN, Number.NaN],
    })),
);

export const middleOf = ([low, high]: Pair): number => (low + high) / 2;

const known = new Map<string, Outcome>();

/** A tenderloin straight from the refrigerator, roasted until its reading is `removeC`; each is computed once. */
export function tenderloinTo(
  cut: TenderloinCut,
  massKg: number,
  ask: Pick<Ask, 'ovenC' | 'reachesC' | 'start' | 'offAxis'>,
): Outcome {
  const key = JSON.stringify([cut, massKg, ask]);
  const found = known.get(key) ?? cooked(tenderloin({ massKg, cut }), ask);
  known.set(key, found);
  return found;
}

/** The model's answer to a chart's row, for a weight of its range. */
export const answer = (row: TenderloinRow, massKg: number, offAxis = READING): Outcome =>
  tenderloinTo(row.cut, massKg, {
    ovenC: row.ovenC,
    reachesC: row.removeC,
    start: row.group === 'cold oven' ? 'cold' : 'preheated',
    offAxis,
  });

/** All editions of a group on one cut and removal temperature, together. */
export interface Union {
  readonly group: Group;
  readonly cut: TenderloinRow['cut'];
  readonly removeC: number;
  readonly editions: readonly string[];
  /** From the shortest to the longest time any of them prints. */
  readonly minutes: Pair;
  /** The same, a tenth wider at both ends: charts are rounded to 5 minutes and pad for safety. */
  readonly widened: Pair;
  readonly rows: readonly TenderloinRow[];
}

const WIDENED_BY = 0.1;

export function unionsOf(group: Group): Union[] {
  const keys = new Map<string, TenderloinRow[]>();
  for (const row of TENDERLOIN_ROWS) {
    if (row.group !== group) continue;
    const key = `${row.cut} ${row.removeC}`;
    keys.set(key, [...(keys.get(key) ?? []), row]);
  }
  const sorted = [...keys.entries()].sort(([a], [b]) => (a < b ? -1 : 1));
  return sorted.map(([, rows]) => {
    const low = Math.min(...rows.map((row) => row.minutes[0]));
    const high = Math.max(...rows.map((row) => row.minutes[1]));
    const [{ cut, removeC }] = rows;
    return {
      group,
      cut,
      removeC,
      editions: rows.map((row) => row.edition),
      minutes: [low, high],
      widened: [low * (1 - WIDENED_BY), high * (1 + WIDENED_BY)],
      rows,
    };
  });
}
