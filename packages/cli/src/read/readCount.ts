import { plainText, refuse } from './text.js';

/**
 * Reads a number of people: `8`.
 *
 * @param option - the option the text was given to, `--children`
 * @returns whole number, 0 to `most`
 * @throws RoastError `not-a-number` or `out-of-range`
 */
export function readCount(text: string, most: number, option: string): number {
  const reading = { option, text, accepted: `a whole number from 0 to ${most}` };
  const tidy = plainText(reading);
  if (!/^\d+$/.test(tidy)) refuse(reading, 'not-a-number', 'that is not a whole number');
  const count = Number(tidy);
  if (count > most) refuse(reading, 'out-of-range', 'that is too many');
  return count;
}
