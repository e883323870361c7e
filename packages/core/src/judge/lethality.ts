import type { History } from '../cook/index.js';

/**
 * Time [min] for one tenth of Salmonella to survive at 60 °C, and the temperature rise [K] that makes it ten times shorter.
 *
 * Fitted here to the 6.5-log column of USDA FSIS (1999) Appendix A, 130 to 157 °F: the straight line that lies on the safe side
 * of every non-zero row with the least worst excess (13.7 %). McMinn et al. 2018 found that the table's own time at 54.4 °C did
 * not give the stated reduction, so nothing is claimed from low temperatures alone.
 */
export const LETHALITY = {
  d60Minutes: 1.95,
  zK: 5.56,
  /** Below this nothing is counted: the table's lowest row [°C]. */
  fromC: 54.4,
  /** Above this the rate no longer grows: the table's last timed row is just below [°C]. */
  constantFromC: 70,
  /** Never claimed beyond: the reduction the table is written for. */
  claimedUpTo: 6.5,
} as const;

/**
 * Time [min] for one log reduction at `tempC` [°C]; Infinity where nothing is counted.
 *
 * @example
 * decimalReductionMinutes(60) // => 1.95
 * decimalReductionMinutes(50) // => Infinity
 */
export function decimalReductionMinutes(tempC: number): number {
  if (tempC < LETHALITY.fromC) return Number.POSITIVE_INFINITY;
  const counted = Math.min(tempC, LETHALITY.constantFromC);
  return LETHALITY.d60Minutes * 10 ** ((60 - counted) / LETHALITY.zK);
}

/**
 * Smallest log reduction of Salmonella on any axis over a whole cook and its carryover, by the trapezoidal rule.
 *
 * @param fromS - from here on [s] every temperature counts `marginK` lower, because it is predicted and not measured
 * @example
 * leastLogReduction(cook, 60 * plan.pull.atMinutes, SAFETY_LIMITS.marginAfterPullK)
 */
export function leastLogReduction(history: History, fromS: number, marginK: number): number {
  const { stations } = history.body.body;
  const { seconds, axisC, rows } = history;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < stations; i++) {
    let logs = 0;
    let rate = 0;
    for (let row = 0; row < rows; row++) {
      const margin = seconds[row] > fromS ? marginK : 0;
      const next = 1 / decimalReductionMinutes(axisC[row * stations + i] - margin);
      if (row > 0) logs += ((rate + next) / 2) * ((seconds[row] - seconds[row - 1]) / 60);
      rate = next;
    }
    if (logs < least) least = logs;
  }
  return least;
}
