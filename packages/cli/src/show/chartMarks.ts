import type { ChartMark } from './chartModel.js';
import { type Area, rule, type Sheet, write } from './chartPen.js';
import type { Stroke } from './chartStyle.js';

/** Dots on the aimed-at line with a line down to the minutes, and their words where nothing else is. */
export function paintMarks(sheet: Sheet): void {
  const { ctx, model, style, places } = sheet;
  const { plot, x, meatY } = places;
  const { ink, hairline, halo } = style;
  const dropLine: Stroke = { color: ink.text, width: hairline, dash: [2 * hairline, 2 * hairline] };
  for (const { x: minutes, y } of model.marks) {
    rule(sheet, [x(minutes), meatY(y)], [x(minutes), plot.bottom], dropLine);
    ctx.beginPath();
    ctx.arc(x(minutes), meatY(y), style.dotRadius, 0, 2 * Math.PI);
    ctx.fillStyle = style.strokes.aimed.color;
    ctx.fill();
    ctx.strokeStyle = ink.paper;
    ctx.lineWidth = 0.375 * halo;
    ctx.stroke();
  }
  ctx.textBaseline = 'alphabetic';
  if (style.marksAt === 'foot') writeAtFoot(sheet);
  else writeAtDots(sheet);
}

function widthOf({ ctx, style: { fonts } }: Sheet, { text, more = '' }: ChartMark): number {
  ctx.font = fonts.strong;
  const strong = ctx.measureText(text).width;
  ctx.font = fonts.small;
  return Math.max(strong, ctx.measureText(more).width);
}

/** Low, where the plot is empty: right of the line, left of it, or raised. */
function writeAtFoot(sheet: Sheet): void {
  const { model, style, places } = sheet;
  const { plot, x } = places;
  const { gap, fonts, ink } = style;
  const { marks } = model;
  const low = plot.bottom - style.markUp;
  for (const [i, mark] of marks.entries()) {
    const width = widthOf(sheet, mark) + gap;
    const at = x(mark.x);
    const next = marks.at(i + 1);
    const freeRight = next === undefined || at + width + gap < x(next.x);
    const besideLeft = { left: at - width, right: at, top: low - style.markHeight };
    const freeLeft = isEmpty(sheet, { ...besideLeft, bottom: plot.bottom });
    const baseline = freeRight || freeLeft ? low : low - style.markHeight;
    const align = freeRight || !freeLeft ? 'left' : 'right';
    const from = align === 'left' ? at + gap : at - gap;
    write(sheet, mark.text, from, baseline, { font: fonts.strong, align, halo: true });
    if (mark.more === undefined) continue;
    write(sheet, mark.more, from, baseline + style.line, {
      font: fonts.small,
      color: ink.faint,
      align,
      halo: true,
    });
  }
}

/** How far a mark's letters reach above and below their line, in share of their size: Source Sans 3. */
const RISE = 0.74;
const DROP = 0.22;

const STEP = 1.5; // between places that are tried [CSS pixels]
const BELOW_COSTS = 4; // as much as standing so much farther from the dot [CSS pixels]: above a line that climbs is more room

/** Where there is no room at the foot: as near to the dot as neither a line, nor a dot, nor other words are. */
function writeAtDots(sheet: Sheet): void {
  const { model, style, places } = sheet;
  const { plot, x, meatY } = places;
  const { fonts, dotRadius, edge, gap, markHeight } = style;
  const [rise, drop] = [RISE * markHeight, DROP * markHeight];
  const clear = gap / 3;
  const taken = model.marks.map((mark) => around(x(mark.x), meatY(mark.y), dotRadius + clear));
  for (const mark of model.marks) {
    const width = widthOf(sheet, mark);
    const [at, y] = [x(mark.x), meatY(mark.y)];
    let best: Area | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (let bottom = plot.bottom - clear; bottom - rise - drop > plot.top; bottom -= STEP) {
      for (let right = style.width - edge; right - width > plot.left + clear; right -= STEP) {
        const area: Area = { left: right - width, right, top: bottom - rise - drop, bottom };
        const cost = distance(area, at, y) + (area.top > y ? BELOW_COSTS : 0);
        if (cost >= least || taken.some((other) => meet(area, other))) continue;
        if (!isEmpty(sheet, grown(area, clear))) continue;
        [best, least] = [area, cost];
      }
    }
    // where all is taken, it is better said over something than not at all
    const area = best ?? { left: at - width, right: at, top: y - rise - drop, bottom: y };
    taken.push(area);
    write(sheet, mark.text, area.left, area.bottom - drop, { font: fonts.strong, halo: true });
  }
}

const around = (x: number, y: number, radius: number): Area => ({
  left: x - radius,
  right: x + radius,
  top: y - radius,
  bottom: y + radius,
});

const grown = ({ left, right, top, bottom }: Area, by: number): Area => ({
  left: left - by,
  right: right + by,
  top: top - by,
  bottom: bottom + by,
});

/** From a point to the nearest of an area. */
function distance({ left, right, top, bottom }: Area, x: number, y: number): number {
  const across = Math.max(left - x, 0, x - right);
  const along = Math.max(top - y, 0, y - bottom);
  return Math.hypot(across, along);
}

const meet = (a: Area, b: Area): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Whether no line of the meat's panel passes. */
const isEmpty = (
  { model, places: { plot, x, meatY } }: Sheet,
  { left, right, top, bottom }: Area,
): boolean =>
  left >= plot.left &&
  model.meat.lines.every(({ points }) =>
    points.every(
      (point) =>
        x(point.x) < left || x(point.x) > right || meatY(point.y) < top || meatY(point.y) > bottom,
    ),
  );
