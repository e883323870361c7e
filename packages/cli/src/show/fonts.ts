import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { GlobalFonts } from '@napi-rs/canvas';
import { RoastError } from '@roastsim/core';

/** Family the fonts are registered under. A name that ends in a digit would need quotes in CSS and is ignored without. */
export const FONT_FAMILY = 'Source Sans';

const FILES = [
  'SourceSans3_400Regular.ttf',
  'SourceSans3_600SemiBold.ttf',
  'SourceSans3_700Bold.ttf',
] as const;

/** Beside the bundle, and where the build puts them as seen from this source file. */
const FOLDERS = ['./fonts/', '../../dist/fonts/'] as const;

let registered = false;

/**
 * Makes the fonts that come with the command known to the canvas; once is enough for all canvases.
 *
 * @throws RoastError `unreadable` when a font file is missing from the installation
 */
export function registerFonts(): void {
  if (registered) return;
  for (const file of FILES) {
    const path = FOLDERS.map((folder) =>
      fileURLToPath(new URL(folder + file, import.meta.url)),
    ).find((candidate) => existsSync(candidate));
    if (path === undefined || GlobalFonts.registerFromPath(path, FONT_FAMILY) === null) {
      throw new RoastError(`the font ${file} is missing from this installation of roastsim`, {
        code: 'unreadable',
        path: ['fonts', file],
        found: path,
        accepted: 'the font files that come with roastsim: install it again',
      });
    }
  }
  registered = true;
}
