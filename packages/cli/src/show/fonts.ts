import { GlobalFonts } from '@napi-rs/canvas';
import { FONT_FILES, fontFile, fontMissing } from './fontFiles.js';

/** Family the fonts are registered under. A name that ends in a digit would need quotes in CSS and is ignored without. */
export const FONT_FAMILY = 'Source Sans';

let registered = false;

/**
 * Makes the fonts that come with the command known to the canvas; once is enough for all canvases.
 *
 * @throws RoastError `unreadable` when a font file is missing from the installation
 */
export function registerFonts(): void {
  if (registered) return;
  for (const file of Object.values(FONT_FILES)) {
    if (GlobalFonts.registerFromPath(fontFile(file), FONT_FAMILY) === null) fontMissing(file);
  }
  registered = true;
}
