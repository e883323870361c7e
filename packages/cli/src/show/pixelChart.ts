import { type Canvas, createCanvas } from '@napi-rs/canvas';
import type { ChartConfiguration } from 'chart.js';
import { ChartJSNodeCanvas } from 'chartjs-node-canvas';
import type { ChartStyle } from './chartStyle.js';
import type { Pixels } from './inkPng.js';

/** Draws many charts of one size on one canvas and hands out their pixels, where the library would hand out a file. */
export class PixelChart extends ChartJSNodeCanvas {
  readonly #canvas: Canvas;

  constructor({ width, height }: Pick<ChartStyle, 'width' | 'height'>) {
    super({ width, height });
    this.#canvas = createCanvas(width, height);
  }

  /** @returns pixels of the chart, of its own size times the device pixel ratio of its options */
  pixels(configuration: ChartConfiguration<'line'>): Pixels {
    const canvas = this.#canvas;
    canvas.width = this._width; // the chart before has left it larger
    canvas.height = this._height;
    const context = canvas.getContext('2d');
    const chart = new this._chartJs(context, {
      ...configuration,
      options: { ...configuration.options, responsive: false, animation: false },
    });
    const { data, width, height } = context.getImageData(0, 0, canvas.width, canvas.height);
    chart.destroy();
    return { data, width, height };
  }
}
