import { gapOf, mustFail, type Pair, type Row, type Section, verdictOf } from './row.js';
import { tallyOf } from './tally.js';

const DIGITS = 6;

const rounded = (value: number): number => Number(value.toPrecision(DIGITS));

const roundedPair = ([low, high]: Pair): Pair => [rounded(low), rounded(high)];

const rowDocument = (row: Row) => {
  const { what, kind, must, published, model, unit, allow, source, note } = row;
  const gap = gapOf(row);
  return {
    what,
    kind,
    must,
    published: roundedPair(published),
    model: model === undefined ? null : roundedPair(model),
    unit,
    measure: allow.as,
    off: gap === undefined ? null : rounded(gap),
    pass: { below: allow.below[0], above: allow.above[0] },
    near: { below: allow.below[1], above: allow.above[1] },
    verdict: verdictOf(row),
    source,
    ...(note === undefined ? {} : { note }),
  };
};

/** The rows as one JSON document, described by docs/check.schema.json. */
export function checkDocument(sections: readonly Section[], version: string) {
  const rows = sections.flatMap((section) => section.rows());
  return {
    schemaVersion: 1,
    version,
    passed: !mustFail(rows),
    tally: tallyOf(rows),
    groups: sections.map((section) => ({
      id: section.id,
      title: section.title,
      tally: tallyOf(section.rows()),
      rows: section.rows().map(rowDocument),
    })),
  };
}
