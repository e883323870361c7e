import { printable, type Reading, refuse } from './text.js';

/** A number and the letters after it: `8oz` out of `4lb 8oz`. */
export interface Part {
  readonly value: number;
  /** The number as it stands in the plain text. */
  readonly numberText: string;
  /** What stands between this number and the next; empty when there is nothing. */
  readonly unitText: string;
}

// In order: 1 1/2 or 1/2, then 2 or 2.2 or 2,2 (or a heap of separators, refused below with its own message), then .5
const NUMBER = /([-+]?)(?:(?:(\d+) )?(\d+)\/(\d+)|(\d+(?:[.,]\d+)*|\.\d+))/y;
const UNIT = /[^\d+\-–—.,/:;@]*(?:\.(?!\d))?/y; // the point of `4 lb.`, but not the one of `4lb.5`
const BETWEEN = /(?:, | )?/y;

/**
 * Takes plain text apart into numbers and the units behind them.
 *
 * A comma is a decimal comma where it can be nothing else: `2,2` and `0,500` are read, `1,500` is refused with both readings.
 *
 * @throws RoastError `not-a-number` when the text does not start with a number, holds anything else between the parts, a number
 * with an exponent, an impossible fraction, or one whose separators can be read in two ways
 */
export function readParts(plainText: string, reading: Reading): readonly Part[] {
  if (/\de[+-]?\d/i.test(plainText)) {
    refuse(reading, 'not-a-number', 'numbers are written out here, without an exponent');
  }
  const parts: Part[] = [];
  let at = 0;
  while (at < plainText.length) {
    const number = take(NUMBER, plainText, at);
    // Only the first number may carry a sign or begin with its point: in `4lb-8oz` and `4lb.8oz` both could mean two things.
    if (number === null || (at > 0 && !/^\d/.test(number[0]))) {
      const rest = printable(plainText.slice(at));
      const fault = at === 0 ? 'it does not start with a number' : `"${rest}" makes no sense there`;
      return refuse(reading, 'not-a-number', fault);
    }
    at += number[0].length;
    const unit = take(UNIT, plainText, at)?.[0] ?? '';
    at += unit.length;
    const unitText = unit.replace(/\.$/, '').trim();
    if (unitText === '' && at < plainText.length && /\d/.test(plainText.charAt(at))) {
      const grouped = /^\d{1,3}(?: \d{3})+(?!\d)/.test(plainText);
      refuse(
        reading,
        'not-a-number',
        'two numbers stand side by side',
        grouped ? `write ${printable(plainText.replace(/(\d) (?=\d{3})/g, '$1'))}` : undefined,
      );
    }
    parts.push({ value: numberIn(number, reading), numberText: number[0], unitText });
    if (at < plainText.length) at += take(BETWEEN, plainText, at)?.[0].length ?? 0;
  }
  return parts;
}

/** What a sticky pattern matches at a place, without a copy of the rest of the text. */
function take(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}

function numberIn(number: RegExpExecArray, reading: Reading): number {
  const [, sign, whole, numerator, denominator, decimal] = number;
  const size =
    decimal === undefined
      ? fraction(Number(whole ?? 0), Number(numerator), Number(denominator), reading)
      : decimalNumber(decimal, reading);
  return sign === '-' ? -size : size;
}

function fraction(whole: number, numerator: number, denominator: number, reading: Reading): number {
  if (denominator === 0) refuse(reading, 'not-a-number', 'nothing can be divided by 0');
  if (whole > 0 && numerator >= denominator) {
    refuse(reading, 'not-a-number', `after ${whole} the fraction has to be less than 1`);
  }
  return whole + numerator / denominator;
}

function decimalNumber(text: string, reading: Reading): number {
  const separators = text.match(/[.,]/g) ?? [];
  if (separators.length > 1) {
    const bare = text.replace(/[.,](?=.*[.,])/g, '');
    refuse(
      reading,
      'not-a-number',
      `"${printable(text)}" has more than one decimal separator`,
      new Set(separators).size > 1 ? `write ${printable(bare.replace(',', '.'))}` : undefined,
    );
  }
  if (/^[1-9]\d{0,2},\d{3}$/.test(text)) {
    refuse(
      reading,
      'not-a-number',
      `the comma in ${text} can be read in two ways`,
      `write ${text.replace(',', '.')} or ${text.replace(',', '')}`,
    );
  }
  return Number(text.replace(',', '.'));
}
