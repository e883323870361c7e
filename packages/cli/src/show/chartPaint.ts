import { paintMarks } from './chartMarks.js';
import type { ChartPanel, ChartStripe } from './chartModel.js';
import { rule, type Sheet, write } from './chartPen.js';
import { labelFont, type Stroke } from './chartStyle.js';
import { spread } from './spread.js';

/** Paper and the stripes of the bands: what lies under grid and lines. */
export function paintGround({ ctx, model, style, places }: Sheet): void {
  const { ink, width, height, edge } = style;
  ctx.fillStyle = ink.paper;
  ctx.fillRect(0, 0, width, height);
  for (const [i, { from, to, aimed }] of model.stripes.entries()) {
    if (i === 0 && !aimed) continue; // everything raw lies in here
    ctx.fillStyle = aimed ? ink.aimedStripe : ink.stripe[i % 2];
    const top = places.meatY(to);
    const { left, right } = places.plot;
    const end = style.lineNames || style.bandColumns > 0 ? width - edge : right; // they are the ground of names too
    ctx.fillRect(left, top, end - left, places.meatY(from) - top);
  }
}

/** Everything written but the numbers along the axes: head, stages, labels, marks and the notice. */
export function paintWords(sheet: Sheet): void {
  const { ctx, model, style, places } = sheet;
  const { plot, meatY, aroundY } = places;
  const { gap } = style;
  paintHead(sheet);
  ctx.textBaseline = 'alphabetic';
  write(sheet, model.unit, plot.left - gap, plot.top - style.stages.unitUp, {
    font: style.fonts.small,
    color: style.ink.faint,
    align: 'right',
  });
  paintStages(sheet);
  paintMinutesUnit(sheet);
  paintBandNames(sheet);
  const { meat, around } = model;
  if (style.lineNames) {
    const marksTop = plot.bottom - style.markUp - style.labelHeight;
    paintLineLabels(sheet, meat, meatY, meatY(meat.axis.to), marksTop);
    if (around !== undefined && aroundY !== undefined) {
      const { from, to } = around.axis;
      paintLineLabels(sheet, around, aroundY, aroundY(to) - gap, aroundY(from));
    }
  }
  paintMarks(sheet);
  paintNotice(sheet);
}

function paintHead(sheet: Sheet): void {
  const { ctx, model, style } = sheet;
  const { edge, head, ink } = style;
  if (model.head === undefined || head === undefined) return;
  const { title, subtitle } = model.head;
  ctx.textBaseline = 'alphabetic';
  write(sheet, title, edge, head.title, { font: head.titleFont });
  write(sheet, subtitle, edge, head.subtitle, { font: head.subtitleFont, color: ink.faint });
}

function paintStages(sheet: Sheet): void {
  const { style, places, margins } = sheet;
  const { plot, x } = places;
  const { gap, fonts, ink, stages } = style;
  const separator: Stroke = { color: ink.border, width: style.hairline, dash: [] };
  const raisedY = stages.top + stages.raisedDown;
  for (const { stage, name, raisedX } of margins.stages) {
    const from = x(stage.from);
    const to = x(stage.to);
    if (stage.from > 0) {
      rule(sheet, [from, plot.top - stages.room + gap / 2], [from, plot.bottom], separator);
    }
    if (name === undefined) continue;
    const middle = (from + to) / 2;
    if (raisedX === undefined) {
      write(sheet, name, middle, plot.top - stages.nameUp, { font: fonts.strong, align: 'center' });
      if (stage.length === undefined) continue;
      write(sheet, stage.length, middle, plot.top - stages.nameUp + style.line, {
        font: fonts.small,
        color: ink.faint,
        align: 'center',
      });
    } else {
      write(sheet, name, raisedX, raisedY, { font: fonts.text, align: 'center' });
      rule(sheet, [middle, raisedY + gap / 2], [middle, plot.top - gap / 2], separator);
    }
  }
}

/** The unit of the minutes, where no title stands below them. */
function paintMinutesUnit(sheet: Sheet): void {
  const { ctx, style, places } = sheet;
  const { minutesTitle, fonts, ink, tick, tickGap } = style;
  if (minutesTitle.at === 'below') return;
  const { right, bottom } = places.plot;
  ctx.textBaseline = 'middle';
  const middle = bottom + tick + tickGap + (LINE_HEIGHT * fonts.tickPx) / 2;
  write(sheet, minutesTitle.text, right + minutesTitle.gap, middle, {
    font: fonts.small,
    color: ink.faint,
  });
}

const LINE_HEIGHT = 1.2; // of the numbers along the axes: the chart library's own

function paintBandNames(sheet: Sheet): void {
  const { ctx, model, style, places, margins } = sheet;
  const { meatY } = places;
  const { gap, fonts, ink, bandColumns } = style;
  ctx.textBaseline = 'middle';
  const { stripes } = model;
  const bottom = Math.max(...stripes.map(({ from }) => meatY(from)));
  const top = Math.min(...stripes.map(({ to }) => meatY(to)));
  const edgeRoom = style.labelHeight / 2 + gap / 4;
  // the outermost bands are open: their names stand at the edge they have
  const wished = stripes.map(({ from, to }, i) => {
    const high = meatY(to);
    const low = meatY(from);
    if (stripes.length > 1 && i === 0) return high + edgeRoom;
    if (stripes.length > 1 && i === stripes.length - 1) return low - edgeRoom;
    return (high + low) / 2;
  });
  for (let column = 0; column < bandColumns; column++) {
    const named = stripes
      .map(({ name, aimed }, i) => ({ name, aimed, at: wished[i], length: style.bandHeight }))
      .filter((_, i) => i % bandColumns === column && visible(stripes[i]));
    const middles = spread(named, top, bottom);
    const right = style.width - style.edge - gap - column * (margins.bands + gap);
    for (const [i, { name, aimed }] of named.entries()) {
      write(sheet, name, right, middles[i], {
        font: aimed ? fonts.strong : fonts.text,
        color: aimed ? ink.text : ink.faint,
        align: 'right',
      });
    }
  }
  function visible({ name, from, to }: ChartStripe): boolean {
    return name !== '' && meatY(from) - meatY(to) >= style.bandHeight / 2;
  }
}

function paintLineLabels(
  sheet: Sheet,
  { lines }: ChartPanel,
  y: (temperature: number) => number,
  top: number,
  bottom: number,
): void {
  const { ctx, style, places } = sheet;
  const { gap, strokes, fonts } = style;
  const { right } = places.plot;
  ctx.textBaseline = 'middle';
  const ends = lines.map(({ points }) => y(points[points.length - 1].y));
  const middles = spread(
    ends.map((at) => ({ at, length: style.labelHeight })),
    top,
    bottom,
  );
  for (const [i, { label, kind }] of lines.entries()) {
    const { color } = strokes[kind];
    const leader: Stroke = { color, width: 0.8 * style.hairline, dash: [] };
    rule(sheet, [right + gap / 8, ends[i]], [right + 1.625 * gap, middles[i]], leader);
    write(sheet, label, right + 2 * gap, middles[i], { font: labelFont(kind, fonts), color });
  }
}

function paintNotice(sheet: Sheet): void {
  const { ctx, style, margins } = sheet;
  const { edge, height, fonts, ink, line: step } = style;
  ctx.textBaseline = 'alphabetic';
  margins.noticeLines.forEach((line, i) => {
    const up = margins.noticeLines.length - 1 - i;
    const baseline = height - edge / 2 - 4 - up * step;
    write(sheet, line, edge, baseline, { font: fonts.small, color: ink.faint });
  });
}
