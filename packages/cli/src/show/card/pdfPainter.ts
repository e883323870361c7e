import type { Picture } from './cardModel.js';
import { WEIGHTS, type Weight } from './page.js';
import type { PaintedText, Painter, PointPt } from './pagePaint.js';
import { cardFont } from './textFonts.js';

type Doc = PDFKit.PDFDocument;

const fontName = (weight: Weight): string => `card-${weight}`;

/** Makes the card's fonts known to a document. They are parsed already, which the library takes and its typings do not say. */
export function registerPdfFonts(doc: Doc): void {
  for (const weight of WEIGHTS) {
    const font: unknown = cardFont(weight);
    doc.registerFont(fontName(weight), font as PDFKit.Mixins.PDFFontSource);
  }
}

/** Paints on the last page of a document. */
export function pdfPainter(doc: Doc): Painter {
  const trace = (points: readonly PointPt[]): void => {
    for (const [i, [x, y]] of points.entries()) {
      if (i === 0) doc.moveTo(round(x), round(y));
      else doc.lineTo(round(x), round(y));
    }
  };
  const write = ({ text, x, baseline, sizePt, weight }: PaintedText, rim: boolean): void => {
    doc.font(fontName(weight), sizePt);
    doc.text(text, x, baseline, {
      lineBreak: false,
      baseline: 'alphabetic',
      stroke: rim,
      fill: !rim,
    });
  };
  return {
    text: (text) => {
      if (text.haloPt !== undefined) {
        doc
          .lineWidth(2 * text.haloPt)
          .lineJoin('round')
          .undash()
          .strokeColor('#ffffff');
        write(text, true);
      }
      doc.fillColor(text.color);
      write(text, false);
    },
    box: (x, y, width, height, color) => {
      doc.rect(round(x), round(y), round(width), round(height)).fill(color);
    },
    area: (rings, color) => {
      for (const ring of rings) {
        trace(ring);
        doc.closePath();
      }
      doc.fill(color, 'even-odd');
    },
    lines: (lines, { widthPt, color, dashPt }) => {
      doc.lineWidth(round(widthPt)).lineJoin('round').lineCap('butt');
      if (dashPt === undefined) doc.undash();
      else doc.dash(dashLengths(dashPt), {});
      for (const line of lines) trace(line);
      doc.stroke(color);
    },
    picture: (picture, x, y, width, height) => {
      doc.image(opened(doc, picture), x, y, { width, height });
    },
  };
}

/** A list of lengths, which the library takes and its typings do not say. */
function dashLengths(lengths: readonly number[]): number {
  const list: unknown = lengths;
  return list as number;
}

/** What the library has and its typings lack. */
type Opening = Doc & { openImage(bytes: Uint8Array): PDFKit.Mixins.ImageSrc };

/** Pictures a document holds already: the sign of a shop goes in once, however many cards show it. */
const held = new WeakMap<Doc, Map<Picture, PDFKit.Mixins.ImageSrc>>();

function opened(doc: Doc, picture: Picture): PDFKit.Mixins.ImageSrc {
  const pictures = held.get(doc) ?? new Map<Picture, PDFKit.Mixins.ImageSrc>();
  held.set(doc, pictures);
  const known = pictures.get(picture);
  if (known !== undefined) return known;
  const image = (doc as Opening).openImage(picture.png);
  pictures.set(picture, image);
  return image;
}

/** Thousandths of a point are finer than any printer. */
const round = (pt: number): number => Math.round(pt * 1000) / 1000;
