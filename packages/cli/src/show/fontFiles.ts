import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { RoastError } from '@roastsim/core';

/** The typeface of everything that is printed, by weight. */
export const FONT_FILES = {
  400: 'SourceSans3_400Regular.ttf',
  600: 'SourceSans3_600SemiBold.ttf',
  700: 'SourceSans3_700Bold.ttf',
} as const;

/** Beside the bundle, and where the build puts them as seen from this source file. */
const FOLDERS = ['./fonts/', '../../dist/fonts/'] as const;

/**
 * Path of a font file that comes with the command.
 *
 * @param name - below the folder of the fonts: `SourceSans3_700Bold.ttf`, `web/unicode.json`
 * @throws RoastError `unreadable` when it is missing from the installation
 */
export function fontFile(name: string): string {
  const path = FOLDERS.map((folder) => fileURLToPath(new URL(folder + name, import.meta.url))).find(
    (candidate) => existsSync(candidate),
  );
  return path ?? fontMissing(name);
}

/** Refuses a font file that is missing or damaged. */
export function fontMissing(name: string): never {
  throw new RoastError(`the font file ${name} is missing from this installation of roastsim`, {
    code: 'unreadable',
    path: ['fonts', name],
    found: undefined,
    accepted: 'the font files that come with roastsim: install it again',
  });
}
