import { once } from '../cook.js';
import { bathExample, EXAMPLES } from '../exact/examples.js';
import { page, table } from '../markdown.js';
import { type Allowance, distance, just, type Row, type Section, share } from '../row.js';
import { rowCells, rowHead } from '../rowWords.js';

/** To half of the last digit printed, and half a thousandth for mesh and steps. */
const wholeSeries = (printed: number, decimals: number): Allowance => {
  const allowed = 0.51 * 10 ** -decimals + 5e-4 * printed;
  return distance(allowed, 5 * allowed);
};
/** Books use one term, read charts and round. */
const BOOK: Allowance = share(0.05, 0.1);
/** The table is recalled, not seen, and rounded to 5 min or a quarter hour. */
const RECALLED: Allowance = share(0.15, 0.3);

const exampleRows = once((): Row[] => [
  ...EXAMPLES.flatMap((one) => {
    const { what, unit, decimals, model, exact, book, warning } = one;
    const common = {
      model: just(model()),
      unit,
      decimals,
      source: `transient-conduction: ${one.id}`,
    };
    const whole: Row = {
      ...common,
      what,
      kind: 'exact',
      must: true,
      published: just(exact),
      allow: wholeSeries(exact, decimals),
    };
    if (book === undefined) return [whole];
    const printed: Row = {
      ...common,
      what: `${what}, as printed`,
      kind: 'check',
      must: false,
      published: just(book),
      allow: BOOK,
      ...(warning === undefined ? {} : { note: warning }),
    };
    return [whole, printed];
  }),
  ...bathExample().map(
    ({ diameterMm, printedMin, minutes }): Row => ({
      what: `meat cylinder of ${diameterMm} mm in a bath`,
      kind: 'check',
      must: false,
      published: just(printedMin),
      model: just(minutes),
      unit: 'min',
      decimals: 0,
      allow: RECALLED,
      source: 'transient-conduction: water_bath_table, from memory',
    }),
  ),
]);

const handbookPage = (): string =>
  page(
    '### Worked examples of heat-transfer textbooks',
    "The library's own lines with the books' shapes and constants, against the whole series (must agree), and against what the book prints (need not: some " +
      'books use one term out of its range or misread a chart). The books themselves, one term and all: `tests/published/handbook.test.ts`. The table of ' +
      'cylinders in a water bath is from memory.',
    table(rowHead(), exampleRows().map(rowCells)),
  );

/** Worked examples of textbooks. */
export const handbookSection: Section = {
  id: 'handbook',
  title: 'Worked examples of textbooks',
  rows: exampleRows,
  page: handbookPage,
};
