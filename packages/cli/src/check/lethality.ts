import { celsius, decimalReductionMinutes, LETHALITY } from '@roastsim/core';
import { published } from './published.js';

/** A row of the government's table of dwell times. */
export interface DwellRow {
  readonly F: number;
  readonly time_s_6_5_log: number;
  readonly time_s_7_log: number;
}

const { tables } = published<{
  readonly tables: readonly { readonly source: string; readonly rows: readonly DwellRow[] }[];
}>('lethality');

/** USDA FSIS (1999) Appendix A. */
export const DWELL = tables[0];

/** Rows with a time: from 158 °F on the table says "instantly". */
export const TIMED_ROWS = DWELL.rows.filter((row) => row.time_s_6_5_log > 0);

/** Minutes the model asks for at a temperature, over what a table's row asks for. */
export const excessOver = (row: DwellRow): number =>
  (60 * LETHALITY.claimedUpTo * decimalReductionMinutes(celsius(row.F))) / row.time_s_6_5_log;
