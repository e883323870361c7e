import type { SKRSContext2D } from '@napi-rs/canvas';
import { HEAD, type Margins } from './chartLayout.js';
import type { ChartLine, ChartMark, ChartModel } from './chartModel.js';
import {
  CHART_SIZE,
  EDGE,
  FONTS,
  GAP,
  INK,
  labelFont,
  NOTICE_LINE,
  STROKES,
  type Stroke,
} from './chartStyle.js';
import { spread } from './spread.js';

/** A rectangle of the chart [CSS pixels]. */
export interface Area {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Where values lie [CSS pixels]. */
export interface Places {
  /** Both panels. */
  readonly plot: Area;
  readonly x: (minutes: number) => number;
  readonly meatY: (temperature: number) => number;
  readonly aroundY?: (temperature: number) => number;
}

/** Paper and the stripes of the bands: what lies under grid and lines. */
export function paintGround(ctx: SKRSContext2D, model: ChartModel, places: Places): void {
  ctx.fillStyle = INK.paper;
  ctx.fillRect(0, 0, CHART_SIZE.width, CHART_SIZE.height);
  for (const [i, { from, to, aimed }] of model.stripes.entries()) {
    if (i === 0 && !aimed) continue; // everything raw lies in here
    ctx.fillStyle = aimed ? INK.aimedStripe : INK.stripe[i % 2];
    const top = places.meatY(to);
    const { left } = places.plot;
    ctx.fillRect(left, top, CHART_SIZE.width - EDGE - left, places.meatY(from) - top);
  }
}

/** Everything written: head, stages, labels, marks and the notice. */
export function paintWords(
  ctx: SKRSContext2D,
  model: ChartModel,
  places: Places,
  margins: Margins,
): void {
  paintHead(ctx, model);
  write(ctx, model.unit, places.plot.left - GAP, places.plot.top - 14, {
    font: FONTS.small,
    color: INK.faint,
    align: 'right',
  });
  paintStages(ctx, places, margins);
  paintBandNames(ctx, model, places);
  const { plot, meatY, aroundY } = places;
  const { axis } = model.meat;
  paintLineLabels(ctx, model.meat.lines, meatY, plot.right, meatY(axis.to), meatY(axis.from));
  if (model.around !== undefined && aroundY !== undefined) {
    const { lines, axis: range } = model.around;
    paintLineLabels(ctx, lines, aroundY, plot.right, aroundY(range.to) - GAP, aroundY(range.from));
  }
  paintMarks(ctx, model.marks, places);
  ctx.textBaseline = 'alphabetic';
  margins.noticeLines.forEach((line, i) => {
    const up = margins.noticeLines.length - 1 - i;
    write(ctx, line, EDGE, CHART_SIZE.height - EDGE / 2 - 4 - up * NOTICE_LINE, {
      font: FONTS.small,
      color: INK.faint,
    });
  });
}

const LABEL_HEIGHT = 15;
const HALO = 4;

interface Lettering {
  readonly font: string;
  readonly color?: string;
  readonly align?: 'left' | 'center' | 'right';
  /** Paper round the letters, to be read over lines. */
  readonly halo?: boolean;
}

function write(ctx: SKRSContext2D, text: string, x: number, y: number, how: Lettering): void {
  ctx.font = how.font;
  ctx.textAlign = how.align ?? 'left';
  if (how.halo === true) {
    ctx.strokeStyle = INK.paper;
    ctx.lineWidth = HALO;
    ctx.lineJoin = 'round';
    ctx.strokeText(text, x, y);
  }
  ctx.fillStyle = how.color ?? INK.text;
  ctx.fillText(text, x, y);
}

function rule(
  ctx: SKRSContext2D,
  from: readonly [x: number, y: number],
  to: readonly [x: number, y: number],
  { color, width, dash }: Stroke,
): void {
  ctx.save();
  ctx.strokeStyle = color;
  ctx.lineWidth = width;
  ctx.setLineDash([...dash]);
  ctx.beginPath();
  ctx.moveTo(...from);
  ctx.lineTo(...to);
  ctx.stroke();
  ctx.restore();
}

function paintHead(ctx: SKRSContext2D, { title, subtitle }: ChartModel): void {
  ctx.textBaseline = 'alphabetic';
  write(ctx, title, EDGE, HEAD.title, { font: FONTS.title });
  write(ctx, subtitle, EDGE, HEAD.subtitle, { font: FONTS.subtitle, color: INK.faint });
}

const SEPARATOR: Stroke = { color: INK.border, width: 1, dash: [] };

function paintStages(ctx: SKRSContext2D, { plot, x }: Places, { stages }: Margins): void {
  const raisedY = HEAD.stages + 8;
  for (const { stage, name, raisedX } of stages) {
    const from = x(stage.from);
    const to = x(stage.to);
    if (stage.from > 0) {
      rule(ctx, [from, plot.top - HEAD.twoLines + 4], [from, plot.bottom], SEPARATOR);
    }
    const middle = (from + to) / 2;
    if (raisedX === undefined) {
      write(ctx, name, middle, plot.top - 20, { font: FONTS.strong, align: 'center' });
      write(ctx, stage.length, middle, plot.top - 6, {
        font: FONTS.small,
        color: INK.faint,
        align: 'center',
      });
    } else {
      write(ctx, name, raisedX, raisedY, { font: FONTS.text, align: 'center' });
      rule(ctx, [middle, raisedY + 5], [middle, plot.top - 4], SEPARATOR);
    }
  }
}

function paintBandNames(ctx: SKRSContext2D, { stripes }: ChartModel, { meatY }: Places): void {
  ctx.textBaseline = 'middle';
  const bottom = Math.max(...stripes.map(({ from }) => meatY(from)));
  const top = Math.min(...stripes.map(({ to }) => meatY(to)));
  // the outermost bands are open: their names stand at the edge they have
  const wished = stripes.map(({ from, to }, i) => {
    const high = meatY(to);
    const low = meatY(from);
    if (stripes.length > 1 && i === 0) return high + LABEL_HEIGHT / 2 + 2;
    if (stripes.length > 1 && i === stripes.length - 1) return low - LABEL_HEIGHT / 2 - 2;
    return (high + low) / 2;
  });
  const middles = spread(
    wished.map((at) => ({ at, length: 13 })),
    top,
    bottom,
  );
  for (const [i, { name, aimed }] of stripes.entries()) {
    write(ctx, name, CHART_SIZE.width - EDGE - GAP, middles[i], {
      font: aimed ? FONTS.strong : FONTS.text,
      color: aimed ? INK.text : INK.faint,
      align: 'right',
    });
  }
}

function paintLineLabels(
  ctx: SKRSContext2D,
  lines: readonly ChartLine[],
  y: (temperature: number) => number,
  right: number,
  top: number,
  bottom: number,
): void {
  ctx.textBaseline = 'middle';
  const ends = lines.map(({ points }) => y(points[points.length - 1].y));
  const middles = spread(
    ends.map((at) => ({ at, length: LABEL_HEIGHT })),
    top,
    bottom,
  );
  for (const [i, { label, kind }] of lines.entries()) {
    const leader: Stroke = { color: STROKES[kind].color, width: 0.8, dash: [] };
    rule(ctx, [right + 1, ends[i]], [right + 2 * GAP - 3, middles[i]], leader);
    write(ctx, label, right + 2 * GAP, middles[i], {
      font: labelFont(kind),
      color: STROKES[kind].color,
    });
  }
}

const MARK_LINE: Stroke = { color: INK.text, width: 1, dash: [2, 2] };
const MARK_HEIGHT = 36;

/** Dots on the aimed-at line, and a line down to the words, which stand low, where the plot is empty. */
function paintMarks(
  ctx: SKRSContext2D,
  marks: readonly ChartMark[],
  { plot, x, meatY }: Places,
): void {
  ctx.textBaseline = 'alphabetic';
  const low = plot.bottom - 24;
  const widthOf = ({ text, more }: ChartMark): number => {
    ctx.font = FONTS.strong;
    const strong = ctx.measureText(text).width;
    ctx.font = FONTS.small;
    return Math.max(strong, ctx.measureText(more).width);
  };
  for (const { x: minutes, y } of marks) {
    rule(ctx, [x(minutes), meatY(y)], [x(minutes), plot.bottom], MARK_LINE);
    ctx.beginPath();
    ctx.arc(x(minutes), meatY(y), 4.5, 0, 2 * Math.PI);
    ctx.fillStyle = STROKES.aimed.color;
    ctx.fill();
    ctx.strokeStyle = INK.paper;
    ctx.lineWidth = 1.5;
    ctx.stroke();
  }
  for (const [i, mark] of marks.entries()) {
    const at = x(mark.x) + GAP;
    const next = marks.at(i + 1);
    const free = next === undefined || at + widthOf(mark) + GAP < x(next.x);
    const baseline = free ? low : low - MARK_HEIGHT;
    write(ctx, mark.text, at, baseline, { font: FONTS.strong, halo: true });
    write(ctx, mark.more, at, baseline + 14, { font: FONTS.small, color: INK.faint, halo: true });
  }
}
