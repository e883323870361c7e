import { readParts } from './parts.js';
import { plainText, refuse } from './text.js';

/**
 * Reads a share: `50%`, `0.5`, `1/2`.
 *
 * @param option - the option the text was given to, `--appetite`
 * @returns share, 0 to 1
 * @throws RoastError `not-a-number`, `wrong-unit`, or `out-of-range` outside 0 to 1
 */
export function readShare(text: string, option: string): number {
  const reading = { option, text, accepted: 'a share from 0 to 1, like 50%, 0.5 or 1/2' };
  const [part, more] = readParts(plainText(reading), reading);
  if (more !== undefined) refuse(reading, 'contradiction', 'it has more than one number');
  if (part.unitText !== '' && part.unitText !== '%') {
    refuse(reading, 'wrong-unit', 'a share has no unit but %');
  }
  const share = part.unitText === '%' ? part.value / 100 : part.value;
  if (share < 0 || share > 1) refuse(reading, 'out-of-range', 'that is not a share of a whole');
  return share;
}
