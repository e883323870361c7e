import { pathText, RoastError } from '@roastsim/core';
import { type Column, columnsOf, type PlanColumn } from './ordersColumns.js';
import { readTable, type TableRow } from './ordersTable.js';
import { type PlanWords, readPlanOptions } from './planOptions.js';
import { readChoice } from './readChoice.js';
import { readDay } from './readDay.js';
import { lineOf, printable, refuse } from './text.js';

/** One order as it stands in the file, its fields read and found good. */
export interface Order {
  /** Number of the order, the first being 1. */
  readonly row: number;
  /** Line of the file it begins on. */
  readonly line: number;
  readonly name?: string;
  /** ISO 8601 without a zone: `2026-12-24` or `2026-12-24T10:30`. */
  readonly pickUp?: string;
  readonly note?: string;
  /** Options of the plan, with what the settings add. */
  readonly words: PlanWords;
}

/** What is wrong with one field of one order. */
export interface Problem {
  /** Number of the order and line of the file; neither for a file beside the cards. */
  readonly row?: number;
  readonly line?: number;
  /** Name of the column, or `card`, or of a file beside the cards. */
  readonly field: string;
  readonly found: string;
  readonly message: string;
}

/** What an orders file holds. */
export interface Orders {
  readonly orders: readonly Order[];
  readonly problems: readonly Problem[];
}

/** Longest name and note a card has room for [characters], as for a single card. */
export const NAME_LIMIT = 80;
export const NOTE_LIMIT = 240;

/**
 * Reads a file of orders. A row with a slip in it does not stop the others: all its slips are reported together.
 *
 * @param file - its name, for messages
 * @param planColumns - options of the plan that a column can hold
 * @param settle - adds what the cells leave open
 * @throws RoastError when the file is no table of orders: `unreadable`, `missing`, `unknown-name` or `contradiction`
 */
export function readOrders(
  bytes: Uint8Array,
  file: string,
  planColumns: readonly PlanColumn[],
  settle: (words: PlanWords) => PlanWords = (words) => words,
): Orders {
  const { header, rows } = readTable(bytes, file);
  const columns = columnsOf(header.cells, planColumns);
  const orders: Order[] = [];
  const problems: Problem[] = [];
  for (const [index, { line, cells }] of rows.entries()) {
    const row = index + 1;
    const read = readRow(cells, columns, settle);
    if (read.faults.length === 0) orders.push({ row, line, ...read.order });
    for (const fault of read.faults) problems.push(problemOf(fault, { row, line }, read.typed));
  }
  return { orders, problems };
}

/** Fields of a card and the columns they come from. */
const COLUMN_OF: Readonly<Record<string, string>> = { forWhom: 'name', pickUp: 'pick up' };

/**
 * An error of a reader as a problem of a row: without the dashes of the command line, which no column has.
 *
 * @param typed - the cells by column name
 */
