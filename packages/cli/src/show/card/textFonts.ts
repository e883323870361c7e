import { readFileSync } from 'node:fs';
import { create, type Font, type GlyphRun } from 'fontkit';
import { FONT_FILES, fontFile, fontMissing } from '../fontFiles.js';
import { type Measure, WEIGHTS, type Weight } from './page.js';

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
  const file = FONT_FILES[weight];
  const font = create(readFileSync(fontFile(file)));
  if (!('layout' in font)) fontMissing(file);
  rememberWords(font);
  nameGlyphs(font);
  opened.set(weight, font);
  return font;
}

/**
 * A font keeps each glyph as it was first asked for. One met first as a part of another (the Z of Ź) has no characters then, and every
 * later document would show it without its text: it could not be searched, copied or read out.
 */
function nameGlyphs(font: Font): void {
  const ask = font.getGlyph.bind(font);
  font.getGlyph = (id, characters) => {
    const glyph = ask(id, characters);
    if (glyph?.codePoints.length === 0 && characters !== undefined) glyph.codePoints = characters;
    return glyph;
  };
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
