import { massText } from '@roastsim/core';
import { stringify } from 'csv-stringify/sync';
import { type DayLine, type DaySheet, timeOf, totalText } from './daySheet.js';

/**
 * A table for spreadsheets: a byte order mark, so that they take it for UTF-8, and an apostrophe before a text that they would
 * take for a formula.
 */
export const spreadsheet = (rows: readonly (readonly (string | number)[])[]): string =>
  stringify(rows as (string | number)[][], {
    bom: true,
    escape_formulas: true,
    record_delimiter: '\r\n', // RFC 4180
  });

const HEADER = [
  'pick up',
  'time',
  'row',
  'name',
  'weight',
  'weight kg',
  'cut',
  'ties',
  'oven',
  'minutes',
  'pull',
  'wanted',
  'serve',
  'note',
  'card',
];

/** The day sheet as a table, its totals last. */
export function daySheetCsv({ days, totals, missing, units }: DaySheet): string {
  const lines = days.flatMap((day) => day.lines.map(lineOf));
  const sums = totals.map(({ cut, count, weightKg }) =>
    filled({
      'pick up': 'total',
      name: count === 1 ? '1 roast' : `${count} roasts`,
      weight: totalText(weightKg, units),
      'weight kg': weightKg.toFixed(3),
      cut,
    }),
  );
  const absent = missing.map((row) => filled({ 'pick up': 'not on this sheet', row }));
  return spreadsheet([HEADER, ...lines, ...sums, ...absent]);
}

const lineOf = (line: DayLine): (string | number)[] =>
  filled({
    'pick up': line.pickUp?.slice(0, 10) ?? '',
    time: timeOf(line.pickUp),
    row: line.row,
    name: line.name ?? '',
    weight: massText(line.weightKg, line.units),
    'weight kg': line.weightKg.toFixed(3),
    cut: line.cut,
    ties: line.ties,
    oven: line.oven,
    minutes: line.minutes,
    pull: line.pull,
    wanted: line.wanted,
    serve: line.serve ?? '',
    note: line.note ?? '',
    card: line.file,
  });

const filled = (cells: Readonly<Record<string, string | number>>): (string | number)[] =>
  HEADER.map((name) => cells[name] ?? '');
