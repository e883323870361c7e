import { cuttingCautions } from '@roastsim/core';
import type { Drawing } from './card/drawing.js';
import { PT_PER_MM, type Weight } from './card/page.js';
import { paint } from './card/pagePaint.js';
import { bytesOf, type CardDocument, openDocument } from './card/pdf.js';
import { pdfPainter } from './card/pdfPainter.js';
import { cardMeasure, isPrintable } from './card/textFonts.js';
import { cuttingDrawing } from './cuttingDrawing.js';
import type { CuttingSheet, SheetBlock } from './cuttingSheet.js';

/** How a cutting sheet is printed. */
export interface CuttingPaper {
  /** On US letter instead of A4. */
  readonly letter: boolean;
  readonly shop?: string | undefined;
  /** Goes into the file. */
  readonly created: Date;
}

const PAPER_MM = { a4: [210, 297], letter: [215.9, 279.4] } as const;
const MARGIN_PT = 13 * PT_PER_MM;
const FOOT_PT = 16; // room for the number of the page
const TEXT_PT = 9.5;
const SMALL_PT = 8.5;
const HEADING_PT = 12;
const TITLE_PT = 16;
const LETTER_COLUMN_PT = 16;
const WHERE_COLUMN_PT = 92;
const BLOCK_GAP_PT = 12;
const RULE = '#8c8c8c';
const FONTS: Readonly<Record<Weight, string>> = {
  400: 'card-400',
  600: 'card-600',
  700: 'card-700',
};

/** The cutting list as a PDF file: a drawing to scale and a list of its pieces for each tenderloin that is cut, none broken over pages. */
export async function cuttingPdf(sheet: CuttingSheet, paper: CuttingPaper): Promise<Uint8Array> {
  const { letter, shop, created } = paper;
  const [widthMm, heightMm] = PAPER_MM[letter ? 'letter' : 'a4'];
  const doc = openDocument({ title: 'Cutting list', language: 'en', created });
  const bytes = bytesOf(doc);
  const pages = new Pages(doc, widthMm * PT_PER_MM, heightMm * PT_PER_MM);
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
  pages.end();
  doc.end();
  return bytes;
}

const KEY =
  'On the drawings: white is ordered, slanting lines are roasts to sell, crossed lines are ends and tips. Figures are distances from ' +
  'the butt end, which lies left; all tenderloins are drawn to one scale.';

/** Pages filled from the top down. */
class Pages {
  private y = 0;
  private count = 0;
  private readonly document: PDFKit.PDFStructureElement;
  private readonly doc: CardDocument;
  private readonly width: number;
  private readonly height: number;

  constructor(doc: CardDocument, width: number, height: number) {
    this.doc = doc;
    this.width = width;
    this.height = height;
    this.document = doc.struct('Document', { lang: 'en' });
    doc.addStructure(this.document);
    this.turn();
  }

  get inner(): number {
    return this.width - 2 * MARGIN_PT;
  }

  text(tag: 'H1' | 'H2' | 'P', said: string, weight: Weight = 400, sizePt = TEXT_PT): void {
    const text = inFonts(said);
    const above = tag === 'P' || this.y === MARGIN_PT ? 0 : 0.6 * sizePt;
    const tall = this.heightOf(text, weight, sizePt, this.inner);
    this.room(above + tall + (tag === 'P' ? 0 : 3 * TEXT_PT));
    this.y += this.y === MARGIN_PT ? 0 : above;
    this.write(tag, text, weight, sizePt, MARGIN_PT, this.inner);
    this.y += tall + 0.3 * sizePt;
  }

  /** A heading, a drawing and a line for each piece, together on one page. */
  block({ heading, pieces }: SheetBlock, drawing: Drawing): void {
    const { doc } = this;
    const headTall = this.heightOf(heading, 600, HEADING_PT, this.inner) + 3;
    const drawnTall = drawing.heightMm * PT_PER_MM + 3;
    const wide = this.inner - LETTER_COLUMN_PT - WHERE_COLUMN_PT;
    const lines = pieces.map(({ use, letter: mark, where, what, forWhom }) => {
      const letter = use === 'ends' ? '' : mark; // on the drawing they are hatched and bear none
      const text = inFonts(`${what}, ${forWhom}`);
      return { letter, where, text, tall: this.heightOf(text, 400, TEXT_PT, wide) + 2.5 };
    });
    const tall = headTall + drawnTall + lines.reduce((sum, line) => sum + line.tall, 0);
    if (this.y > MARGIN_PT) this.y += BLOCK_GAP_PT;
    this.room(tall);
    this.write('H2', heading, 600, HEADING_PT, MARGIN_PT, this.inner);
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
      this.document.add(
        doc.struct('P', {}, () => {
          doc.fillColor('#000000');
          doc.font(FONTS[700], TEXT_PT).text(letter, MARGIN_PT, y, { lineBreak: false });
          doc
            .font(FONTS[600], TEXT_PT)
            .text(where, MARGIN_PT + LETTER_COLUMN_PT, y, { lineBreak: false });
          doc
            .font(FONTS[400], TEXT_PT)
            .text(text, MARGIN_PT + LETTER_COLUMN_PT + WHERE_COLUMN_PT, y, { width: wide });
        }),
      );
      this.y += lineTall;
    }
    this.artifact(() => {
      doc
        .lineWidth(0.4)
        .moveTo(MARGIN_PT, this.y + 2)
        .lineTo(this.width - MARGIN_PT, this.y + 2)
        .stroke(RULE);
    });
    this.y += 3;
  }

  /** Numbers the last page. */
  end(): void {
    this.foot();
    this.document.end();
  }

  private heightOf(text: string, weight: Weight, sizePt: number, width: number): number {
    return this.doc.font(FONTS[weight], sizePt).heightOfString(text, { width });
  }

  private write(
    tag: string,
    text: string,
    weight: Weight,
    sizePt: number,
    x: number,
    width: number,
  ): void {
    const { doc } = this;
    this.document.add(
      doc.struct(tag, {}, () => {
        doc.fillColor('#000000').font(FONTS[weight], sizePt).text(text, x, this.y, { width });
      }),
    );
  }

  /** Turns the page where what comes does not fit. */
  private room(heightPt: number): void {
    if (this.y === MARGIN_PT || this.y + heightPt <= this.height - MARGIN_PT - FOOT_PT) return;
    this.foot();
    this.turn();
  }

  private turn(): void {
    this.doc.addPage({ size: [this.width, this.height], margin: 0 });
    this.y = MARGIN_PT;
    this.count++;
  }

  private foot(): void {
    const y = this.height - MARGIN_PT - SMALL_PT;
    this.artifact(() => {
      this.doc.fillColor('#000000').font(FONTS[400], SMALL_PT);
      this.doc.text(`Page ${this.count}`, MARGIN_PT, y, {
        width: this.inner,
        align: 'right',
        lineBreak: false,
      });
    });
  }

  private artifact(draw: () => void): void {
    this.doc.markContent('Artifact', { type: 'Layout' });
    draw();
    this.doc.endMarkedContent();
  }
}

/** A name with a letter the fonts lack keeps its row number; the letter becomes a question mark. */
const inFonts = (text: string): string =>
  [...text]
    .map((character) => (isPrintable(character.codePointAt(0) ?? 0) ? character : '?'))
    .join('');
