import type { Problem } from '../read/orders.js';
import { spreadsheet } from './daySheetCsv.js';

/** What is wrong with the orders, as a table. */
export const problemsCsv = (problems: readonly Problem[]): string =>
  spreadsheet([
    ['row', 'field', 'found', 'message', 'line'],
    ...problems.map(({ row, field, found, message, line }) => [
      row ?? '',
      field,
      found,
      message,
      line ?? '',
    ]),
  ]);

/** The same, a line each, for the person who started the run. */
export const problemsText = (problems: readonly Problem[]): string =>
  problems
    .map(({ row, line, field, found, message }) => {
      const read = found === '' ? '' : ` read "${found}";`;
      const where = row === undefined ? '' : `row ${row} (line ${line}), `;
      return `${where}${field}:${read} ${message}\n`;
    })
    .join('');
