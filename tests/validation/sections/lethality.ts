import { celsius, decimalReductionMinutes, LETHALITY } from '@roastsim/core';
import { DWELL, excessOver, TIMED_ROWS } from '../lethality.js';
import { fixed, page, table } from '../markdown.js';

/** Time for 6.5 decimal reductions of Salmonella beside the government's table. */
export function lethalitySection(): string {
  const excess = TIMED_ROWS.map(excessOver);
  const onTop = LETHALITY.claimedUpTo * decimalReductionMinutes(LETHALITY.constantFromC) * 60;
  return page(
    '## Lethality',
    `D60 = ${LETHALITY.d60Minutes} min, z = ${LETHALITY.zK} K, fitted to this table so that every row with a time is met on the safe side: ` +
      `the model asks for ${fixed(Math.min(...excess), 2)} to ${fixed(Math.max(...excess), 2)} times the table's minutes. It is a fit, not a test. ` +
      `Nothing is counted below ${LETHALITY.fromC} °C, the rate is constant above ${LETHALITY.constantFromC} °C (${fixed(onTop, 0)} s where the table says ` +
      `"instantly"), and no more than ${LETHALITY.claimedUpTo} decimal reductions are ever claimed.`,
    table(
      ['°F', '°C', 'table min', 'model min', 'model over table'],
      TIMED_ROWS.map((row, i) => [
        fixed(row.F, 0),
        fixed(celsius(row.F), 1),
        fixed(row.time_s_6_5_log / 60, 2),
        fixed(LETHALITY.claimedUpTo * decimalReductionMinutes(celsius(row.F)), 2),
        fixed(excess[i], 2),
      ]),
    ),
    `Source: ${DWELL.source}. McMinn et al. (2018) found that the table's own time at 54.4 °C did not give the stated reduction; the 2021 ` +
      'revision of the table was not seen.',
  );
}
