import { plainText, refuse } from './text.js';

const SHARE = /^(\d{1,3}(?:[.,]\d{1,3})?) ?%$/;

/**
 * Reads a share in per cent: `5%`, `7,5 %`.
 *
 * @param most - the largest accepted [%]
 * @returns the share, 0 to 1
 * @throws RoastError `not-a-number`, `missing-unit`, `out-of-range`
 */
export function readPercent(text: string, most: number, option: string): number {
  const reading = { option, text, accepted: `0% to ${most}%` };
  const tidy = plainText(reading);
  const [, number] = SHARE.exec(tidy) ?? [];
  if (number === undefined) {
    return /^[\d.,]+$/.test(tidy)
      ? refuse(reading, 'missing-unit', 'it needs its sign', `write ${tidy}%`)
      : refuse(reading, 'not-a-number', 'that is no share');
  }
  const percent = Number(number.replace(',', '.'));
  if (percent > most) refuse(reading, 'out-of-range', 'that is too much');
  return percent / 100;
}