export function problemOf(
  error: RoastError,
  { row, line }: { readonly row: number; readonly line: number },
  typed: Readonly<Record<string, string>>,
): Problem {
  const path = pathText(error.path);
  const field = COLUMN_OF[path] ?? path.replace(/^--/, '');
  const prefix = `${path}: `;
  const said = error.message.startsWith(prefix)
    ? error.message.slice(prefix.length)
    : error.message;
  const message = said
    .replace(/^read ".*?"; ?/s, '')
    .replace(` in ${path}`, ` in ${field}`)
    .replace(/(^|[\s("])--(?=[a-z])/g, '$1');
  return { row, line, field, found: printable(typed[field] ?? ''), message };
}

interface RowReading {
  readonly order: Omit<Order, 'row' | 'line'>;
  readonly typed: Readonly<Record<string, string>>;
  readonly faults: readonly RoastError[];
}

function readRow(
  cells: TableRow['cells'],
  columns: readonly (Column | undefined)[],
  settle: (words: PlanWords) => PlanWords,
): RowReading {
  const faults: RoastError[] = [];
  const attempt = <T>(call: () => T): T | undefined => {
    try {
      return call();
    } catch (error) {
      if (!(error instanceof RoastError)) throw error;
      faults.push(error);
      return undefined;
    }
  };
  const extra = cells.findLast((cell, i) => cell !== '' && columns[i] === undefined);
  if (extra !== undefined) attempt(() => refuseExtra(extra));
  const typed: Record<string, string> = {};
  const cellWords: Record<string, string | true> = {};
  for (const [i, column] of columns.entries()) {
    const cell = cells[i] ?? '';
    if (column === undefined || cell === '') continue;
    typed[column.name] = cell;
    if (column.holds === 'order') continue;
    const word = column.holds === 'text' ? cell : attempt(() => readFlag(cell, column));
    if (word !== undefined && word !== false) {
      cellWords[column.key] = column.key === 'serve' ? withoutSeconds(cell) : word;
    }
  }
  const name = attempt(() => readLine(typed.name, 'name', NAME_LIMIT));
  const note = attempt(() => readLine(typed.note, 'note', NOTE_LIMIT));
  const fetched = typed['pick up'];
  const pickUp =
    fetched === undefined ? undefined : attempt(() => readDay(withoutSeconds(fetched), 'pick up'));
  const words = settle(cellWords);
  faults.push(...faultsIn(words));
  return {
    order: {
      words,
      ...(name === undefined ? {} : { name }),
      ...(note === undefined ? {} : { note }),
      ...(pickUp === undefined ? {} : { pickUp }),
    },
    typed,
    faults,
  };
}

/** A time of day without the seconds that spreadsheets add. */
export const withoutSeconds = (text: string): string => text.replace(/(\d:\d\d):00$/, '$1');

/** Refuses a text in a cell that has no column name. */
export function refuseExtra(found: string): never {
  const accepted = 'no more cells than column names; a text with the separator in it needs quotes';
  throw new RoastError(
    `cells: there is text in a cell without a column name; accepted: ${accepted}`,
    {
      code: 'unknown-name',
      path: ['cells'],
      found,
      accepted,
    },
  );
}

/** A day in the file would be one too many beside the day of pick-up. */
const refuseDay = (text: string): never =>
  refuse(
    { option: '--serve', text, accepted: 'a time of day alone, like 18:30' },
    'out-of-range',
    'there is a day in it, which belongs to the column pick up',
  );

const YES = ['yes', 'y', 'true', '1', 'x'];
const NO = ['no', 'n', 'false', '0', '-'];

/** Yes or no, and for an option that can do with or without a value (`sear`) the value too. */
function readFlag(cell: string, { name, holds }: PlanColumn): string | boolean {
  const said = cell.toLowerCase();
  if (YES.includes(said)) return true;
  if (NO.includes(said)) return false;
  if (holds === 'either') return cell;
  return readChoice(cell, ['yes', 'no'], name) === 'yes';
}

/** A text for one line of print: no line breaks, no control or direction-turning characters. */
export function readLine(
  typed: string | undefined,
  option: string,
  limit: number,
): string | undefined {
  const text = lineOf(typed ?? '');
  const { length } = [...text];
  if (length > limit) {
    const reading = { option, text, accepted: `at most ${limit} characters` };
    refuse(reading, 'out-of-range', `that is ${length} characters`);
  }
  return text === '' ? undefined : text;
}

/** Words that tell the size of a roast together: once one is replaced, the others may only not fit what stands in for it. */
const SIZES: readonly string[] = ['weight', 'length', 'girth', 'diameter', 'cut'];

/** What to go on with in place of a cell that cannot be read or is missing, to see whether others can. */
const STAND_IN: PlanWords = {
  weight: '2.2kg',
  oven: '230C',
  bath: '58C',
  stages: 'oven 230C to pull, rest 20min',
};

/** All that is wrong with the options of one row, as far as it can be told apart. */
function faultsIn(words: PlanWords): readonly RoastError[] {
  const faults: RoastError[] = [];
  const replaced = new Set<string>();
  let tried = words;
  for (;;) {
    try {
      const { serveDay } = readPlanOptions(tried);
      if (serveDay !== undefined) refuseDay(tried.serve ?? serveDay);
      return faults;
    } catch (error) {
      if (!(error instanceof RoastError)) throw error;
      const key = keyOf(error);
      const standsInTheWay =
        error.code === 'contradiction' ||
        (error.code === 'out-of-range' && (key === undefined || SIZES.includes(key)));
      if (faults.length > 0 && standsInTheWay) return faults;
      faults.push(error);
      // a scale that cannot be read makes every band's name unknown
      const hides = error.code === 'contradiction' || key === 'scale';
      if (key === undefined || replaced.has(key) || hides) return faults;
      replaced.add(key);
      const { [key]: _, ...others } = tried;
      const standIn = STAND_IN[key];
      tried = standIn === undefined ? others : { ...others, [key]: standIn };
    }
  }
}

/** The word an error is about. */
function keyOf({ path }: RoastError): keyof PlanWords | undefined {
  const [option] = path;
  if (typeof option !== 'string' || !option.startsWith('--')) return undefined;
  return option
    .slice(2)
    .replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase()) as keyof PlanWords;
}
