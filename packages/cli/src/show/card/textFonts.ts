import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { RoastError } from '@roastsim/core';
import { create, type Font, type GlyphRun } from 'fontkit';
import { type Measure, WEIGHTS, type Weight } from './page.js';

const FILES: Readonly<Record<Weight, string>> = {
  400: 'SourceSans3_400Regular.ttf',
  600: 'SourceSans3_600SemiBold.ttf',
  700: 'SourceSans3_700Bold.ttf',
};

/** Beside the bundle, and where the build puts them as seen from this source file. */
const FOLDERS = ['./fonts/', '../../../dist/fonts/'] as const;

/** Words a font remembers the shape of: those of some hundred cards in several languages. */
const MOST_WORDS = 20_000;

const opened = new Map<Weight, Font>();

/**
 * A font of the card, read once for the whole process.
 *
 * @throws RoastError `unreadable` when its file is missing from the installation
 */
export function cardFont(weight: Weight): Font {
  const known = opened.get(weight);
  if (known !== undefined) return known;
  const file = FILES[weight];
  const path = FOLDERS.map((folder) => fileURLToPath(new URL(folder + file, import.meta.url))).find(
    (candidate) => existsSync(candidate),
  );
  const font = path === undefined ? undefined : create(readFileSync(path));
  if (font === undefined || !('layout' in font)) {
    throw new RoastError(`the font ${file} is missing from this installation of roastsim`, {
      code: 'unreadable',
      path: ['fonts', file],
      found: path,
      accepted: 'the font files that come with roastsim: install it again',
    });
  }
  rememberWords(font);
  opened.set(weight, font);
  return font;
}

/** Shaping a word takes a tenth of a millisecond, and cards say the same words again and again. */
function rememberWords(font: Font): void {
  const shape = font.layout.bind(font);
  const known = new Map<string, GlyphRun>();
  font.layout = (text, ...rest) => {
    if (rest.some((option) => option !== undefined)) return shape(text, ...rest);
    let run = known.get(text);
    if (run === undefined) {
      if (known.size >= MOST_WORDS) known.clear();
      run = shape(text);
      known.set(text, run);
    }
    // its user may scale the positions in place
    const positions = run.positions.map((position) => ({ ...position }));
    return Object.assign(Object.create(Object.getPrototypeOf(run)), run, { positions });
  };
}

const widths: Readonly<Record<Weight, Map<string, number>>> = {
  400: new Map(),
  600: new Map(),
  700: new Map(),
};

/** Width of a text in the card's fonts [em], word by word with the space after it, which is how the PDF sets it. */
export const cardMeasure: Measure = (text, weight) => {
  let em = 0;
  for (let from = 0; from < text.length; ) {
    const space = text.indexOf(' ', from);
    const to = space < 0 ? text.length : space + 1;
    em += wordWidth(text.slice(from, to), weight);
    from = to;
  }
  return em;
};

function wordWidth(word: string, weight: Weight): number {
  const known = widths[weight];
  let em = known.get(word);
  if (em === undefined) {
    const font = cardFont(weight);
    if (known.size >= MOST_WORDS) known.clear();
    em = font.layout(word).advanceWidth / font.unitsPerEm;
    known.set(word, em);
  }
  return em;
}

/** Whether a character has a letterform in every weight a card is printed in. */
export const isPrintable = (codePoint: number): boolean =>
  WEIGHTS.every((weight) => cardFont(weight).hasGlyphForCodePoint(codePoint));
