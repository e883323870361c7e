import { once } from '../cook.js';
import { gapsOf, REFERENCE, ReferenceCook } from '../exact/referenceLines.js';
import { page, table } from '../markdown.js';
import { type Allowance, distance, just, type Row, type Section } from '../row.js';
import { rowCells, rowHead } from '../rowWords.js';

const CASES = ['B', 'C', 'D', 'E', 'F'] as const;

const ALLOWED = {
  time: distance(0.1, 0.2), // %
  peak: distance(0.05, 0.1), // K
  axis: distance(0.06, 0.12), // K
  front: distance(0.2, 0.4), // K, worst while the oven's door shuts
  water: distance(0.004, 0.008), // kg/m², of about 2
} as const satisfies Readonly<Record<string, Allowance>>;

/** Rows of one case. Gaps are the largest over all its records. */
function rowsOf(id: (typeof CASES)[number]): Row[] {
  const of = REFERENCE[id];
  const cook = new ReferenceCook(of);
  const { time, worst } = gapsOf(of, cook);
  const row = (
    what: string,
    unit: string,
    decimals: number,
    allow: Allowance,
    model: number,
    published = 0,
  ): Row => ({
    what: `case ${id}: ${what}`,
    kind: 'exact',
    must: true,
    published: just(published),
    model: just(model),
    unit,
    decimals,
    allow,
    source: `reference-lines: ${id}, ${of.title}`,
  });
  return [
    row('length of stages, worst gap', '%', 3, ALLOWED.time, 100 * time),
    ...(of.peak === undefined
      ? []
      : [row('peak', '°C', 2, ALLOWED.peak, cook.peak().axisC, of.peak.axisC)]),
    row('axis, worst gap', 'K', 3, ALLOWED.axis, worst.axisC),
    row('front, worst gap', 'K', 3, ALLOWED.front, worst.frontC),
    row('water evaporated, worst gap', 'kg/m²', 4, ALLOWED.water, worst.evaporatedKgPerM2),
  ];
}

const lineRows = once((): Row[] => CASES.flatMap(rowsOf));

const linePage = (): string =>
  page(
    '### An independent program',
    'The full model of one radial line, solved by a program of its own (`tests/published/reference-lines.py`) with 800 cells and an integrator with error ' +
      `control; its own error is at most 0.0025 °C. ${CASES.map((id) => `${id}: ${REFERENCE[id].title}`).join('; ')}.`,
    table(rowHead('reference'), lineRows().map(rowCells)),
  );

/** The equations solved by another program. */
export const lineSection: Section = {
  id: 'lines',
  title: 'Independent reference lines',
  against: 'reference',
  rows: lineRows,
  page: linePage,
};
