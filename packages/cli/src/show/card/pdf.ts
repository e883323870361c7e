import PDFDocument from 'pdfkit';
import type { CardModel } from './cardModel.js';
import { layoutCard } from './layout.js';
import type { Part, Role } from './page.js';
import { paint } from './pagePaint.js';
import { pdfPainter, registerPdfFonts } from './pdfPainter.js';
import { cardMeasure } from './textFonts.js';
import { requirePrintable } from './textGlyphs.js';

/** A PDF file in the making. */
export type CardDocument = PDFKit.PDFDocument;

/** What a file says about itself. */
export interface DocumentLabel {
  readonly title: string;
  /** BCP 47 tag. */
  readonly language: string;
  /** Goes into the file, so that the same card printed twice with the same date is the same file. */
  readonly created: Date;
}

/**
 * A card as a PDF file of one page: text as text, drawings as lines, the fonts in it.
 *
 * @param created - date of creation to put into the file; the same date makes the same bytes
 * @throws RoastError `unreadable` naming a character that the fonts lack; `out-of-range` when the texts are too long for the paper
 */
export async function cardPdf(card: CardModel, created = new Date()): Promise<Uint8Array> {
  const doc = openDocument({ title: card.title, language: card.language, created });
  const bytes = bytesOf(doc);
  drawCard(doc, card);
  doc.end();
  return bytes;
}

/** Starts a file without pages; {@link drawCard} adds them, `end()` closes it. */
export function openDocument({ title, language, created }: DocumentLabel): CardDocument {
  const doc = new PDFDocument({
    autoFirstPage: false,
    font: '', // else the library looks for the files of its own default font, which are not bundled
    pdfVersion: '1.7',
    tagged: true,
    lang: language,
    displayTitle: true,
    info: {
      Title: title.replace(/[<>&]/g, ' '), // it is written into XML as it is
      Creator: 'roastsim',
      Producer: 'roastsim',
      CreationDate: created,
    },
  });
  registerPdfFonts(doc);
  return doc;
}

/** All bytes of a document, once it has ended. */
export function bytesOf(doc: CardDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('end', () => resolve(Buffer.concat(chunks)));
    doc.on('error', reject);
  });
}

/**
 * Adds a card to a document, on a page of its own.
 *
 * @throws RoastError as {@link cardPdf}, before anything is drawn
 */
export function drawCard(doc: CardDocument, card: CardModel): void {
  requirePrintable(card);
  const { widthPt, heightPt, blocks } = layoutCard(card, cardMeasure);
  doc.addPage({ size: [widthPt, heightPt], margin: 0 });
  const painter = pdfPainter(doc);
  const root = doc.struct('Document', { lang: card.language });
  doc.addStructure(root);
  const draw = (part: Part): void => paint(part.ops, painter, cardMeasure);
  for (const part of blocks.flatMap(({ parts }) => parts)) {
    const tag = TAGS[part.role];
    if (tag === undefined) {
      doc.markContent('Artifact', { type: 'Layout' });
      draw(part);
      doc.endMarkedContent();
    } else {
      root.add(doc.struct(tag, part.alt === undefined ? {} : { alt: part.alt }, () => draw(part)));
    }
  }
  root.end();
}

/** Standard structure types of PDF. */
const TAGS: Readonly<Record<Role, string | undefined>> = {
  title: 'H1',
  heading: 'H2',
  paragraph: 'P',
  figure: 'Figure',
  ornament: undefined,
};
