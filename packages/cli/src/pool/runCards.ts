import path from 'node:path';
import { RoastError } from '@roastsim/core';
import { printable } from '../read/index.js';
import { type Order, type Problem, readOrders } from '../read/orders.js';
import type { PlanColumn } from '../read/ordersColumns.js';
import { ORDERS_LIMIT } from '../read/ordersTable.js';
import { readSettings, type ShopSettings, withSettings } from '../read/settings.js';
import type { Paper } from '../show/card/cardModel.js';
import { LARGER_PAPER } from '../show/card/fitting.js';
import { type DayLine, daySheet, type RoastLine, sorted } from '../show/daySheet.js';
import { daySheetCsv } from '../show/daySheetCsv.js';
import { problemsCsv } from '../show/problemsCsv.js';
import { readWhole, reserve } from '../wholeFile.js';
import { cardFileName } from './cardFileName.js';
import { CardFolder, type Standing } from './cardFolder.js';
import { digestOf, digestOfProgram, fingerprint } from './fingerprint.js';
import type { Format, Job } from './job.js';

/** What to make cards of, and where. */
export interface CardsRequest {
  /** The orders file. */
  readonly file: string;
  /** The folder the cards go to. */
  readonly dir: string;
  readonly settingsFile?: string;
  /** Overrules the settings. */
  readonly paper?: Paper;
  readonly format: Format;
  /** Whether files that differ may be replaced. */
  readonly replace: boolean;
  readonly planColumns: readonly PlanColumn[];
  readonly version: string;
  /** Date of creation to put into the files. */
  readonly created: Date;
}

/** How it went. */
export interface CardsReport {
  readonly made: number;
  readonly kept: number;
  readonly problems: readonly Problem[];
  /** Files written beside the cards, or found up to date. */
  readonly sheets: readonly string[];
  /** Rows whose cards had no room on the usual paper and are set for a larger one, and which of them were made now. */
  readonly larger: readonly { readonly row: number; readonly made: boolean }[];
  /** Cards from earlier runs that belong to no order now. */
  readonly leftOver: readonly string[];
}

const COMBINED = 'all-cards.pdf';
/** Those set for another paper than the others, which goes into another tray. */
const COMBINED_LARGER = `all-cards-${LARGER_PAPER}.pdf`;
const SHEET_PDF = 'day-sheet.pdf';
const SHEET_CSV = 'day-sheet.csv';
const PROBLEMS = 'problems.csv';

/** An order and where its card goes. */
interface Place {
  readonly order: Order;
  readonly file: string;
  readonly from: string;
}

/**
 * Makes the cards of a file of orders, the sheets that go with them, and a list of what is wrong.
 *
 * @throws RoastError when nothing can be read or the folder cannot be written to
 */
export async function runCards(request: CardsRequest): Promise<CardsReport> {
  refuseOwnFile(request);
  const bytes = await readWhole(
    request.file,
    'orders',
    ORDERS_LIMIT,
    'a CSV file with one order a row',
  );
  const settings: ShopSettings = {
    ...(request.settingsFile === undefined ? {} : await readSettings(request.settingsFile)),
    ...(request.paper === undefined ? {} : { paper: request.paper }),
  };
  const { orders, problems } = readOrders(bytes, request.file, request.planColumns, (words) =>
    withSettings(words, settings),
  );
  const folder = await CardFolder.open(request.dir);
  try {
    const program = await digestOfProgram();
    return await new Run(request, settings, folder, program, [...problems]).all(orders);
  } finally {
    await folder.close();
  }
}

/** A file beside the cards, and how it is made: its content goes to a temporary file, its digest comes back. */
type SheetMaker = readonly [file: string, make: (temporary: string) => Promise<string>];

/** One run over a folder. */
class Run {
  private readonly lines: DayLine[] = [];
  private readonly larger: { row: number; made: boolean }[] = [];
  private made = 0;

  private readonly request: CardsRequest;
  private readonly settings: ShopSettings;
  private readonly folder: CardFolder;
  private readonly program: string;
  private readonly problems: Problem[];

