import { CUTS, diameterAt, type UnitSystem } from '@roastsim/core';
import type { Drawing, Mark, PointMm } from './card/drawing.js';
import { bandArea } from './card/hatch.js';
import { PT_PER_MM } from './card/page.js';
import { cardMeasure } from './card/textFonts.js';
import { placeText, type SheetBlock } from './cuttingSheet.js';

const TEXT_PT = 8;
const LETTER_PT = 10;
const STEP_MM = 1; // between points of the outline
const TICK_MM = 1.6; // a cut line goes on below the outline
const ROW_MM = 3.4; // between the rows of figures
const FIGURE_ROWS = 3;
const FIGURE_GAP_MM = 0.9; // between figures side by side
const EDGE_MM = 0.5; // half the outline, above and below

/** Prints of the uses: ordered is paper white, to sell is tinted, ends are hatched. */
const PRINT = { order: 0, sell: 3, ends: 4 } as const;

/**
 * A tenderloin from above, butt end left, to scale along its length and across: its outline, the pieces with their letters, the
 * cuts with their distances from the butt end.
 *
 * @param scale - millimetres on paper for one of meat
 */
export function cuttingDrawing(block: SheetBlock, units: UnitSystem, scale: number): Drawing {
  const { use, pieces } = block;
  const { lengthMm, thickestMm } = use;
  const tallMm = thickestMm * scale;
  const axisY = EDGE_MM + tallMm / 2;
  const half = (mm: number): number =>
    (tallMm / 2) * diameterAt(CUTS.whole.profile, Math.min(1, Math.max(0, mm / lengthMm)));
  const x = (mm: number): number => mm * scale;
  const outline = (fromMm: number, toMm: number): PointMm[] => {
    const steps = Math.max(2, Math.ceil(((toMm - fromMm) * scale) / STEP_MM));
    const along = Array.from(
      { length: steps + 1 },
      (_, i) => fromMm + (i / steps) * (toMm - fromMm),
    );
    return [
      ...along.map((at): PointMm => [x(at), axisY - half(at)]),
      ...along.toReversed().map((at): PointMm => [x(at), axisY + half(at)]),
    ];
  };
  const marks: Mark[] = pieces.flatMap(({ use: kind, fromMm, toMm }) =>
    bandArea([outline(fromMm, toMm)], PRINT[kind]),
  );
  const whole = outline(0, lengthMm);
  marks.push({ kind: 'line', points: [...whole, whole[0]], widthMm: 0.5, tone: 1 });
  const ends = new Set(pieces.map(({ toMm }) => toMm));
  const cuts = pieces.flatMap(({ cutsMm }) => cutsMm);
  const bottomY = axisY + tallMm / 2;
  for (const at of cuts) {
    const between = ends.has(at);
    marks.push({
      kind: 'line',
      points: [
        [x(at), axisY - half(at)],
        [x(at), between ? bottomY + TICK_MM : axisY + half(at)],
      ],
      widthMm: between ? 0.45 : 0.25,
      tone: 1,
      ...(between ? {} : { dashMm: [1.1, 0.8] }),
    });
  }
  for (const { letter, use: kind, fromMm, toMm } of pieces) {
    if (kind === 'ends') continue;
    marks.push({
      kind: 'text',
      at: [(x(fromMm) + x(toMm)) / 2, axisY + 1.3],
      text: letter,
      sizePt: LETTER_PT,
      anchor: 'middle',
      bold: true,
      tone: 1,
      haloMm: 0.9,
    });
  }
  // the cuts between groups first: a figure that finds no room stands in the list all the same
  const figures = [...cuts.filter((at) => ends.has(at)), ...cuts.filter((at) => !ends.has(at))];
  const below = distances(figures, ends, units, x, bottomY + TICK_MM);
  return {
    widthMm: lengthMm * scale,
    heightMm: bottomY + TICK_MM + below.rows * ROW_MM + 0.6,
    marks: [...marks, ...below.marks],
    alt: altText(block),
  };
}

/** Distances from the butt end under the cuts, in as many rows as they need up to {@link FIGURE_ROWS}. */
function distances(
  cutsMm: readonly number[],
  ends: ReadonlySet<number>,
  units: UnitSystem,
  x: (mm: number) => number,
  topY: number,
): { marks: Mark[]; rows: number } {
  const rows: { from: number; to: number }[][] = Array.from({ length: FIGURE_ROWS }, () => []);
  const marks = cutsMm.flatMap((at): Mark[] => {
    const text = placeText(at, units);
    const bold = ends.has(at);
    const width = (TEXT_PT / PT_PER_MM) * cardMeasure(text, bold ? 700 : 400) + FIGURE_GAP_MM;
    const from = x(at) - width / 2;
    const to = x(at) + width / 2;
    const row = rows.findIndex((taken) =>
      taken.every((other) => to <= other.from || from >= other.to),
    );
    if (row < 0) return [];
    rows[row].push({ from, to });
    return [
      {
        kind: 'text',
        at: [x(at), topY + (row + 0.85) * ROW_MM],
        text,
        sizePt: TEXT_PT,
        anchor: 'middle',
        bold,
        tone: 1,
      },
    ];
  });
  return { marks, rows: rows.filter((taken) => taken.length > 0).length };
}

const altText = ({ heading, pieces }: SheetBlock): string =>
  `${heading}: ${pieces.map(({ letter, where, what }) => `${letter} ${where}, ${what}`).join('; ')}.`;
