import { type Picture, SMALLEST_PT } from './cardModel.js';
import type { Drawing, Mark } from './drawing.js';
import { INKS, type Measure, type Op, PT_PER_MM, type Weight } from './page.js';

/** A point of a page [pt]. */
export type PointPt = readonly [x: number, y: number];

/** A text in one line. */
export interface PaintedText {
  readonly text: string;
  readonly x: number;
  readonly baseline: number;
  readonly sizePt: number;
  readonly weight: Weight;
  readonly color: string;
  /** Width of a rim in the colour of the paper, drawn first [pt]. */
  readonly haloPt?: number;
}

/** How lines are drawn. */
export interface Stroke {
  readonly widthPt: number;
  readonly color: string;
  readonly dashPt?: readonly number[];
}

/** What a printer of pages must be able to do. Points from the top left corner, colours as `#rrggbb`. */
export interface Painter {
  text(text: PaintedText): void;
  box(x: number, y: number, width: number, height: number, color: string): void;
  /** Closed outlines, filled by the even-odd rule. */
  area(rings: readonly (readonly PointPt[])[], color: string): void;
  /** Open lines of one look. */
  lines(lines: readonly (readonly PointPt[])[], stroke: Stroke): void;
  picture(picture: Picture, x: number, y: number, width: number, height: number): void;
}

/** Puts things on paper, in order. */
export function paint(ops: readonly Op[], painter: Painter, measure: Measure): void {
  for (const op of ops) {
    switch (op.kind) {
      case 'text':
        painter.text({ ...op, color: INKS[op.ink] });
        break;
      case 'box':
        painter.box(op.x, op.y, op.width, op.height, INKS[op.ink]);
        break;
      case 'picture':
        painter.picture(op.picture, op.x, op.y, op.width, op.height);
        break;
      case 'drawing':
        paintDrawing(op.drawing, op.x, op.y, op.scale, painter, measure);
        break;
    }
  }
}

type Line = Extract<Mark, { kind: 'line' }>;

function paintDrawing(
  { marks }: Drawing,
  x: number,
  y: number,
  scale: number,
  painter: Painter,
  measure: Measure,
): void {
  const ptPerMm = scale * PT_PER_MM;
  const point = ([mmX, mmY]: PointPt): PointPt => [x + mmX * ptPerMm, y + mmY * ptPerMm];
  for (let i = 0; i < marks.length; i++) {
    const mark = marks[i];
    switch (mark.kind) {
      case 'area':
        painter.area(
          mark.rings.map((ring) => ring.map(point)),
          grey(mark.tone),
        );
        break;
      case 'line': {
        // a hatch is hundreds of lines of one look: one stroke
        const lines = [mark];
        for (
          let next = marks[i + 1];
          next?.kind === 'line' && alike(next, mark);
          next = marks[i + 1]
        ) {
          lines.push(next);
          i++;
        }
        painter.lines(
          lines.map(({ points }) => points.map(point)),
          {
            widthPt: mark.widthMm * ptPerMm,
            color: grey(mark.tone),
            ...(mark.dashMm === undefined
              ? {}
              : { dashPt: mark.dashMm.map((length) => length * ptPerMm) }),
          },
        );
        break;
      }
      case 'text': {
        const weight = mark.bold ? 700 : 400;
        const sizePt = drawnPt(mark.sizePt, scale);
        const [at, baseline] = point(mark.at);
        const width = measure(mark.text, weight) * sizePt;
        painter.text({
          text: mark.text,
          x: at - ANCHORED[mark.anchor] * width,
          baseline,
          sizePt,
          weight,
          color: grey(mark.tone),
          ...(mark.haloMm === undefined ? {} : { haloPt: mark.haloMm * ptPerMm }),
        });
        break;
      }
    }
  }
}

/** Size of a text on a drawing placed at a scale: it shrinks with the drawing, but not below the smallest print [pt]. */
export const drawnPt = (sizePt: number, scale: number): number =>
  Math.max(SMALLEST_PT, sizePt * scale);

const ANCHORED = { start: 0, middle: 0.5, end: 1 } as const;

const alike = (a: Line, b: Line): boolean =>
  a.tone === b.tone &&
  a.widthMm === b.widthMm &&
  (a.dashMm === b.dashMm || a.dashMm?.join() === b.dashMm?.join());

/** A tone from 0, paper, to 1, black. */
function grey(tone: number): string {
  const level = Math.round(255 * (1 - Math.min(1, Math.max(0, tone))));
  return `#${level.toString(16).padStart(2, '0').repeat(3)}`;
}
