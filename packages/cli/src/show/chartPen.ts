import type { SKRSContext2D } from '@napi-rs/canvas';
import type { Margins } from './chartLayout.js';
import type { ChartModel } from './chartModel.js';
import type { ChartStyle, Stroke } from './chartStyle.js';

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

/** A chart about to be painted: what it shows, how it looks, and where. */
export interface Sheet {
  readonly ctx: SKRSContext2D;
  readonly model: ChartModel;
  readonly style: ChartStyle;
  readonly margins: Margins;
  readonly places: Places;
}

/** How something is written. */
export interface Lettering {
  readonly font: string;
  readonly color?: string;
  readonly align?: 'left' | 'center' | 'right';
  /** Paper round the letters, to be read over lines. */
  readonly halo?: boolean;
}

/** Writes a text where it is told. */
export function write(
  { ctx, style: { ink, halo } }: Sheet,
  text: string,
  x: number,
  y: number,
  how: Lettering,
): void {
  ctx.font = how.font;
  ctx.textAlign = how.align ?? 'left';
  if (how.halo === true) {
    ctx.strokeStyle = ink.paper;
    ctx.lineWidth = halo;
    ctx.lineJoin = 'round';
    ctx.strokeText(text, x, y);
  }
  ctx.fillStyle = how.color ?? ink.text;
  ctx.fillText(text, x, y);
}

/** Draws a straight line. */
export function rule(
  { ctx }: Sheet,
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
