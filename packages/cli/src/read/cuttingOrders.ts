import { CUT_KINDS, type CutKind, type CutOrder, checkCutOrder, RoastError } from '@roastsim/core';
import {
  NAME_LIMIT,
  NOTE_LIMIT,
  type Problem,
  problemOf,
  readLine,
  refuseExtra,
  withoutSeconds,
} from './orders.js';
import { matchColumns } from './ordersColumns.js';
import { readTable, type TableRow } from './ordersTable.js';
import { readChoice } from './readChoice.js';
import { readDay } from './readDay.js';
import { readLength } from './readLength.js';
import { readMass } from './readMass.js';
import { plain, plainText, refuse } from './text.js';
import { unitSystemOf } from './unitSystemOf.js';
import type { UnitSystem } from './units.js';

/** One row of a cutting orders file. */
export interface CuttingRow {
  /** Number of the order, the first being 1. */
  readonly row: number;
  readonly name?: string;
  /** ISO 8601 without a zone. */
  readonly pickUp?: string;
  readonly note?: string;
  readonly order: CutOrder;
}

/** What a cutting orders file holds. */
export interface CuttingOrders {
  readonly rows: readonly CuttingRow[];
  readonly problems: readonly Problem[];
  /** Rows for roasts that are not cut from a tenderloin. */
  readonly passedOver: readonly number[];
  /** Units most rows are written in. */
  readonly units?: UnitSystem;
}

interface Column {
  readonly name: string;
  /** What it holds; nothing for columns of other sheets. */
  readonly field?: Field;
}

type Field = 'name' | 'pick up' | 'note' | 'cut' | 'weight' | 'pieces' | 'thickness';

const COLUMNS: readonly Column[] = [
  ...(['name', 'pick up', 'note', 'cut', 'weight', 'pieces', 'thickness'] as const).map(
    (name): Column => ({ name, field: name }),
  ),
  { name: 'count', field: 'pieces' },
  { name: 'number', field: 'pieces' },
  { name: 'quantity', field: 'pieces' },
];

/** Other words for the kinds. */
const ALIASES: ReadonlyMap<string, CutKind> = new Map([
  ['center', 'centre'],
  ['steaks', 'steak'],
  ['tip', 'tips'],
  ['cubes', 'tips'],
  ['trimmings', 'tips'],
]);

/**
 * Reads a file of orders to be cut. A row with a slip in it does not stop the others: all its slips are reported together.
 *
 * @param file - its name, for messages
 * @param otherColumns - names of columns that orders for cook cards have: they may stand here and say nothing
 * @throws RoastError when the file is no table of orders
 */
export function readCuttingOrders(
  bytes: Uint8Array,
  file: string,
  otherColumns: readonly string[],
): CuttingOrders {
  const { header, rows: lines } = readTable(bytes, file);
  const others = otherColumns
    .filter((name) => !COLUMNS.some((column) => column.name === name))
    .map((name): Column => ({ name }));
  const columns = matchColumns(header.cells, [...COLUMNS, ...others]);
  requireOneOf(columns);
  const rows: CuttingRow[] = [];
  const problems: Problem[] = [];
  const passedOver: number[] = [];
  const systems = { metric: 0, us: 0 };
  for (const [index, { line, cells }] of lines.entries()) {
    const row = index + 1;
    const { typed, extra } = cellsOf(cells, columns);
    const system = unitSystemOf(typed.weight ?? typed.thickness ?? '');
    if (system !== undefined) systems[system]++;
    if (plain(typed.cut ?? '').toLowerCase() === 'other') {
      passedOver.push(row);
      continue;
    }
    const read = readRow(typed, extra);
    if (read.faults.length === 0) rows.push({ row, ...read.row });
    for (const fault of read.faults) problems.push(problemOf(fault, { row, line }, typed));
  }
  return {
    rows,
    problems,
    passedOver,
    ...(systems.metric + systems.us === 0
      ? {}
      : { units: systems.us > systems.metric ? 'us' : 'metric' }),
  };
}

