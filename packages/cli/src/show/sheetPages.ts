import { PAPERS } from './card/cardModel.js';
import { PT_PER_MM, type Weight } from './card/page.js';
import { bytesOf, type CardDocument, openDocument } from './card/pdf.js';

/** Fonts of a sheet by their weight, as the document knows them. */
export const SHEET_FONTS: Readonly<Record<Weight, string>> = {
  400: 'card-400',
  600: 'card-600',
  700: 'card-700',
};

const BLACK = '#000000';
const HAIRLINE = '#8c8c8c';

/** How the pages of a sheet are laid out. */
export interface SheetForm {
  readonly title: string;
  /** On US letter instead of A4. */
  readonly letter: boolean;
  readonly landscape: boolean;
  readonly marginPt: number;
  /** Room for the number of the page. */
  readonly footPt: number;
  /** Size of that number. */
  readonly smallPt: number;
  /** Goes into the file. */
  readonly created: Date;
}

/** Tagged, numbered pages of a PDF file, filled from the top down. */
export class SheetPages {
  protected readonly doc: CardDocument;
  protected readonly document: PDFKit.PDFStructureElement;
  /** Where the next thing goes [pt from the top]. */
  protected y = 0;
  readonly #form: SheetForm;
  readonly #bytes: Promise<Uint8Array>;
  readonly #size: readonly [widthPt: number, heightPt: number];
  #count = 0;

  constructor(form: SheetForm) {
    this.#form = form;
    this.doc = openDocument({ title: form.title, language: 'en', created: form.created });
    this.#bytes = bytesOf(this.doc);
    const { widthMm, heightMm } = PAPERS[form.letter ? 'letter' : 'a4'];
    const [width, height] = [widthMm * PT_PER_MM, heightMm * PT_PER_MM];
    this.#size = form.landscape ? [height, width] : [width, height];
    this.document = this.doc.struct('Document', { lang: 'en' });
    this.doc.addStructure(this.document);
    this.#turn();
  }

  /** Between the margins [pt]. */
  get inner(): number {
    return this.#size[0] - 2 * this.#form.marginPt;
  }

  /** Numbers the last page and closes the file. */
  finish(): Promise<Uint8Array> {
    this.#foot();
    this.document.end();
    this.doc.end();
    return this.#bytes;
  }

  protected get atTop(): boolean {
    return this.y === this.#form.marginPt;
  }

  /** Turns the page where what comes does not fit; whether it did. */
  protected room(heightPt: number): boolean {
    const { marginPt, footPt } = this.#form;
    if (this.atTop || this.y + heightPt <= this.#size[1] - marginPt - footPt) return false;
    this.#foot();
    this.#turn();
    return true;
  }

  /** Draws something that a screen reader reads. */
  protected tagged(tag: string, draw: () => void): void {
    this.doc.fillColor(BLACK);
    this.document.add(this.doc.struct(tag, {}, draw));
  }

  /** A line across, not read. */
  protected rule(y: number, strong = false): void {
    const { marginPt } = this.#form;
    this.#artifact(() => {
      this.doc
        .lineWidth(strong ? 1 : 0.4)
        .moveTo(marginPt, y)
        .lineTo(this.#size[0] - marginPt, y)
        .stroke(strong ? BLACK : HAIRLINE);
    });
  }

  #turn(): void {
    this.doc.addPage({ size: [...this.#size], margin: 0 });
    this.y = this.#form.marginPt;
    this.#count++;
  }

  #foot(): void {
    const { marginPt, smallPt } = this.#form;
    const y = this.#size[1] - marginPt - smallPt;
    this.#artifact(() => {
      this.doc.fillColor(BLACK).font(SHEET_FONTS[400], smallPt);
      this.doc.text(`Page ${this.#count}`, marginPt, y, {
        width: this.inner,
        align: 'right',
        lineBreak: false,
      });
    });
  }

  #artifact(draw: () => void): void {
    this.doc.markContent('Artifact', { type: 'Layout' });
    draw();
    this.doc.endMarkedContent();
  }
}
