import { createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import { RoastError } from '@roastsim/core';
import type { Chart, ChartConfiguration, Plugin } from 'chart.js';
import { ChartJSNodeCanvas } from 'chartjs-node-canvas';
import { isPrintable } from './card/textFonts.js';
import { wrapped } from './chartLayout.js';
import { chartFont, FULL_STYLE, type Stroke } from './chartStyle.js';
import { type CompareChartModel, compareChartModel, type WayLine } from './compareChartModel.js';
import type { Comparison } from './comparison.js';
import { FONT_FAMILY, registerFonts } from './fonts.js';
import { spread } from './spread.js';

/** Strokes by the place of a way: told apart by dash, weight and darkness, so that no colour is needed. */
const STROKES: readonly Stroke[] = [
  { color: '#7a1f1c', width: 2.6, dash: [] },
  { color: '#1f4e79', width: 2.2, dash: [10, 5] },
  { color: '#c07a2c', width: 3, dash: [] },
  { color: '#2f5d3a', width: 2.4, dash: [2, 4] },
  { color: '#5d5550', width: 2, dash: [12, 4, 2, 4] },
  { color: '#2d2724', width: 1.2, dash: [] },
  { color: '#8a7fb0', width: 3, dash: [6, 3] },
  { color: '#9c938c', width: 4, dash: [] },
];

const { width: WIDTH, height: HEIGHT, ink, edge, gap, fonts, hairline, halo } = FULL_STYLE;
const PLOT_TOP = 120;
const MARK_ROW = 90; // middle of the row of marks above the plot
const MARK_RADIUS = 10;
const LEGEND_WIDTH = 244;
const LETTER_ROOM = 17;
const NAME_LINES = 2; // of a name, where there is room
const TIGHTEST = 0.85; // of the legend's lines, before names are cut to one line
const LEGEND_LINE = 14;
const LEGEND_GAP = 12;
const SAMPLE = 34; // length of a stroke's sample
const NOTICE_LINE = 14;
const MINUTES_ROOM = 44;
const NARROW = 0.6; // of the stroke, for a second piece

/**
 * Draws the centres of all ways over time.
 *
 * @returns a PNG picture, 1920 by 1200 pixels
 * @throws RoastError `unreadable` when the fonts are missing from the installation or have no letter for one in a way's name
 */
export async function compareChart(comparison: Comparison): Promise<Buffer> {
  for (const { way } of comparison.ways) requireDrawable(way.name);
  registerFonts();
  const canvas = new ChartJSNodeCanvas({ width: WIDTH, height: HEIGHT });
  return canvas.renderToBufferSync(configurationOf(compareChartModel(comparison)), 'image/png');
}

function configurationOf(model: CompareChartModel): ChartConfiguration<'line'> {
  const notice = noticeLines(model);
  const scale = {
    type: 'linear',
    grid: { color: ink.grid, tickColor: ink.border, lineWidth: hairline },
    border: { color: ink.border, width: hairline },
  } as const;
  const ticks = {
    color: ink.faint,
    includeBounds: false,
    font: { family: FONT_FAMILY, size: fonts.tickPx },
  };
  const { minutes, temperature } = model;
  return {
    type: 'line',
    data: {
      datasets: model.lines.map((line) => {
        const { color, width, dash } = strokeOf(line);
        return {
          data: [...line.points],
          parsing: false,
          xAxisID: 'minutes',
          yAxisID: 'temperature',
          borderColor: color,
          borderWidth: width,
          borderDash: dash.length > 0 ? [...dash] : [1, 0], // without any dash the library turns close points into stairs
          pointRadius: 0,
          order: line.way,
        };
      }),
    },
    options: {
      devicePixelRatio: FULL_STYLE.pixelRatio,
      events: [],
      layout: {
        autoPadding: false,
        padding: {
          left: edge,
          right: edge + LEGEND_WIDTH + 2 * gap,
          top: PLOT_TOP,
          bottom: edge / 2 + NOTICE_LINE * notice.length,
        },
      },
      plugins: { legend: { display: false }, tooltip: { enabled: false } },
      scales: {
        minutes: {
          ...scale,
          axis: 'x',
          min: 0,
          max: minutes.to,
          ticks: { ...ticks, stepSize: minutes.step, maxRotation: 0 },
          title: {
            display: true,
            text: FULL_STYLE.minutesTitle.text,
            color: ink.faint,
            font: ticks.font,
          },
          afterFit: (fitted) => {
            fitted.height = MINUTES_ROOM;
          },
        },
        temperature: {
          ...scale,
          axis: 'y',
          position: 'left',
          min: temperature.from,
          max: temperature.to,
          ticks: { ...ticks, stepSize: temperature.step, autoSkip: false },
          afterFit: (fitted) => {
            fitted.width = FULL_STYLE.tickRoom;
          },
        },
      },
    },
    plugins: [painter(model, notice)],
  };
}

/** The stroke of a line; a second piece's is narrower. */
function strokeOf({ way, mark }: WayLine): Stroke {
  const stroke = STROKES[way % STROKES.length];
  return mark.endsWith('2') ? { ...stroke, width: NARROW * stroke.width } : stroke;
}

function noticeLines({ notices }: CompareChartModel): string[] {
  const ctx = createCanvas(1, 1).getContext('2d');
  ctx.font = fonts.small;
  const width = (text: string): number => ctx.measureText(text).width;
  return notices.flatMap((notice) => wrapped(notice, WIDTH - 2 * edge, width));
}

/** Refuses a name that would come out as boxes. */
function requireDrawable(name: string): void {
  const character = [...name].find((each) => !isPrintable(each.codePointAt(0) ?? 0));
  if (character === undefined) return;
  const code = `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
  const accepted = 'Latin, Greek and Cyrillic letters, digits and punctuation';
  throw new RoastError(
    `--way: the chart cannot draw ${code} "${character}" in the name "${name}": its font has no such letter; accepted: ${accepted}`,
    { code: 'unreadable', path: ['--way'], found: character, accepted },
  );
}

type PaintedChart = Chart & { readonly ctx: SKRSContext2D };

function painter(model: CompareChartModel, notice: readonly string[]): Plugin<'line'> {
  return {
    id: 'ways',
    beforeDraw: (chart: PaintedChart) => paintGround(chart, model),
    afterDraw: (chart: PaintedChart) => {
      paintHead(chart, model, notice);
      paintMarks(chart, model);
      paintLegend(chart, model);
    },
  };
}

function paintGround({ ctx, chartArea, scales }: PaintedChart, { band }: CompareChartModel): void {
  ctx.fillStyle = ink.paper;
  ctx.fillRect(0, 0, WIDTH, HEIGHT);
  const top = scales.temperature.getPixelForValue(band.to);
  const bottom = scales.temperature.getPixelForValue(band.from);
  ctx.fillStyle = ink.aimedStripe;
  ctx.fillRect(chartArea.left, top, chartArea.right - chartArea.left, bottom - top);
  write(ctx, band.name, chartArea.left + gap, (top + bottom) / 2, fonts.strong, ink.text, 'middle');
}

function write(
  ctx: SKRSContext2D,
  text: string,
  x: number,
  y: number,
  font: string,
  color: string,
  baseline: 'alphabetic' | 'middle' = 'alphabetic',
): void {
  ctx.font = font;
  ctx.fillStyle = color;
  ctx.textBaseline = baseline;
  ctx.fillText(text, x, y);
}

function paintHead(
  { ctx, chartArea }: PaintedChart,
  { title, subtitle, unit }: CompareChartModel,
  notice: readonly string[],
): void {
  ctx.textAlign = 'left';
  write(ctx, title, edge, 34, chartFont(20, 700), ink.text);
  write(ctx, subtitle, edge, 54, chartFont(13.5), ink.faint);
  for (const [i, line] of notice.entries()) {
    const up = NOTICE_LINE * (notice.length - 1 - i);
    write(ctx, line, edge, HEIGHT - edge / 2 - 4 - up, fonts.small, ink.faint);
  }
  ctx.textAlign = 'right';
  write(
    ctx,
    unit,
    chartArea.left - gap,
    PLOT_TOP - FULL_STYLE.stages.unitUp + 2,
    fonts.small,
    ink.faint,
  );
  ctx.textAlign = 'left';
}

/** A disc with the way's letter above the plot, and a line down to where it is pulled. */
function paintMarks({ ctx, chartArea, scales }: PaintedChart, { lines }: CompareChartModel): void {
  if (lines.length === 0) return;
  ctx.textAlign = 'right';
  write(ctx, 'pull', chartArea.left - gap, MARK_ROW, fonts.small, ink.faint, 'middle');
  const x = ({ pull }: WayLine): number => scales.minutes.getPixelForValue(pull.x);
  const room = 2 * MARK_RADIUS + gap / 4;
  const middles = spread(
    lines.map((line) => ({ at: x(line), length: room })),
    chartArea.left,
    chartArea.right + gap,
  );
  for (const [i, line] of lines.entries()) {
    const { color } = STROKES[line.way % STROKES.length];
    const y = scales.temperature.getPixelForValue(line.pull.y);
    ctx.strokeStyle = color;
    ctx.lineWidth = hairline;
    ctx.setLineDash([2, 2]);
    ctx.beginPath();
    ctx.moveTo(middles[i], MARK_ROW + MARK_RADIUS);
    ctx.lineTo(x(line), PLOT_TOP);
    ctx.lineTo(x(line), y);
    ctx.stroke();
    ctx.setLineDash([]);
    disc(ctx, x(line), y, 4.5, color, ink.paper);
    disc(ctx, middles[i], MARK_ROW, MARK_RADIUS, ink.paper, color);
    ctx.textAlign = 'center';
    write(ctx, line.mark, middles[i], MARK_ROW, fonts.strong, ink.text, 'middle');
  }
  ctx.textAlign = 'left';
}

function disc(
  ctx: SKRSContext2D,
  x: number,
  y: number,
  radius: number,
  fill: string,
  rim: string,
): void {
  ctx.beginPath();
  ctx.arc(x, y, radius, 0, 2 * Math.PI);
  ctx.fillStyle = fill;
  ctx.fill();
  ctx.strokeStyle = rim;
  ctx.lineWidth = 0.375 * halo;
  ctx.stroke();
}

function paintLegend({ ctx, chartArea }: PaintedChart, { legend }: CompareChartModel): void {
  const left = chartArea.right + 3 * gap;
  const words = left + SAMPLE + gap;
  const room = chartArea.bottom + MINUTES_ROOM - PLOT_TOP;
  const tightnessOf = (names: readonly (readonly string[])[]): number =>
    room /
    legend.reduce(
      (sum, { lines }, i) => sum + (names[i].length + lines.length) * LEGEND_LINE + LEGEND_GAP,
      0,
    );
  const namesFrom = words + LETTER_ROOM;
  const namesIn = (most: number): string[][] =>
    legend.map(({ name, named }) => {
      ctx.font = nameFont(named);
      const width = (text: string): number => ctx.measureText(text).width;
      return firstLines(name, most, WIDTH - edge - namesFrom, width);
    });
  const wished = namesIn(NAME_LINES);
  const names = tightnessOf(wished) < TIGHTEST ? namesIn(1) : wished;
  const tightness = Math.min(1, tightnessOf(names));
  let y = PLOT_TOP + LEGEND_LINE / 2;
  const word = (text: string, font: string, color: string, x = words): void => {
    ctx.font = font;
    ctx.fillStyle = color;
    ctx.textBaseline = 'middle';
    ctx.fillText(text, x, y, WIDTH - edge - x); // a long word is set narrower
  };
  for (const [i, { way, letter, named, lines }] of legend.entries()) {
    const { color, width, dash } = STROKES[way % STROKES.length];
    ctx.strokeStyle = color;
    ctx.lineWidth = width;
    ctx.setLineDash([...dash]);
    ctx.beginPath();
    ctx.moveTo(left, y);
    ctx.lineTo(left + SAMPLE, y);
    ctx.stroke();
    ctx.setLineDash([]);
    word(letter, fonts.strong, ink.text);
    for (const [line, text] of names[i].entries()) {
      if (line > 0) y += tightness * LEGEND_LINE;
      word(text, nameFont(named), ink.text, namesFrom);
    }
    for (const line of lines) {
      y += tightness * LEGEND_LINE;
      word(line, fonts.small, ink.faint, namesFrom);
    }
    y += tightness * (LEGEND_LINE + LEGEND_GAP);
  }
}

/** A stage line that stands for a name is long, and set smaller. */
const nameFont = (named: boolean): string => (named ? fonts.strong : fonts.small);

/** The first lines of a text, with an ellipsis where it is cut. */
function firstLines(
  text: string,
  most: number,
  width: number,
  measure: (text: string) => number,
): string[] {
  const lines = wrapped(text, width, measure);
  if (lines.length <= most) return lines;
  let last = lines.slice(most - 1).join(' ');
  while (last !== '' && measure(`${last}…`) > width)
    last = last.slice(0, -1).replace(/[\s,]+$/, '');
  return [...lines.slice(0, most - 1), `${last}…`];
}