  constructor(
    request: CardsRequest,
    settings: ShopSettings,
    folder: CardFolder,
    program: string,
    problems: Problem[],
  ) {
    this.request = request;
    this.settings = settings;
    this.folder = folder;
    this.program = program;
    this.problems = problems;
  }

  async all(orders: readonly Order[]): Promise<CardsReport> {
    const places = orders.map((order) => this.placeOf(order));
    const jobs = await this.jobsFor(places);
    const kept = this.lines.length;
    await this.make(jobs);
    const sheets = this.lines.length === 0 ? [] : await this.sheets();
    this.problems.sort((a, b) => (a.row ?? Infinity) - (b.row ?? Infinity) || 0);
    await this.tellProblems();
    return {
      made: this.made,
      kept,
      problems: this.problems,
      sheets,
      larger: this.larger.toSorted((a, b) => a.row - b.row),
      leftOver: await this.leftOver(places),
    };
  }

  private placeOf(order: Order): Place {
    const { format, version } = this.request;
    const { program } = this;
    const { row, line, ...said } = order;
    return {
      order,
      file: cardFileName(row, order.name, format),
      from: fingerprint({ said, settings: this.settings, format, version, program }),
    };
  }

  /** The cards that have to be made; those that stand already go on the sheet. */
  private async jobsFor(places: readonly Place[]): Promise<(Place & Job)[]> {
    const jobs: (Place & Job)[] = [];
    for (const place of places) {
      const { order, file, from } = place;
      const standing = await this.folder.standing(file, from);
      const line = this.folder.made(file)?.line;
      if (standing === 'current' && line !== undefined) this.stands(place, line, false);
      else if (standing === 'free' || this.request.replace) {
        jobs.push({ ...place, temporary: this.folder.temporary(file) });
      } else this.inTheWay(file, standing, order);
    }
    return jobs;
  }

  private async make(jobs: readonly (Place & Job)[]): Promise<void> {
    if (jobs.length === 0) return;
    const { format, created } = this.request;
    const { makeCards } = await import('./makeCards.js');
    const { progress } = await import('./progress.js');
    const bar = progress(jobs.length);
    try {
      await makeCards(jobs, { settings: this.settings, format, created }, async (job, outcome) => {
        if (outcome.kind === 'problem') this.problems.push(outcome.problem);
        if (outcome.kind === 'made') {
          const { line, bytes, paper } = outcome;
          await this.folder.place(job.file, job.temporary, { from: job.from, bytes, line, paper });
          this.stands(job, line, true);
          this.made++;
        }
        bar.done();
      });
    } finally {
      bar.stop();
    }
  }

  private stands(place: Place, line: RoastLine, made: boolean): void {
    this.lines.push(dayLine(place, line));
    if (this.isLarger(place.file)) this.larger.push({ row: place.order.row, made });
  }

  /** Whether a card is set for a larger paper than the others. */
  private isLarger(file: string): boolean {
    return this.settings.paper === undefined && this.folder.made(file)?.paper === LARGER_PAPER;
  }

  /** The sheets beside the cards; gives the names of those that stand. */
  private async sheets(): Promise<string[]> {
    const lines = sorted(this.lines);
    const there = new Set(lines.map(({ row }) => row));
    const missing = this.problems.flatMap(({ row }) => row ?? []).filter((row) => !there.has(row));
    const sheet = daySheet(
      lines,
      [...new Set(missing)].sort((a, b) => a - b),
    );
    const { locale = 'en-GB', paper, name: shop } = this.settings;
    const cards = lines.map(({ file }) => [file, this.folder.made(file)?.bytes]);
    const { created } = this.request;
    const { version } = this.request;
    const { program } = this;
    const from = fingerprint({ cards, sheet, locale, paper, shop, version, program });
    const makers: SheetMaker[] = [
      ...(this.request.format === 'pdf' ? await this.combined(lines) : []),
      [SHEET_CSV, (temporary) => written(temporary, daySheetCsv(sheet))],
      [
        SHEET_PDF,
        async (temporary) => {
          const { daySheetPdf } = await import('../show/daySheetPdf.js');
          const printed = { locale, letter: paper === 'letter', shop, created };
          return written(temporary, await daySheetPdf(sheet, printed));
        },
      ],
    ];
    const standing: string[] = [];
    for (const [file, make] of makers) if (await this.sheet(file, from, make)) standing.push(file);
    return standing;
  }

