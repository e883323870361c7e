import { mustBePositive, readQuantity } from './quantity.js';
import { mass } from './units.js';

/**
 * Reads a weight: `2.2kg`, `2,2 kg`, `900 g`, `4lb 8oz`, `1 1/2 lb`, `½ lb`.
 *
 * @param option - the option the text was given to, `--weight`
 * @returns mass [kg], above 0
 * @throws RoastError `not-a-number`, `missing-unit`, `wrong-unit`, `contradiction` (parts that do not go together), or
 * `out-of-range` when it is not above 0
 */
export function readMass(text: string, option: string): number {
  const reading = {
    option,
    text,
    accepted: 'a weight above 0 in kg, g, lb or oz, like 2.2kg or 4lb 8oz',
  };
  return mustBePositive(readQuantity(reading, mass), mass, reading);
}
