import { massText } from '@roastsim/core';
import { PT_PER_MM, type Weight } from './card/page.js';
import { cardMeasure } from './card/textFonts.js';
import { type Day, type DayLine, type DaySheet, dayText, timeOf, totalText } from './daySheet.js';
import { SHEET_FONTS, SheetPages } from './sheetPages.js';

/** How a day sheet is printed. */
export interface SheetPaper {
  /** Language of dates: a BCP 47 tag. */
  readonly locale: string;
  /** On US letter instead of A4. */
  readonly letter: boolean;
  readonly shop?: string | undefined;
  /** Goes into the file. */
  readonly created: Date;
}

/** A column: its heading, its share of the width, and what stands in it. */
interface Column {
  readonly heading: string;
  readonly share: number;
  readonly right?: boolean;
  readonly bold?: boolean;
  readonly text: (line: DayLine) => string;
}

const COLUMNS: readonly Column[] = [
  { heading: 'Time', share: 36, text: ({ pickUp }) => timeOf(pickUp) },
  { heading: 'No.', share: 28, right: true, text: ({ row }) => String(row) },
  { heading: 'Name', share: 128, bold: true, text: ({ name }) => name ?? '' },
  {
    heading: 'Weight',
    share: 62,
    right: true,
    bold: true,
    text: ({ weightKg, units }) => massText(weightKg, units),
  },
  { heading: 'Cut', share: 40, text: ({ cut }) => cut },
  {
    heading: 'Ties',
    share: 30,
    right: true,
    text: ({ ties }) => (ties === 0 ? 'none' : String(ties)),
  },
  { heading: 'Oven', share: 80, text: ({ oven }) => oven },
  { heading: 'Min', share: 30, right: true, text: ({ minutes }) => String(minutes) },
  { heading: 'Pull', share: 40, right: true, text: ({ pull }) => pull },
  { heading: 'Wanted', share: 158, text: ({ wanted }) => wanted },
  { heading: 'Serve', share: 46, text: ({ serve }) => serve ?? '' },
  { heading: 'Note', share: 100, text: ({ note }) => note ?? '' },
];

const MARGIN_PT = 12 * PT_PER_MM;
const FOOT_PT = 14; // room for the number of the page
const TEXT_PT = 9;
const DAY_PT = 12;
const TITLE_PT = 16;
const CELL_GAP_PT = 8;
const ROW_GAP_PT = 3;

/** The day sheet as a PDF file, in landscape; the names of the columns are repeated on every page. */
export async function daySheetPdf(sheet: DaySheet, paper: SheetPaper): Promise<Uint8Array> {
  const { locale, letter, shop, created } = paper;
  const pages = new Pages({
    title: 'Day sheet',
    letter,
    landscape: true,
    marginPt: MARGIN_PT,
    footPt: FOOT_PT,
    smallPt: TEXT_PT,
    created,
  });
  pages.heading('H1', shop === undefined ? 'Day sheet' : `Day sheet, ${shop}`, TITLE_PT);
  for (const day of sheet.days) {
    pages.heading('H2', headingOf(day, sheet.units, locale), DAY_PT, 3 * TEXT_PT);
    pages.columns();
    for (const line of day.lines) pages.row(line);
    pages.endRows();
  }
  totals(pages, sheet);
  return pages.finish();
}

function headingOf({ date, lines }: Day, units: DaySheet['units'], locale: string): string {
  const day = date === undefined ? 'No day of pick-up' : dayText(date, locale);
  const weightKg = lines.reduce((sum, line) => sum + line.weightKg, 0);
  return `${day}: ${roasts(lines.length)}, ${totalText(weightKg, units)}`;
}

const roasts = (count: number): string => `${count} ${count === 1 ? 'roast' : 'roasts'}`;

function totals(pages: Pages, { totals: sums, missing, units }: DaySheet): void {
  pages.heading('H2', 'Total', DAY_PT, 2 * TEXT_PT);
  for (const { cut, count, weightKg } of sums) {
    pages.line(`${cut}: ${roasts(count)}, ${totalText(weightKg, units)}`, cut === 'all');
  }
  if (missing.length === 0) return;
  const rows = `${missing.length === 1 ? 'row' : 'rows'} ${missing.join(', ')}`;
  pages.line(`Not on this sheet: ${rows} of the orders (see problems.csv).`, true);
}

/** Pages of headings, lines and one table. */
class Pages extends SheetPages {
  #inTable = false;

  heading(tag: 'H1' | 'H2', text: string, sizePt: number, keptWithPt = 0): void {
    const { doc } = this;
    doc.font(SHEET_FONTS[600], sizePt);
    const tall = doc.heightOfString(text, { width: this.inner });
    const above = this.atTop ? 0 : 0.8 * sizePt;
    this.room(above + tall + keptWithPt);
    if (!this.atTop) this.y += above;
    this.tagged(tag, () =>
      doc.font(SHEET_FONTS[600], sizePt).text(text, MARGIN_PT, this.y, { width: this.inner }),
    );
    this.y += tall + 0.3 * sizePt;
  }

  line(text: string, bold: boolean): void {
    const { doc } = this;
    const font = bold ? SHEET_FONTS[600] : SHEET_FONTS[400];
    doc.font(font, TEXT_PT);
    const tall = doc.heightOfString(text, { width: this.inner });
    this.room(tall);
    this.tagged('P', () =>
      doc.font(font, TEXT_PT).text(text, MARGIN_PT, this.y, { width: this.inner }),
    );
    this.y += tall + ROW_GAP_PT;
  }

  /** The names of the columns; from here on, on the next pages too. */
  columns(): void {
    this.#inTable = true;
    this.#cells(
      COLUMNS.map(({ heading }) => heading),
      true,
    );
  }

  row(line: DayLine): void {
    this.#cells(
      COLUMNS.map(({ text }) => text(line)),
      false,
    );
  }

  endRows(): void {
    this.#inTable = false;
  }

  #cells(texts: readonly string[], heading: boolean): void {
    const { doc } = this;
    const scale = this.inner / COLUMNS.reduce((sum, { share }) => sum + share, 0);
    let x = MARGIN_PT;
    const cells = COLUMNS.map(({ share, right, bold }, i) => {
      const weight: Weight = heading || bold === true ? 600 : 400;
      const width = share * scale - CELL_GAP_PT;
      const textWidth = TEXT_PT * cardMeasure(texts[i], weight);
      const cell = { text: texts[i], font: SHEET_FONTS[weight], x, width };
      x += share * scale;
      if (textWidth > width) return cell; // set in several lines
      return { ...cell, x: right === true ? cell.x + width - textWidth : cell.x, width: undefined };
    });
    const tall = Math.max(
      doc.font(SHEET_FONTS[400], TEXT_PT).currentLineHeight(true),
      ...cells.map(({ text, font, width }) =>
        width === undefined ? 0 : doc.font(font, TEXT_PT).heightOfString(text, { width }),
      ),
    );
    if (this.room(tall + ROW_GAP_PT) && !heading && this.#inTable) this.columns();
    this.tagged('P', () => {
      for (const { text, font, x: left, width } of cells) {
        if (text === '') continue;
        const set = width === undefined ? { lineBreak: false } : { width };
        doc.font(font, TEXT_PT).text(text, left, this.y, set);
      }
    });
    this.y += tall + ROW_GAP_PT / 2;
    this.rule(this.y, heading);
    this.y += ROW_GAP_PT / 2;
  }
}