  /** How to make the files for the printer, one for each paper; those of earlier runs that have no cards now are removed. */
  private async combined(lines: readonly DayLine[]): Promise<SheetMaker[]> {
    const makers: SheetMaker[] = [];
    for (const name of [COMBINED, COMBINED_LARGER]) {
      const files = lines
        .filter(({ file }) => this.isLarger(file) === (name === COMBINED_LARGER))
        .map(({ file }) => this.folder.pathOf(file));
      if (files.length > 0) {
        makers.push([
          name,
          async (temporary) => {
            const { combinePdfs } = await import('./combinePdfs.js');
            return combinePdfs(files, temporary, 'Cook cards');
          },
        ]);
      } else if ((await this.folder.standing(name, '')) === 'outdated') {
        await this.folder.remove(name);
      }
    }
    return makers;
  }

  /** Whether a sheet stands, made now if need be. */
  private async sheet(file: string, from: string, make: SheetMaker[1]): Promise<boolean> {
    const standing = await this.folder.standing(file, from);
    if (standing === 'current') return true;
    if (standing === 'foreign' && !this.request.replace) {
      this.inTheWay(file, standing);
      return false;
    }
    const temporary = this.folder.temporary(file);
    await this.folder.place(file, temporary, { from, bytes: await make(temporary) });
    return true;
  }

  private inTheWay(file: string, standing: Standing, order?: Order): void {
    const [field, where] =
      order === undefined ? [file, {}] : ['card', { row: order.row, line: order.line }];
    const why =
      standing === 'outdated'
        ? 'it was made from another order, other settings or by another version'
        : 'it was not made here, or was changed since';
    const what = order === undefined ? 'it exists' : `${file} exists`;
    const message = `${what} and differs: ${why}; use --replace`;
    this.problems.push({ ...where, field, found: '', message });
  }

  private async tellProblems(): Promise<void> {
    if (this.problems.length === 0) return this.folder.remove(PROBLEMS);
    const text = problemsCsv(this.problems);
    const bytes = digestOf(text);
    if ((await this.folder.standing(PROBLEMS, bytes)) === 'current') return;
    await this.folder.write(PROBLEMS, text, { from: bytes, bytes });
  }

  private async leftOver(places: readonly Place[]): Promise<string[]> {
    const wanted = new Set(places.map(({ file }) => file));
    const others = this.folder
      .known()
      .filter((file) => CARD.test(file) && file.endsWith(this.request.format) && !wanted.has(file));
    const standing = await Promise.all(others.map((file) => this.folder.standing(file, '')));
    return others.filter((_, i) => standing[i] !== 'free');
  }
}

/** Orders must not lie where a sheet of theirs goes. */
function refuseOwnFile({ file, dir }: CardsRequest): void {
  const sheets = [COMBINED, COMBINED_LARGER, SHEET_PDF, SHEET_CSV, PROBLEMS];
  if (sheets.every((name) => path.resolve(dir, name) !== path.resolve(file))) return;
  const accepted = 'orders in another folder, or under another name';
  throw new RoastError(
    `${printable(file)}: a file of that name is written to ${printable(dir)}; accepted: ${accepted}`,
    { code: 'contradiction', path: ['orders'], found: file, accepted },
  );
}

/** Files that are cards. */
const CARD = /^\d{3,}-/;

const dayLine = ({ order, file }: Place, line: RoastLine): DayLine => {
  const { row, name, pickUp, note } = order;
  return {
    ...line,
    row,
    file,
    ...(name === undefined ? {} : { name }),
    ...(pickUp === undefined ? {} : { pickUp }),
    ...(note === undefined ? {} : { note }),
  };
};

/** Writes a file and gives its digest. */
async function written(file: string, content: Uint8Array | string): Promise<string> {
  await (await reserve(file, '--out', path.dirname(file))).fill(content);
  return digestOf(content);
}
