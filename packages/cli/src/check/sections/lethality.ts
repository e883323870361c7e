import { celsius, decimalReductionMinutes, LETHALITY } from '@roastsim/core';
import { once } from '../cook.js';
import { DWELL, type DwellRow, excessOver, TIMED_ROWS } from '../lethality.js';
import { fixed, page, table } from '../markdown.js';
import { type Allowance, just, type Row, type Section } from '../row.js';
import { VERDICT_HEAD, verdictText } from '../rowWords.js';

/** Never less than the table asks for; how much more is a matter of its rounding to whole minutes. */
const SAFE_SIDE: Allowance = { as: 'share', below: [0, 0], above: [0.17, 0.25] };

const minutesFor = (reductions: number, { F }: DwellRow): number =>
  reductions * decimalReductionMinutes(celsius(F));

const rowFor = (reductions: number, tableS: number, row: DwellRow): Row => ({
  what: `${row.F} °F, ${fixed(celsius(row.F), 1)} °C: ${reductions} reductions`,
  kind: 'fit',
  must: true,
  published: just(tableS / 60),
  model: just(minutesFor(reductions, row)),
  unit: 'min',
  decimals: 2,
  allow: SAFE_SIDE,
  source: 'lethality: fsis-appendix-a-1999',
});

const lines = once(() =>
  TIMED_ROWS.map((row) => ({
    dwell: row,
    lesser: rowFor(LETHALITY.claimedUpTo, row.time_s_6_5_log, row),
    greater: rowFor(7, row.time_s_7_log, row),
  })),
);

function lethalityPage(): string {
  const excess = TIMED_ROWS.map(excessOver);
  const onTop = LETHALITY.claimedUpTo * decimalReductionMinutes(LETHALITY.constantFromC) * 60;
  return page(
    '## Lethality',
    `D60 = ${LETHALITY.d60Minutes} min, z = ${LETHALITY.zK} K, fitted to the 6.5 reductions of this table so that every row with a time is met on the safe side: ` +
      `the model asks for ${fixed(Math.min(...excess), 2)} to ${fixed(Math.max(...excess), 2)} times the table's minutes. It is a fit, not a test. ` +
      'The column for 7 reductions was not fitted separately; it is rounded to whole minutes. ' +
      `Nothing is counted below ${LETHALITY.fromC} °C, the rate is constant above ${LETHALITY.constantFromC} °C (${fixed(onTop, 0)} s where the table says ` +
      `"instantly"), and no more than ${LETHALITY.claimedUpTo} decimal reductions are ever claimed. A figure below the table's is off, however little.`,
    table(
      [
        '°F',
        '°C',
        '6.5: min',
        'model',
        'over table',
        VERDICT_HEAD,
        '7: min',
        'model',
        VERDICT_HEAD,
      ],
      lines().map(({ dwell, lesser, greater }, i) => [
        fixed(dwell.F, 0),
        fixed(celsius(dwell.F), 1),
        fixed(lesser.published[0], 2),
        fixed(lesser.model?.[0], 2),
        fixed(excess[i], 2),
        verdictText(lesser),
        fixed(greater.published[0], 2),
        fixed(greater.model?.[0], 2),
        verdictText(greater),
      ]),
    ),
    `Source: ${DWELL.source}. The Food Code's table for roasts repeats these two columns, but for 3 min at 145 °F in its older ` +
      "editions. McMinn et al. (2018) found that the table's own time at 54.4 °C did not give the stated reduction; the 2021 " +
      'revision of the table was not seen.',
  );
}

/** Time for 6.5 decimal reductions of Salmonella beside the government's table. */
export const lethalitySection: Section = {
  id: 'lethality',
  title: 'Lethality, minutes at a temperature',
  rows: () => lines().flatMap(({ lesser, greater }) => [lesser, greater]),
  page: lethalityPage,
};
