import { type Row, type Verdict, verdictOf } from './row.js';

/** How rows came out. */
export interface Tally extends Readonly<Record<Verdict, number>> {
  readonly rows: number;
  /** Rows that must not be off, and those of them that are off. */
  readonly must: number;
  readonly mustOff: number;
}

/** Counts verdicts. */
export function tallyOf(rows: readonly Row[]): Tally {
  const tally = { pass: 0, near: 0, off: 0, rows: rows.length, must: 0, mustOff: 0 };
  for (const row of rows) {
    const verdict = verdictOf(row);
    tally[verdict]++;
    if (!row.must) continue;
    tally.must++;
    if (verdict === 'off') tally.mustOff++;
  }
  return tally;
}
