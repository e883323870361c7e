import type { Plan, UnitSystem } from '@roastsim/core';
import { ChartJSNodeCanvas } from 'chartjs-node-canvas';
import { chartConfiguration } from './chartConfiguration.js';
import { chartModel } from './chartModel.js';
import { FULL_STYLE } from './chartStyle.js';
import { registerFonts } from './fonts.js';

export { chartModel } from './chartModel.js';

/**
 * Draws the temperatures of a plan over time.
 *
 * @returns a PNG picture, 1920 by 1200 pixels
 * @throws RoastError `unreadable` when the fonts are missing from the installation
 */
export async function planChart(plan: Plan, units: UnitSystem): Promise<Buffer> {
  registerFonts();
  const canvas = new ChartJSNodeCanvas({ width: FULL_STYLE.width, height: FULL_STYLE.height });
  const configuration = chartConfiguration(chartModel(plan, units), FULL_STYLE);
  return canvas.renderToBufferSync(configuration, 'image/png');
}
