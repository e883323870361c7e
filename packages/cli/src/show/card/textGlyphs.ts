import { pathText, RoastError } from '@roastsim/core';
import type { CardModel } from './cardModel.js';
import type { Drawing } from './drawing.js';
import { isPrintable } from './textFonts.js';

type Path = readonly (string | number)[];

/** Every text that gets printed and where it stands in the card. */
function* printedTexts(card: CardModel): Generator<readonly [text: string, path: Path]> {
  const { shop, keys, steps, facts, guests } = card;
  const simple = {
    forWhom: card.forWhom,
    pickUp: card.pickUp,
    serve: card.serve,
    note: card.note,
    title: card.title,
    wanted: card.wanted,
    sectionTitle: card.sectionTitle,
  };
  for (const [name, text] of Object.entries(simple)) if (text !== undefined) yield [text, [name]];
  if (shop !== undefined) {
    yield [shop.name, ['shop', 'name']];
    for (const [i, line] of shop.address.entries()) yield [line, ['shop', 'address', i]];
    if (shop.footer !== undefined) yield [shop.footer, ['shop', 'footer']];
  }
  const records = { keys, steps, facts, guests };
  for (const [name, list] of Object.entries(records)) {
    for (const [i, record] of list.entries()) {
      for (const [field, value] of Object.entries(record)) {
        if (typeof value === 'string') yield [value, [name, i, field]];
      }
    }
  }
  const lists = { legend: card.legend, notices: card.notices, cautions: card.cautions };
  for (const [name, list] of Object.entries(lists)) {
    for (const [i, text] of list.entries()) yield [text, [name, i]];
  }
  yield* drawnTexts(card.roast, 'roast');
  yield* drawnTexts(card.section, 'section');
}

function* drawnTexts({ marks }: Drawing, name: string): Generator<readonly [string, Path]> {
  for (const [i, mark] of marks.entries()) {
    if (mark.kind === 'text') yield [mark.text, [name, 'marks', i, 'text']];
  }
}

/** Set as spaces. */
const LINE_ENDS = /[\t\r\n]/;

const isMissing = (character: string): boolean =>
  !LINE_ENDS.test(character) && !isPrintable(character.codePointAt(0) ?? 0);

/**
 * Characters on a card that the card's fonts have no letterform for, each once, in the order they come up. Latin, Greek and
 * Cyrillic letters all have one.
 */
export function unprintable(card: CardModel): string[] {
  const missing = new Set<string>();
  for (const [text] of printedTexts(card)) {
    for (const character of text) if (isMissing(character)) missing.add(character);
  }
  return [...missing];
}

/**
 * Makes sure that every character of a card can be printed.
 *
 * @throws RoastError `unreadable`, path to the text, when one cannot
 */
export function requirePrintable(card: CardModel): void {
  for (const [text, path] of printedTexts(card)) {
    const character = [...text].find(isMissing);
    if (character === undefined) continue;
    const code = `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
    const accepted = 'Latin, Greek and Cyrillic letters, digits and punctuation';
    throw new RoastError(
      `the card cannot print ${code} "${character}" in ${pathText(path)}: its fonts have no such letter; accepted: ${accepted}`,
      { code: 'unreadable', path, found: character, accepted },
    );
  }
}
