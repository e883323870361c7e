import { SMALLEST_PT } from './cardModel.js';
import type { Drawing, Mark, PointMm } from './drawing.js';
import { escaped } from './htmlText.js';
import { PT_PER_MM } from './page.js';
import { drawnPt } from './pagePaint.js';

/** Texts on a drawing are sized in em of the smallest print [pt]; [mm] is what the element around them must set. */
const UNIT_PT = SMALLEST_PT;
export const UNIT_MM = (UNIT_PT / PT_PER_MM).toFixed(3);

/**
 * A drawing as an inline SVG element at its printed size: one unit is one millimetre.
 *
 * Its texts take the font of the page around it, and their size from its `font-size`, which a style sheet may set.
 *
 * @param id - a name unique in the page, for the references from the picture to its description
 */
export function drawingSvg(drawing: Drawing, id: string): string {
  const { widthMm, heightMm, alt } = drawing;
  const { title, rest } = splitAlt(alt);
  const description = rest === '' ? '' : `<desc id="${id}-desc">${escaped(rest)}</desc>`;
  const labels = rest === '' ? `${id}-title` : `${id}-title ${id}-desc`;
  return [
    `<svg role="img" aria-labelledby="${labels}" width="${svgNumber(widthMm)}mm" height="${svgNumber(heightMm)}mm"` +
      ` viewBox="0 0 ${svgNumber(widthMm)} ${svgNumber(heightMm)}" font-size="${UNIT_MM}">`,
    `<title id="${id}-title">${escaped(title)}</title>${description}`,
    drawingMarks(drawing),
    '</svg>',
  ].join('\n');
}

/** The first sentence names the picture, the others describe it. */
function splitAlt(alt: string): { readonly title: string; readonly rest: string } {
  const end = /[.:;]\s/.exec(alt);
  if (end === null) return { title: alt, rest: '' };
  return { title: alt.slice(0, end.index), rest: alt.slice(end.index + 1).trim() };
}

/**
 * What is on a drawing, in millimetres, as SVG elements.
 *
 * @param scale - what the caller will draw it at: texts are sized so that none goes below the smallest print
 */
export const drawingMarks = ({ marks }: Drawing, scale = 1): string =>
  joined(marks)
    .map((mark) => element(mark, scale))
    .join('\n');

type Line = Extract<Mark, { kind: 'line' }>;
type Lines = Omit<Line, 'points'> & { readonly paths: (readonly PointMm[])[] };

/**
 * Neighbouring lines of one look as one path: a hatch is hundreds of them. Painting them in one go is painting them in order,
 * since all are of one opaque tone.
 */
function joined(marks: readonly Mark[]): (Exclude<Mark, Line> | Lines)[] {
  const result: (Exclude<Mark, Line> | Lines)[] = [];
  for (const mark of marks) {
    const last = result.at(-1);
    if (mark.kind !== 'line') result.push(mark);
    else if (last?.kind === 'line' && lookOf(last) === lookOf(mark)) last.paths.push(mark.points);
    else {
      const { points, ...look } = mark;
      result.push({ ...look, paths: [points] });
    }
  }
  return result;
}

const lookOf = ({ widthMm, tone, dashMm }: Line | Lines): string =>
  [widthMm, tone, ...(dashMm ?? [])].join(' ');

function element(mark: Exclude<Mark, Line> | Lines, scale: number): string {
  switch (mark.kind) {
    case 'area': {
      const outlines = mark.rings.map((ring) => `${path(ring)}Z`).join('');
      return `<path fill="${grey(mark.tone)}" fill-rule="evenodd" d="${outlines}"/>`;
    }
    case 'line': {
      const dash =
        mark.dashMm === undefined
          ? ''
          : ` stroke-dasharray="${mark.dashMm.map(svgNumber).join(' ')}"`;
      return (
        `<path fill="none" stroke="${grey(mark.tone)}" stroke-width="${svgNumber(mark.widthMm)}"` +
        `${dash} d="${mark.paths.map(path).join('')}"/>`
      );
    }
    case 'text': {
      const [x, y] = mark.at;
      const em = drawnPt(mark.sizePt, scale) / scale / UNIT_PT;
      const halo =
        mark.haloMm === undefined
          ? ''
          : ` stroke="${grey(0)}" stroke-width="${svgNumber(2 * mark.haloMm)}"` +
            ' stroke-linejoin="round" paint-order="stroke"';
      return (
        `<text x="${svgNumber(x)}" y="${svgNumber(y)}" font-size="${em.toFixed(3)}em"` +
        ` font-weight="${mark.bold ? 700 : 400}" text-anchor="${mark.anchor}"` +
        ` fill="${grey(mark.tone)}"${halo}>${escaped(mark.text)}</text>`
      );
    }
  }
}

const path = (points: readonly PointMm[]): string =>
  points
    .map(([x, y], i) => `${i === 0 ? 'M' : i === 1 ? 'L' : ' '}${svgNumber(x)} ${svgNumber(y)}`)
    .join('');

/** A tone from 0, paper, to 1, black. */
function grey(tone: number): string {
  const level = Math.round(255 * (1 - Math.min(1, Math.max(0, tone))));
  return `#${level.toString(16).padStart(2, '0').repeat(3)}`;
}

/** A length to the hundredth, finer than any printer where units are millimetres or points. */
export const svgNumber = (value: number): string => String(Number(value.toFixed(2)));
