import { type History, type Roast, type Stage, simulate, waterBath } from '@roastsim/core';

/** Stations of a {@link scripted} history. */
export const STATIONS = 8;

/** One row of a script: the time, and the axis of all stations, or of each. */
export type ScriptedRow = readonly [minutes: number, axisC: number | readonly number[]];

/**
 * A history that says what a test wants it to say: the body of a roast, with times and axis temperatures written by hand. The
 * judge reads nothing else for safety.
 *
 * @param stages - each with the rows from its beginning to its end
 */
export function scripted(
  roast: Roast,
  rows: readonly ScriptedRow[],
  stages: readonly (readonly [stage: Stage, firstRow: number, lastRow: number])[],
): History {
  const cook = simulate(roast, [waterBath({ bathC: 60, until: { minutes: 1 } })], {
    stations: STATIONS,
    shells: 8,
  });
  const seconds = Float64Array.from(rows, ([minutes]) => 60 * minutes);
  return {
    ...cook,
    rows: rows.length,
    seconds,
    axisC: Float64Array.from(
      rows.flatMap(([, axisC]) =>
        typeof axisC === 'number' ? new Array<number>(STATIONS).fill(axisC) : axisC,
      ),
    ),
    stages: stages.map(([stage, firstRow, lastRow]) => ({
      stage,
      startS: seconds[firstRow],
      endS: seconds[lastRow],
      firstRow,
      lastRow,
      endFieldC: new Float64Array(0),
    })),
  };
}
