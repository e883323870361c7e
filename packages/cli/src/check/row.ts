import type { GroupName } from './groups.js';

/** What a row is worth as evidence. Only `exact` and `fit` rows leave no room for judgement. */
export const KINDS = ['fit', 'check', 'hold-out', 'exact'] as const;
export type Kind = (typeof KINDS)[number];

export const VERDICTS = ['pass', 'near', 'off'] as const;
export type Verdict = (typeof VERDICTS)[number];

export type Pair = readonly [low: number, high: number];

/** How far outside what is published a figure may lie, to one side: for a pass, and to be near. */
type Limits = readonly [pass: number, near: number];

/** What is allowed: a share of the nearer published figure, or a distance in the row's unit. */
export interface Allowance {
  readonly as: 'share' | 'distance';
  readonly below: Limits;
  readonly above: Limits;
}

/** So large a share either way. */
export const share = (pass: number, near: number): Allowance => ({
  as: 'share',
  below: [pass, near],
  above: [pass, near],
});

/** So far either way, in the row's unit. */
export const distance = (pass: number, near: number): Allowance => ({
  as: 'distance',
  below: [pass, near],
  above: [pass, near],
});

/** One published figure beside the simulator's. */
export interface Row {
  readonly what: string;
  readonly kind: Kind;
  /** The command fails when this row is off. */
  readonly must: boolean;
  /** Published: a window, or one figure twice. */
  readonly published: Pair;
  /** The simulator's, one figure twice or a span where an input was not reported; undefined when it never gets there. */
  readonly model: Pair | undefined;
  readonly unit: string;
  readonly decimals: number;
  readonly allow: Allowance;
  /** Where the published figure stands: a record of data/published or data/reference, or a printed source. */
  readonly source: string;
  readonly note?: string;
}

/** The same figure as window. */
export const just = (value: number): Pair => [value, value];

/** A figure that may be missing, as a pair. */
export const maybe = (value: number | undefined): Pair | undefined =>
  value === undefined ? undefined : [value, value];

/** Smallest and largest of the figures; undefined where one of them is never reached. */
export function spanOf(values: readonly (number | undefined)[]): Pair | undefined {
  const known = values.filter((value) => value !== undefined);
  return known.length === values.length ? [Math.min(...known), Math.max(...known)] : undefined;
}

/**
 * How far the simulator's figure lies outside what is published, in the allowance's measure; negative below, 0 where the two
 * overlap. NaN, which no limit admits, where a figure is not a number.
 */
export function gapOf({ published: [low, high], model, allow }: Row): number | undefined {
  if (model === undefined) return undefined;
  const [least, most] = model;
  if (![low, high, least, most].every(Number.isFinite)) return Number.NaN;
  const [gap, edge] = least > high ? [least - high, high] : most < low ? [most - low, low] : [0, 1];
  return gap === 0 ? 0 : allow.as === 'share' ? gap / Math.abs(edge) : gap;
}

/** The verdict on a row. A figure that is never reached is off. */
export function verdictOf(row: Row): Verdict {
  const gap = gapOf(row);
  if (gap === undefined) return 'off';
  const [pass, near] = gap < 0 ? row.allow.below : row.allow.above;
  const size = Math.abs(gap);
  return size <= pass ? 'pass' : size <= near ? 'near' : 'off';
}

/** Whether the command must fail over these rows. */
export const mustFail = (rows: readonly Row[]): boolean =>
  rows.some((row) => row.must && verdictOf(row) === 'off');

/** A part of the proof: its rows, and its part of the validation page. */
export interface Section {
  readonly id: GroupName;
  readonly title: string;
  /** What the rows are held against, as a heading, where that is not published figures. */
  readonly against?: string;
  readonly rows: () => readonly Row[];
  readonly page: () => string;
}
