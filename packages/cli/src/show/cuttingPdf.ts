import { cuttingCautions } from '@roastsim/core';
import type { Drawing } from './card/drawing.js';
import { PT_PER_MM, type Weight } from './card/page.js';
import { paint } from './card/pagePaint.js';
import { pdfPainter } from './card/pdfPainter.js';
import { cardMeasure, isPrintable } from './card/textFonts.js';
import { cuttingDrawing } from './cuttingDrawing.js';
import type { CuttingSheet, SheetBlock } from './cuttingSheet.js';
import { SHEET_FONTS, SheetPages } from './sheetPages.js';

/** How a cutting sheet is printed. */
export interface CuttingPaper {
  /** On US letter instead of A4. */
  readonly letter: boolean;
  readonly shop?: string | undefined;
  /** Goes into the file. */
  readonly created: Date;
}

const MARGIN_PT = 13 * PT_PER_MM;
const FOOT_PT = 16; // room for the number of the page
const TEXT_PT = 9.5;
const SMALL_PT = 8.5;
const HEADING_PT = 12;
const TITLE_PT = 16;
const LETTER_COLUMN_PT = 16;
const WHERE_COLUMN_PT = 92;
const BLOCK_GAP_PT = 12;

/** The cutting list as a PDF file: a drawing to scale and a list of its pieces for each tenderloin that is cut, none broken over pages. */
export async function cuttingPdf(sheet: CuttingSheet, paper: CuttingPaper): Promise<Uint8Array> {
  const { letter, shop, created } = paper;
  const pages = new Pages({
    title: 'Cutting list',
    letter,
    landscape: false,
    marginPt: MARGIN_PT,
    footPt: FOOT_PT,
    smallPt: SMALL_PT,
    created,
  });
  pages.text('H1', shop === undefined ? 'Cutting list' : `Cutting list, ${shop}`, 600, TITLE_PT);
  pages.text('P', `${sheet.headline}. ${sheet.verdict}`);
  pages.text('P', sheet.totals.join(' '));
  for (const line of sheet.remarks) pages.text('P', line, 600);
  if (sheet.missing.length > 0) {
    pages.text('H2', 'Not served', 600, HEADING_PT);
    for (const line of sheet.missing) pages.text('P', line, 600);
  }
  for (const { text } of cuttingCautions(sheet.units)) pages.text('P', text, 400, SMALL_PT);
  pages.text('P', KEY, 400, SMALL_PT);
  const longestMm = Math.max(...sheet.blocks.map(({ use }) => use.lengthMm));
  const scale = pages.inner / PT_PER_MM / longestMm;
  for (const block of sheet.blocks) pages.block(block, cuttingDrawing(block, sheet.units, scale));
  if (sheet.uncut.length > 0) pages.text('H2', 'Not cut', 600, HEADING_PT);
  for (const line of sheet.uncut) pages.text('P', line);
  return pages.finish();
}

const KEY =
  'On the drawings: white is ordered, slanting lines are roasts to sell, crossed lines are ends and tips. Figures are distances from ' +
  'the butt end, which lies left; all tenderloins are drawn to one scale.';

/** Pages of texts and of blocks that are not broken. */
class Pages extends SheetPages {
  text(tag: 'H1' | 'H2' | 'P', said: string, weight: Weight = 400, sizePt = TEXT_PT): void {
    const text = inFonts(said);
    const above = tag === 'P' || this.atTop ? 0 : 0.6 * sizePt;
    const tall = this.#heightOf(text, weight, sizePt, this.inner);
    this.room(above + tall + (tag === 'P' ? 0 : 3 * TEXT_PT));
    this.y += this.atTop ? 0 : above;
    this.#write(tag, text, weight, sizePt, MARGIN_PT, this.inner);
    this.y += tall + 0.3 * sizePt;
  }

  /** A heading, a drawing and a line for each piece, together on one page. */
  block({ heading, pieces }: SheetBlock, drawing: Drawing): void {
    const { doc } = this;
    const headTall = this.#heightOf(heading, 600, HEADING_PT, this.inner) + 3;
    const drawnTall = drawing.heightMm * PT_PER_MM + 3;
    const wide = this.inner - LETTER_COLUMN_PT - WHERE_COLUMN_PT;
    const lines = pieces.map(({ use, letter: mark, where, what, forWhom }) => {
      const letter = use === 'ends' ? '' : mark; // on the drawing they are hatched and bear none
      const text = inFonts(`${what}, ${forWhom}`);
      return { letter, where, text, tall: this.#heightOf(text, 400, TEXT_PT, wide) + 2.5 };
    });
    const tall = headTall + drawnTall + lines.reduce((sum, line) => sum + line.tall, 0);
    if (!this.atTop) this.y += BLOCK_GAP_PT;
    this.room(tall);
    this.#write('H2', heading, 600, HEADING_PT, MARGIN_PT, this.inner);
    this.y += headTall;
    const figure = doc.struct('Figure', { alt: drawing.alt }, () => {
      paint(
        [{ kind: 'drawing', drawing, x: MARGIN_PT, y: this.y, scale: 1 }],
        pdfPainter(doc),
        cardMeasure,
      );
      doc.undash();
    });
    this.document.add(figure);
    this.y += drawnTall;
    for (const { letter, where, text, tall: lineTall } of lines) {
      this.room(lineTall);
      const y = this.y;
      this.tagged('P', () => {
        doc.font(SHEET_FONTS[700], TEXT_PT).text(letter, MARGIN_PT, y, { lineBreak: false });
        doc
          .font(SHEET_FONTS[600], TEXT_PT)
          .text(where, MARGIN_PT + LETTER_COLUMN_PT, y, { lineBreak: false });
        doc
          .font(SHEET_FONTS[400], TEXT_PT)
          .text(text, MARGIN_PT + LETTER_COLUMN_PT + WHERE_COLUMN_PT, y, { width: wide });
      });
      this.y += lineTall;
    }
    this.rule(this.y + 2);
    this.y += 3;
  }

  #heightOf(text: string, weight: Weight, sizePt: number, width: number): number {
    return this.doc.font(SHEET_FONTS[weight], sizePt).heightOfString(text, { width });
  }

  #write(
    tag: string,
    text: string,
    weight: Weight,
    sizePt: number,
    x: number,
    width: number,
  ): void {
    this.tagged(tag, () =>
      this.doc.font(SHEET_FONTS[weight], sizePt).text(text, x, this.y, { width }),
    );
  }
}

/** A name with a letter the fonts lack keeps its row number; the letter becomes a question mark. */
const inFonts = (text: string): string =>
  [...text]
    .map((character) => (isPrintable(character.codePointAt(0) ?? 0) ? character : '?'))
    .join('');
