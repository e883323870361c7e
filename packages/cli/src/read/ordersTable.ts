import { type ErrorCode, RoastError } from '@roastsim/core';
import { CsvError, parse } from 'csv-parse/sync';
import { printable } from './text.js';

/** One row of a table. */
export interface TableRow {
  /** Line of the file it begins on, the first being 1. */
  readonly line: number;
  /** Texts without the space around them. */
  readonly cells: readonly string[];
}

/** A table as it stands in a file; rows without any text are left out. */
export interface Table {
  readonly header: TableRow;
  readonly rows: readonly TableRow[];
}

/** Largest orders file read [bytes]: some hundred thousand orders. */
export const ORDERS_LIMIT = 32 * 1024 * 1024;

const SEPARATORS = [',', ';', '\t'] as const;
const LINE_ENDS = ['\r\n', '\n', '\r'];
const ACCEPTED = 'a CSV file in UTF-8, with a row of column names and one order a row';

/** Throws the error of a file that cannot be read at all. */
function refuseFile(file: string, fault: string, code: ErrorCode = 'unreadable'): never {
  throw new RoastError(`${printable(file)}: ${fault}; accepted: ${ACCEPTED}`, {
    code,
    path: ['orders'],
    found: file,
    accepted: ACCEPTED,
  });
}

/**
 * Takes a CSV file apart. Commas, semicolons or tabs between the cells, a byte order mark, any kind of line end.
 *
 * @param file - its name, for messages
 * @throws RoastError `unreadable` when this is no CSV file, `missing` when there is no row below the column names
 */
export function readTable(bytes: Uint8Array, file: string): Table {
  if (bytes.length > ORDERS_LIMIT) {
    refuseFile(file, `it is larger than ${ORDERS_LIMIT / 1024 / 1024} MiB`);
  }
  const text = textOf(bytes, file);
  const [header, ...rows] = records(text, separatorOf(text, file), file).filter(({ cells }) =>
    cells.some((cell) => cell !== ''),
  );
  if (header === undefined) refuseFile(file, 'it is empty', 'missing');
  if (rows.length === 0) {
    refuseFile(file, 'there is no order in it, only one row of column names', 'missing');
  }
  return { header, rows };
}

function textOf(bytes: Uint8Array, file: string): string {
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) {
    refuseFile(file, 'it is a workbook or another packed file: save it as CSV (UTF-8)');
  }
  const encoding = bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : 'utf-8';
  let text: string;
  try {
    text = new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return refuseFile(file, 'its characters are not UTF-8: save it as CSV (UTF-8)');
  }
  return text.includes('\0') ? refuseFile(file, 'it is no text file') : text;
}

/** The separator that makes most of the column names. */
function separatorOf(text: string, file: string): string {
  const start = text.trimStart();
  const cells = (separator: string): number =>
    records(start, separator, file, 1)[0]?.cells.length ?? 0;
  return SEPARATORS.reduce((best, next) => (cells(next) > cells(best) ? next : best));
}

function records(text: string, separator: string, file: string, upTo = -1): TableRow[] {
  const rows: TableRow[] = [];
  let line = 1;
  try {
    parse(text, {
      delimiter: separator,
      record_delimiter: LINE_ENDS, // all of them: a file put together from two systems holds two
      relax_column_count: true, // told row by row
      relax_quotes: true, // 19" is a length
      trim: true,
      to: upTo,
      onRecord: (cells: string[], { lines }) => {
        rows.push({ line, cells });
        line = lines + 1;
        return null; // kept here already
      },
    });
    return rows;
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const fault =
      error.code === 'CSV_QUOTE_NOT_CLOSED'
        ? `a quotation mark is opened in the row at line ${line} and never closed`
        : `the row at line ${line} cannot be taken apart`;
    return refuseFile(file, fault);
  }
}
