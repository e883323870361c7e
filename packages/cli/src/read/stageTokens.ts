import { printable, type Reading, refuse } from './text.js';
import { measuredBy } from './units.js';

/** A word or a number of a stage line, and where it stands in the text of its stage. */
export interface Token {
  readonly kind: 'word' | 'number';
  /** A word in small letters; a number with its unit as typed. */
  readonly text: string;
  /** Unit of a number; empty when there is none. */
  readonly unit: string;
  readonly from: number;
  readonly to: number;
}

// in order: 1 1/2 or 1/2, then 1:20, then 2 or 2.2 or 2,2, then .5
const NUMBER = /[-+]?(?:(?:\d+ )?\d+\/\d+|\d+(?::\d+)+|\d+(?:[.,]\d+)*|\.\d+)/y;
const UNIT = /( ?)((?:°|deg(?:rees?)?(?![\p{L}])) ?\p{L}*|[\p{L}×*%"″”]+|['′’])\.?/uy;
const WORD = /[\p{L}×*](?:[\p{L}'’-]*\p{L})?/uy;

/** What stands between the number of faces of a sear and the time on each. */
export const isFaces = (unit: string): boolean => /^(x|×|\*|faces?|sides?|times)$/i.test(unit);

/** Whether a word behind a space is the unit of the number before it; `230 fan` is a number and a word. */
const isUnit = (word: string): boolean =>
  isFaces(word) || word === '%' || /^(°|deg)/i.test(word) || measuredBy(word) !== undefined;

/**
 * Takes the text of one stage apart into words and numbers. A word right behind a number is its unit, known or not.
 *
 * @throws RoastError `not-a-number` for a character that begins neither
 */
export function tokensOf(plainText: string, reading: Reading): Token[] {
  const tokens: Token[] = [];
  let at = 0;
  while (at < plainText.length) {
    if (plainText[at] === ' ') {
      at++;
      continue;
    }
    const number = take(NUMBER, plainText, at);
    const token =
      number === undefined ? wordAt(plainText, at, reading) : numberAt(plainText, at, number[0]);
    tokens.push(token);
    at = token.to;
  }
  return tokens;
}

function numberAt(text: string, from: number, number: string): Token {
  const end = from + number.length;
  const [found = '', space = '', unit = ''] = take(UNIT, text, end) ?? [];
  const taken = unit !== '' && (space === '' || isUnit(unit));
  const to = taken ? end + found.length : end;
  return { kind: 'number', text: text.slice(from, to), unit: taken ? unit : '', from, to };
}

function wordAt(text: string, from: number, reading: Reading): Token {
  const word = take(WORD, text, from)?.[0];
  if (word === undefined) {
    const shown = printable(text.slice(from));
    return refuse(reading, 'not-a-number', `"${shown}" makes no sense there`);
  }
  return { kind: 'word', text: word.toLowerCase(), unit: '', from, to: from + word.length };
}

/** What a sticky pattern matches at a place. */
function take(pattern: RegExp, text: string, at: number): RegExpExecArray | undefined {
  pattern.lastIndex = at;
  return pattern.exec(text) ?? undefined;
}
