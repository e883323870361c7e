import type { CuttingList, UnitSystem } from '@roastsim/core';
import type { CuttingRow } from '../read/cuttingOrders.js';
import type { Problem } from '../read/orders.js';

/** Version of the document's form; it rises when a field changes its meaning or goes away. */
export const CUTTING_SCHEMA_VERSION = 1;

/** What a document needs beside the list. */
export interface CuttingDocumentContext {
  /** In the order of the request. */
  readonly rows: readonly CuttingRow[];
  readonly problems: readonly Problem[];
  readonly passedOver: readonly number[];
  readonly units: UnitSystem;
}

/** A cutting list as plain data; docs/cutting.schema.json describes every field. Numbers are kg and mm. */
export function cuttingDocument(list: CuttingList, context: CuttingDocumentContext): object {
  const { rows, problems, passedOver, units } = context;
  const rowOf = (order: number | undefined): object =>
    order === undefined ? {} : { row: rows[order].row };
  return {
    schemaVersion: CUTTING_SCHEMA_VERSION,
    units,
    orders: rows.map(({ row, name, pickUp, note, order }, i) => ({
      row,
      ...(name === undefined ? {} : { name }),
      ...(pickUp === undefined ? {} : { pickUp }),
      ...(note === undefined ? {} : { note }),
      cut: order.kind,
      pieces: order.pieces,
      ...(order.massKg === undefined ? {} : { massKg: kg(order.massKg) }),
      ...(order.thicknessMm === undefined ? {} : { thicknessMm: mm(order.thicknessMm) }),
      served: list.served[i],
    })),
    tenderloins: list.tenderloins.map(({ massKg, lengthMm, use, order, pieces, tips }, j) => ({
      number: j + 1,
      massKg: kg(massKg),
      lengthMm: mm(lengthMm),
      use,
      ...rowOf(order),
      pieces: pieces.map((piece) => ({
        use: piece.use,
        cut: piece.kind,
        ...rowOf(piece.order),
        fromMm: mm(piece.fromMm),
        toMm: mm(piece.toMm),
        massKg: kg(piece.massKg),
      })),
      tips: tips.map((each) => ({ ...rowOf(each.order), massKg: kg(each.massKg) })),
    })),
    ...(list.missing === undefined ? {} : { missing: missingEntry(list.missing, rows) }),
    totals: Object.fromEntries(
      Object.entries(list.totals).map(([name, value]) => [
        name,
        name.endsWith('Share') ? share(value) : kg(value),
      ]),
    ),
    proof: {
      servedAtMost: list.proof.servedAtMost,
      ...(list.proof.valueGap === undefined ? {} : { valueGap: share(list.proof.valueGap) }),
    },
    passedOver,
    problems,
  };
}

function missingEntry(
  missing: NonNullable<CuttingList['missing']>,
  rows: readonly CuttingRow[],
): object {
  return {
    rows: missing.orders.map((order) => rows[order].row),
    byCut: missing.byKind.map(({ kind, pieces, massKg }) => ({
      cut: kind,
      pieces,
      massKg: kg(massKg),
    })),
    tenderloins: missing.tenderloins.map(({ leastKg, mostKg }) => ({
      leastKg: kg(leastKg),
      ...(mostKg === undefined ? {} : { mostKg: kg(mostKg) }),
    })),
    tooLargeRows: missing.impossible.map((order) => rows[order].row),
  };
}

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));
const kg = (value: number): number => rounded(value, 4);
const mm = (value: number): number => rounded(value, 1);
const share = (value: number): number => rounded(value, 5);
