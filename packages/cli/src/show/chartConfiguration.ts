import { createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import type { Chart, ChartConfiguration, ChartDataset, Plugin } from 'chart.js';
import { type Margins, marginsOf } from './chartLayout.js';
import type { ChartAxis, ChartLine, ChartModel, ChartPanel } from './chartModel.js';
import { paintGround, paintWords } from './chartPaint.js';
import type { Places, Sheet } from './chartPen.js';
import type { ChartStyle } from './chartStyle.js';
import { FONT_FAMILY } from './fonts.js';

const PANEL_SHARE = { meat: 5, gap: 0.25, around: 1.25 } as const;

/** What the chart library is told to draw a model in a style; the fonts must be registered. */
export function chartConfiguration(
  model: ChartModel,
  style: ChartStyle,
): ChartConfiguration<'line'> {
  const margins = marginsOf(createCanvas(1, 1).getContext('2d'), model, style);
  const { meat, around } = model;
  const { right, top, bottom } = margins;
  return {
    type: 'line',
    data: {
      datasets: [
        ...(around?.lines ?? []).map((line) => datasetOf(line, 'around', style)),
        ...meat.lines.map((line) => datasetOf(line, 'meat', style)),
      ],
    },
    options: {
      devicePixelRatio: style.pixelRatio,
      events: [],
      font: { family: FONT_FAMILY, size: style.fonts.tickPx },
      layout: { autoPadding: false, padding: { left: style.edge, right, top, bottom } },
      plugins: { legend: { display: false }, tooltip: { enabled: false } },
      scales: {
        minutes: minutesScale(model, style),
        meat: temperatureScale(meat, PANEL_SHARE.meat, style),
        ...(around === undefined
          ? {}
          : {
              gap: { ...temperatureScale(around, PANEL_SHARE.gap, style), ...EMPTY },
              around: temperatureScale(around, PANEL_SHARE.around, style),
            }),
      },
    },
    plugins: [painter(model, style, margins)],
  };
}

/** Without any dash the chart library takes a short cut that turns close points into stairs. */
const UNBROKEN = [1, 0];

function datasetOf(
  { kind, points }: ChartLine,
  yAxisID: string,
  { strokes }: ChartStyle,
): ChartDataset<'line'> {
  const { color, width, dash } = strokes[kind];
  return {
    data: [...points],
    parsing: false,
    xAxisID: 'minutes',
    yAxisID,
    borderColor: color,
    borderWidth: width,
    borderDash: dash.length > 0 ? [...dash] : UNBROKEN,
    pointRadius: 0,
    order: kind === 'aimed' ? 0 : 1,
  };
}

function painter(model: ChartModel, style: ChartStyle, margins: Margins): Plugin<'line'> {
  const placesOf = ({ scales, chartArea }: Chart): Places => {
    const { minutes, meat, around } = scales;
    return {
      plot: chartArea,
      x: (value) => minutes.getPixelForValue(value),
      meatY: (value) => meat.getPixelForValue(value),
      ...(around === undefined ? {} : { aroundY: (value) => around.getPixelForValue(value) }),
    };
  };
  const sheetOf = (chart: Chart & { readonly ctx: SKRSContext2D }): Sheet => ({
    ctx: chart.ctx,
    model,
    style,
    margins,
    places: placesOf(chart),
  });
  return {
    id: 'words',
    beforeDraw: (chart) => paintGround(sheetOf(chart)),
    afterDraw: (chart) => paintWords(sheetOf(chart)),
  };
}

type LinearScale = NonNullable<
  NonNullable<ChartConfiguration<'line'>['options']>['scales']
>[string];

/** An axis that only keeps two panels apart. */
const EMPTY = {
  ticks: { display: false },
  grid: { display: false },
  border: { display: false },
} as const;

/** Whole steps: the chart library, told the step, stretches it where an axis ends a little beyond a whole number of them. */
function ticksOf({ from, to, step }: ChartAxis): { readonly value: number }[] {
  const first = Math.ceil(from / step);
  const count = Math.max(0, Math.floor(to / step) - first + 1);
  return Array.from({ length: count }, (_, i) => ({ value: (first + i) * step }));
}

/** What both kinds of axis have in common. */
function lookOf({ ink, fonts, tick, tickGap, hairline }: ChartStyle) {
  return {
    ticks: {
      color: ink.faint,
      font: { family: FONT_FAMILY, size: fonts.tickPx },
      padding: tickGap,
    },
    grid: { color: ink.grid, tickColor: ink.border, tickLength: tick, lineWidth: hairline },
    border: { color: ink.border, width: hairline },
  } as const;
}

function minutesScale({ minutes }: ChartModel, style: ChartStyle): LinearScale {
  const look = lookOf(style);
  const { text, at } = style.minutesTitle;
  return {
    ...look,
    type: 'linear',
    min: minutes.from,
    max: minutes.to,
    title: { display: at === 'below', text, color: style.ink.faint, font: look.ticks.font },
    ticks: { ...look.ticks, maxRotation: 0 },
    afterBuildTicks: (scale) => {
      scale.ticks = ticksOf(minutes);
    },
    afterFit: (scale) => {
      scale.height = style.minutesRoom;
    },
  };
}

function temperatureScale(
  { axis }: ChartPanel,
  stackWeight: number,
  style: ChartStyle,
): LinearScale {
  const look = lookOf(style);
  return {
    ...look,
    type: 'linear',
    position: 'left',
    stack: 'panels',
    stackWeight,
    min: axis.from,
    max: axis.to,
    ticks: { ...look.ticks, autoSkip: false },
    afterBuildTicks: (scale) => {
      scale.ticks = ticksOf(axis);
    },
    afterFit: (scale) => {
      scale.width = style.tickRoom;
    },
  };
}
