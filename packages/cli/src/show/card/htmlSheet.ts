import type { CardModel } from './cardModel.js';
import { pictureUrl } from './htmlPicture.js';
import { escaped } from './htmlText.js';
import { layoutCard } from './layout.js';
import { INKS, type Measure, type Op, PT_PER_MM } from './page.js';
import { drawingMarks, svgNumber, UNIT_MM } from './svg.js';
import { isPrintable } from './textFonts.js';

/**
 * A card as it lies on paper, as one SVG element of the size of the page: what the PDF shows, for a browser to print.
 *
 * A page of flowing text would break where the browser sees fit; here everything has its place, so that one page stays one page.
 * It says nothing that the page does not say, so it is hidden from those who have the page read out.
 *
 * @throws RoastError `out-of-range` when the texts are too long for the paper
 */
export function sheetSvg(card: CardModel, measure: Measure): string {
  const { widthPt, heightPt, blocks } = layoutCard(card, measure);
  const mm = (pt: number): string => `${svgNumber(pt / PT_PER_MM)}mm`;
  return [
    `<svg class="sheet" aria-hidden="true" width="${mm(widthPt)}" height="${mm(heightPt)}"` +
      ` viewBox="0 0 ${svgNumber(widthPt)} ${svgNumber(heightPt)}">`,
    ...blocks.map(
      ({ name, parts }) =>
        `<g data-block="${name}">${parts
          .flatMap(({ ops }) => ops)
          .map((op) => element(op, measure))
          .join('\n')}</g>`,
    ),
    '</svg>',
  ].join('\n');
}

function element(op: Op, measure: Measure): string {
  switch (op.kind) {
    case 'text': {
      const { text, x, baseline, sizePt, weight, ink } = op;
      return (
        `<text x="${svgNumber(x)}" y="${svgNumber(baseline)}" font-size="${svgNumber(sizePt)}"` +
        ` font-weight="${weight}" fill="${INKS[ink]}"${squeezed(op, measure)}>${escaped(text)}</text>`
      );
    }
    case 'box':
      return `<rect ${box(op)} fill="${INKS[op.ink]}"/>`;
    case 'picture':
      return `<image ${box(op)} href="${pictureUrl(op.picture)}"/>`;
    case 'drawing':
      return (
        `<g transform="translate(${svgNumber(op.x)} ${svgNumber(op.y)}) scale(${(op.scale * PT_PER_MM).toFixed(4)})"` +
        ` font-size="${UNIT_MM}">${drawingMarks(op.drawing, op.scale)}</g>`
      );
  }
}

const box = ({ x, y, width, height }: Exclude<Op, { kind: 'text' | 'drawing' }>): string =>
  `x="${svgNumber(x)}" y="${svgNumber(y)}" width="${svgNumber(width)}" height="${svgNumber(height)}"`;

/** A browser takes a letter that the card's fonts lack from another font, wide as it may be: it must keep to the room it was given. */
function squeezed({ text, weight, sizePt }: Op & { kind: 'text' }, measure: Measure): string {
  if ([...text].every((character) => isPrintable(character.codePointAt(0)!))) return '';
  const width = svgNumber(measure(text, weight) * sizePt);
  return ` textLength="${width}" lengthAdjust="spacingAndGlyphs"`;
}
