import { createCanvas } from '@napi-rs/canvas';
import type { Plan, UnitSystem } from '@roastsim/core';
import type { Chart, ChartConfiguration, ChartDataset, Plugin } from 'chart.js';
import { ChartJSNodeCanvas } from 'chartjs-node-canvas';
import { type Margins, MINUTES_ROOM, marginsOf } from './chartLayout.js';
import { type ChartLine, type ChartModel, type ChartPanel, chartModel } from './chartModel.js';
import { type Places, paintGround, paintWords } from './chartPaint.js';
import { CHART_SIZE, EDGE, INK, STROKES } from './chartStyle.js';
import { FONT_FAMILY, registerFonts } from './fonts.js';

export { chartModel } from './chartModel.js';

const PANEL_SHARE = { meat: 5, gap: 0.25, around: 1.25 } as const;

/**
 * Draws the temperatures of a plan over time.
 *
 * @returns a PNG picture, 1920 by 1200 pixels
 * @throws RoastError `unreadable` when the fonts are missing from the installation
 */
export async function planChart(plan: Plan, units: UnitSystem): Promise<Buffer> {
  registerFonts();
  const model = chartModel(plan, units);
  const margins = marginsOf(createCanvas(1, 1).getContext('2d'), model);
  const { width, height } = CHART_SIZE;
  const canvas = new ChartJSNodeCanvas({ width, height });
  return canvas.renderToBufferSync(configurationOf(model, margins), 'image/png');
}

function configurationOf(model: ChartModel, margins: Margins): ChartConfiguration<'line'> {
  const { meat, around } = model;
  const { left, right, top, bottom } = margins;
  return {
    type: 'line',
    data: {
      datasets: [
        ...(around?.lines ?? []).map((line) => datasetOf(line, 'around')),
        ...meat.lines.map((line) => datasetOf(line, 'meat')),
      ],
    },
    options: {
      devicePixelRatio: CHART_SIZE.pixelRatio,
      events: [],
      font: { family: FONT_FAMILY, size: 12.5 },
      layout: { autoPadding: false, padding: { left: EDGE, right, top, bottom } },
      plugins: { legend: { display: false }, tooltip: { enabled: false } },
      scales: {
        minutes: minutesScale(model),
        meat: temperatureScale(meat, PANEL_SHARE.meat, left - EDGE),
        ...(around === undefined
          ? {}
          : {
              gap: { ...temperatureScale(around, PANEL_SHARE.gap, left - EDGE), ...EMPTY },
              around: temperatureScale(around, PANEL_SHARE.around, left - EDGE),
            }),
      },
    },
    plugins: [painter(model, margins)],
  };
}

/** Without any dash the chart library takes a short cut that turns close points into stairs. */
const UNBROKEN = [1, 0];

function datasetOf({ kind, points }: ChartLine, yAxisID: string): ChartDataset<'line'> {
  const { color, width, dash } = STROKES[kind];
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

function painter(model: ChartModel, margins: Margins): Plugin<'line'> {
  const placesOf = ({ scales, chartArea }: Chart): Places => {
    const { minutes, meat, around } = scales;
    return {
      plot: chartArea,
      x: (value) => minutes.getPixelForValue(value),
      meatY: (value) => meat.getPixelForValue(value),
      ...(around === undefined ? {} : { aroundY: (value) => around.getPixelForValue(value) }),
    };
  };
  return {
    id: 'words',
    beforeDraw: (chart) => paintGround(chart.ctx, model, placesOf(chart)),
    afterDraw: (chart) => paintWords(chart.ctx, model, placesOf(chart), margins),
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

const TICK_FONT = { family: FONT_FAMILY, size: 12 } as const;

function minutesScale({ minutes }: ChartModel): LinearScale {
  return {
    type: 'linear',
    min: minutes.from,
    max: minutes.to,
    title: {
      display: true,
      text: 'minutes since the refrigerator',
      color: INK.faint,
      font: TICK_FONT,
    },
    ticks: {
      stepSize: minutes.step,
      includeBounds: false,
      color: INK.faint,
      font: TICK_FONT,
      maxRotation: 0,
    },
    grid: { color: INK.grid, tickColor: INK.border },
    border: { color: INK.border },
    afterFit: (scale) => {
      scale.height = MINUTES_ROOM;
    },
  };
}

function temperatureScale({ axis }: ChartPanel, stackWeight: number, width: number): LinearScale {
  return {
    type: 'linear',
    position: 'left',
    stack: 'panels',
    stackWeight,
    min: axis.from,
    max: axis.to,
    ticks: {
      stepSize: axis.step,
      autoSkip: false,
      color: INK.faint,
      font: TICK_FONT,
    },
    grid: { color: INK.grid, tickColor: INK.border },
    border: { color: INK.border },
    afterFit: (scale) => {
      scale.width = width;
    },
  };
}
