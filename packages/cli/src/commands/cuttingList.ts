import path from 'node:path';
import {
  cutTenderloins,
  cuttingFaults,
  type KindPrices,
  type Prices,
  RoastError,
  TOLERANCE,
  type UnitSystem,
} from '@roastsim/core';
import pc from 'picocolors';
import type { Io } from '../io.js';
import { type CuttingOrders, type CuttingRow, readCuttingOrders } from '../read/cuttingOrders.js';
import { readAtMost } from '../read/fileBytes.js';
import { printable, readChoice, unitSystemOf } from '../read/index.js';
import { ORDERS_LIMIT } from '../read/ordersTable.js';
import { readPercent } from '../read/readPercent.js';
import { readStock } from '../read/readStock.js';
import { refuseName, requireEnding, reserve } from '../wholeFile.js';
import { PLAN_OPTIONS } from './planOptionLines.js';

/** Options of the cutting list as they were typed. */
export interface CuttingListWords {
  /** The orders file. */
  readonly orders: string;
  /** Weights of the tenderloins at hand. */
  readonly stock: string;
  /** A PDF file for the sheet. */
  readonly out?: string;
  readonly tolerance?: string;
  readonly prices?: string;
  readonly settings?: string;
  readonly units?: string;
  readonly json?: boolean;
}

const MOST_TOLERANCE_PERCENT = 20;

/**
 * Allots the orders of a file to the tenderloins at hand and prints the cutting list.
 *
 * @param fail - called when the work is done but some orders could not be read or served
 * @throws RoastError when nothing can be planned
 */
export async function runCuttingList(
  words: CuttingListWords,
  io: Io,
  fail: () => void,
): Promise<void> {
  const stockKg = readStock(words.stock, '--stock');
  const tolerance =
    words.tolerance === undefined
      ? TOLERANCE
      : readPercent(words.tolerance, MOST_TOLERANCE_PERCENT, '--tolerance');
  const out = words.out === undefined ? undefined : pdfName(words.out, words.orders);
  const settings =
    words.settings === undefined
      ? {}
      : await (await import('../read/settings.js')).readSettings(words.settings);
  const prices = await pricesFor(words.prices, settings.priceList);
  const bytes =
    (await readAtMost(words.orders, ORDERS_LIMIT).catch(() =>
      refuseOrders(words.orders, 'it cannot be read'),
    )) ?? refuseOrders(words.orders, 'it is too large');
  const read = readCuttingOrders(bytes, words.orders, OTHER_COLUMNS);
  const units = unitsOf(words, settings.units, read);
  if (read.problems.length > 0) {
    const { problemsText } = await import('../show/problemsCsv.js');
    io.err(problemsText(read.problems));
  }
  if (read.rows.length === 0) {
    if (read.problems.length === 0) refuseEmpty(words.orders);
    fail();
    return;
  }
  const file = out === undefined ? undefined : await reserve(out, '--out');
  try {
    const { highsSolver } = await import('../solve/highs.js');
    const request = {
      orders: read.rows.map(({ order }) => order),
      stockKg,
      tolerance,
      ...(prices === undefined ? {} : { prices }),
    };
    const list = await cutTenderloins(request, await highsSolver(), () => performance.now() / 1000);
    // a knife cannot be taken back: a list that does not add up is a fault of the program
    const faults = cuttingFaults(request, list);
    if (faults.length > 0)
      throw new Error(`the cutting list does not add up: ${faults.join('; ')}`);
    const { cuttingSheet } = await import('../show/cuttingSheet.js');
    const sheet = cuttingSheet(list, {
      rows: read.rows,
      units,
      remarks: remarksOf(read, list.served.length),
    });
    if (file !== undefined) {
      const { cuttingPdf } = await import('../show/cuttingPdf.js');
      const pdf = await cuttingPdf(sheet, {
        letter: settings.paper === 'letter' || (settings.paper === undefined && units === 'us'),
        shop: settings.name,
        created: io.now(),
      });
      await file.fill(pdf);
      io.err(`Cutting sheet written to ${printable(out ?? '')}\n`);
    }
    if (words.json === true) {
      const { cuttingDocument } = await import('../show/cuttingDocument.js');
      io.out(`${JSON.stringify(cuttingDocument(list, { ...read, units }))}\n`);
    } else {
      const { cuttingText } = await import('../show/cuttingText.js');
      io.out(cuttingText(sheet, pc.createColors(io.color)));
    }
    if (read.problems.length > 0 || list.missing !== undefined) fail();
  } finally {
    await file?.drop();
  }
}

/** From a list of its own, else from the settings, else the usual ratios. */
async function pricesFor(
  file: string | undefined,
  settings: Prices | undefined,
): Promise<KindPrices | undefined> {
  if (file === undefined && settings === undefined) return undefined;
  const { kindPricesOf, readKindPrices } = await import('../read/prices.js');
  if (file !== undefined) return readKindPrices(file);
  const { whole, centre, butt } = settings?.perKg ?? {};
  return kindPricesOf({ whole, centre, butt }, '--settings prices');
}

/** Columns that orders for cook cards have. */
const OTHER_COLUMNS = PLAN_OPTIONS.map(([, flags]) => /^--([a-z-]+)/.exec(flags)?.[1] ?? '').filter(
  (name) => name !== '' && name !== 'settings',
);

function unitsOf(
  words: CuttingListWords,
  fromSettings: UnitSystem | undefined,
  read: CuttingOrders,
): UnitSystem {
  if (words.units !== undefined) return readChoice(words.units, ['metric', 'us'], '--units');
  return fromSettings ?? unitSystemOf(words.stock) ?? read.units ?? 'metric';
}

function remarksOf({ passedOver, problems, rows }: CuttingOrders, planned: number): string[] {
  const remarks: string[] = [];
  const bad = [...new Set(problems.flatMap(({ row }) => row ?? []))];
  if (bad.length > 0) {
    remarks.push(`Could not be read and are not on this list: ${rowsText(bad)}.`);
  }
  if (passedOver.length > 0) {
    remarks.push(`Not cut from a tenderloin and left out: ${rowsText(passedOver)}.`);
  }
  const days = new Set(rows.flatMap(({ pickUp }: CuttingRow) => pickUp?.slice(0, 10) ?? []));
  if (days.size > 1) {
    remarks.push(
      `The ${planned} orders are for ${days.size} days; this list cuts them all at once.`,
    );
  }
  return remarks;
}

const rowsText = (rows: readonly number[]): string =>
  `${rows.length === 1 ? 'row' : 'rows'} ${rows.join(', ')}`;

function pdfName(out: string, orders: string): string {
  requireEnding(out, '.pdf', '--out');
  if (path.resolve(out) === path.resolve(orders)) refuseName(out, '.pdf', '--out');
  return out;
}

function refuseOrders(file: string, fault: string): never {
  const accepted = 'a CSV file of orders that can be read';
  throw new RoastError(`--orders: read "${printable(file)}"; ${fault}; accepted: ${accepted}`, {
    code: 'unreadable',
    path: ['--orders'],
    found: file,
    accepted,
  });
}

function refuseEmpty(file: string): never {
  const accepted = 'orders of tenderloin';
  throw new RoastError(
    `--orders: read "${printable(file)}"; nothing in it is cut from a tenderloin; accepted: ${accepted}`,
    { code: 'missing', path: ['--orders'], found: file, accepted },
  );
}
