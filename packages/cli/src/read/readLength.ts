import { mustBePositive, readQuantity } from './quantity.js';
import { length } from './units.js';

/**
 * Reads a length: `24cm`, `24,5 cm`, `240 mm`, `9 1/2 in`, `9½"`, `1ft 2in`.
 *
 * @param option - the option the text was given to, `--length`
 * @returns length [mm], above 0
 * @throws RoastError `not-a-number`, `missing-unit`, `wrong-unit`, `contradiction` (parts that do not go together), or
 * `out-of-range` when it is not above 0
 */
export function readLength(text: string, option: string): number {
  const reading = {
    option,
    text,
    accepted: 'a length above 0 in cm, mm, m, in or ft, like 24cm or 9.5in',
  };
  return mustBePositive(readQuantity(reading, length), length, reading);
}