/** Two spellings of one column, or none that says what is to be cut. */
function requireOneOf(columns: readonly (Column | undefined)[]): void {
  const fields = columns.flatMap((column) => column?.field ?? []);
  const twice = fields.find((field, i) => fields.indexOf(field) !== i);
  if (twice !== undefined) {
    throw new RoastError(`column names: two columns hold the ${twice}; accepted: one of each`, {
      code: 'contradiction',
      path: ['column names'],
      found: twice,
      accepted: 'one of each',
    });
  }
  if (fields.includes('weight') || fields.includes('cut')) return;
  const accepted = 'a column "weight", a column "cut", or both';
  throw new RoastError(`column names: nothing says what to cut; accepted: ${accepted}`, {
    code: 'missing',
    path: ['column names'],
    found: fields,
    accepted,
  });
}

type Typed = Partial<Record<Field, string>>;

function cellsOf(
  cells: TableRow['cells'],
  columns: readonly (Column | undefined)[],
): { typed: Typed & Record<string, string>; extra?: string } {
  const typed: Typed & Record<string, string> = {};
  for (const [i, column] of columns.entries()) {
    const cell = cells[i] ?? '';
    if (column?.field !== undefined && cell !== '') typed[column.field] = cell;
  }
  const extra = cells.findLast((cell, i) => cell !== '' && columns[i] === undefined);
  return extra === undefined ? { typed } : { typed, extra };
}

function readRow(
  typed: Typed,
  extra: string | undefined,
): { row: Omit<CuttingRow, 'row'>; faults: readonly RoastError[] } {
  const faults: RoastError[] = [];
  const attempt = <T>(text: string | undefined, read: (text: string) => T): T | undefined => {
    if (text === undefined) return undefined;
    try {
      return read(text);
    } catch (error) {
      if (!(error instanceof RoastError)) throw error;
      faults.push(error);
      return undefined;
    }
  };
  attempt(extra, refuseExtra);
  const name = attempt(typed.name, (text) => readLine(text, 'name', NAME_LIMIT));
  const note = attempt(typed.note, (text) => readLine(text, 'note', NOTE_LIMIT));
  const pickUp = attempt(typed['pick up'], (text) => readDay(withoutSeconds(text), 'pick up'));
  const kind = typed.cut === undefined ? 'whole' : attempt(typed.cut, readKind);
  const massKg = attempt(typed.weight, (text) => readMass(text, 'weight'));
  const thicknessMm = attempt(typed.thickness, (text) => readLength(text, 'thickness'));
  const pieces = typed.pieces === undefined ? 1 : attempt(typed.pieces, readCount);
  const order: CutOrder = {
    kind: kind ?? 'whole',
    pieces: pieces ?? 1,
    ...(massKg === undefined ? {} : { massKg }),
    ...(thicknessMm === undefined ? {} : { thicknessMm }),
  };
  // what could not be read would only be told a second time as missing
  if (faults.length === 0) attempt('', () => pointed(order));
  return {
    row: {
      order,
      ...(name === undefined ? {} : { name }),
      ...(note === undefined ? {} : { note }),
      ...(pickUp === undefined ? {} : { pickUp }),
    },
    faults,
  };
}

const readKind = (text: string): CutKind =>
  ALIASES.get(plain(text).toLowerCase()) ?? readChoice(text, CUT_KINDS, 'cut');

/** A whole number of pieces: `4`, `4x`, `x 4`. */
function readCount(text: string): number {
  const reading = { option: 'pieces', text, accepted: 'a whole number, like 4' };
  const [, count] = /^(?:x ?)?(\d{1,6})(?: ?x)?$/i.exec(plainText(reading)) ?? [];
  return count === undefined
    ? refuse(reading, 'not-a-number', 'that is no number of pieces')
    : Number(count);
}

const COLUMN_OF: Readonly<Record<string, Field>> = {
  massKg: 'weight',
  pieces: 'pieces',
  thicknessMm: 'thickness',
};

/** Checks an order; errors point at the column. */
function pointed(order: CutOrder): void {
  try {
    checkCutOrder(order);
  } catch (error) {
    if (!(error instanceof RoastError)) throw error;
    const { code, found, accepted, message } = error;
    const field = COLUMN_OF[String(error.path.at(-1))] ?? 'cut';
    throw new RoastError(`${field}: ${message}`, { code, path: [field], found, accepted });
  }
}
