import { CUT_KINDS, type CutKind, PRICES, type Prices } from '@roastsim/core';
import { readChoice } from './readChoice.js';
import { LIST_LIMIT, plainText, printable, refuse } from './text.js';

const SEPARATOR = /;|,(?!\d)|(?<!\d),/;
const PRICE = /^([a-z]+) ?[=:]? ?(\d{1,6}(?:[.,]\d{1,4})?)$/i;

/**
 * Reads what a kilogram or a pound of each kind brings: `whole 62, centre 88, tips 30`. Only the ratios count. Kinds left out keep
 * their usual ratio to whole.
 *
 * @throws RoastError `not-a-number`, `unknown-name`, `out-of-range`, `contradiction`, `missing` when whole is left out
 */
export function readPrices(text: string, option: string): Prices {
  const accepted = 'kinds with their prices, like "whole 62, centre 88, tips 30"';
  const reading = { option, text, accepted };
  const given = new Map<CutKind, number>();
  for (const item of plainText(reading, LIST_LIMIT).split(SEPARATOR)) {
    const [, typed, number] = PRICE.exec(item.trim()) ?? [];
    if (typed === undefined || number === undefined) {
      return refuse(reading, 'not-a-number', `"${printable(item.trim())}" is no kind and price`);
    }
    const kind = readChoice(typed, CUT_KINDS, option);
    if (given.has(kind)) refuse(reading, 'contradiction', `${kind} stands in it twice`);
    const price = Number(number.replace(',', '.'));
    if (price <= 0) refuse(reading, 'out-of-range', `the price of ${kind} has to be more than 0`);
    given.set(kind, price);
  }
  const whole = given.get('whole');
  if (whole === undefined) {
    return refuse(reading, 'missing', 'the price of whole is missing, which the others go by');
  }
  const of = (kind: CutKind): number => given.get(kind) ?? whole * PRICES[kind];
  return {
    whole,
    centre: of('centre'),
    butt: of('butt'),
    tail: of('tail'),
    steak: of('steak'),
    tips: of('tips'),
  };
}
