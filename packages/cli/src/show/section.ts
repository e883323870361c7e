import { bandIndex, diameterAt, hottestProfile, lengthOf, type Plan } from '@roastsim/core';

/** Marks of the bands from the rarest up, told apart without colour: the darker the print, the more done. */
const MARKS = ['·', ':', '-', '=', '+', '#', '@'] as const;

/** Mark of a band by its place in the scale. */
export const markOf = (index: number): string => MARKS[Math.min(index, MARKS.length - 1)];

/** `medium-rare` as `MR`, `medium` as `M`. */
export const initials = (band: string): string =>
  band
    .split('-')
    .map((part) => part.charAt(0).toUpperCase())
    .join('');

/** A cell of the drawn section: the index of its band, or nothing outside the meat. */
export type Cell = number | undefined;

const ROWS = 7; // odd, so that the axis has a row of its own

/**
 * Lengthwise section of the roast, thick end left: each cell holds the band of the hottest moment there. To scale along the
 * length; across, the thickest part fills all rows.
 */
export function sectionOf(plan: Plan, columns: number): Cell[][] {
  const { history, roast, aim } = plan;
  const lengthM = lengthOf(roast.profile);
  const at = (column: number): number => ((column + 0.5) / columns) * lengthM;
  const diameters = Array.from({ length: columns }, (_, c) => diameterAt(roast.profile, at(c)));
  const thickest = Math.max(...diameters);
  const rows: Cell[][] = Array.from({ length: ROWS }, () =>
    new Array<Cell>(columns).fill(undefined),
  );
  const { node } = history.body.body.mesh;
  for (let c = 0; c < columns; c++) {
    const profile = hottestProfile(history, 1000 * at(c));
    for (let r = 0; r < ROWS; r++) {
      const height = Math.abs((r + 0.5) / ROWS - 0.5) * 2 * thickest;
      const fraction = height / diameters[c];
      if (fraction > 1) continue;
      let outer = 1;
      while (node[outer] < fraction) outer++;
      const part = (fraction - node[outer - 1]) / (node[outer] - node[outer - 1]);
      const tempC = profile[outer - 1] + part * (profile[outer] - profile[outer - 1]);
      rows[r][c] = bandIndex(aim.scale, tempC);
    }
  }
  return rows;
}
