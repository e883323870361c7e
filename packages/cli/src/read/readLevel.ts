import { plainText, refuse } from './text.js';

const SHARE = /^(\d{1,3}(?:[.,]\d+)?) ?(?:%|percent|per cent)?$/;

/**
 * Reads a share of all cases: `80%`, `80 %`, `80`.
 *
 * @param option - the option the text was given to, `--sure`
 * @returns 0.5 to 0.99
 * @throws RoastError `not-a-number` or `out-of-range`
 */
export function readLevel(text: string, option: string): number {
  const reading = { option, text, accepted: 'a share of 50 to 99 %, like 80%' };
  const [, digits] = SHARE.exec(plainText(reading).toLowerCase()) ?? [];
  if (digits === undefined) return refuse(reading, 'not-a-number', 'that is not a share');
  const share = Number(digits.replace(',', '.')) / 100;
  if (share >= 0.5 && share <= 0.99) return share;
  return refuse(reading, 'out-of-range', 'no range can be given for that');
}
