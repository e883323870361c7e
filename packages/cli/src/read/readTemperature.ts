import { convert } from 'convert';
import { readParts } from './parts.js';
import { quantityOf } from './quantity.js';
import { plainText, refuse } from './text.js';
import { temperature } from './units.js';

/**
 * Reads a temperature: `230C`, `230 °C`, `446F`, `-2 degrees celsius`. Whether an oven can be that hot is not asked here.
 *
 * @param option - the option the text was given to, `--oven`
 * @returns temperature [°C], not below absolute zero
 * @throws RoastError `not-a-number`, `missing-unit`, `wrong-unit` (kelvin too), `contradiction` (two temperatures), or
 * `out-of-range` below absolute zero
 */
export function readTemperature(text: string, option: string): number {
  const reading = {
    option,
    text,
    accepted: 'a temperature in C or F, like 230C or 446F',
  };
  const tidy = plainText(reading);
  // `230/446F` is one temperature in two scales, not a fraction.
  if (tidy.includes('/')) refuse(reading, 'not-a-number', 'a temperature has no fraction in it');
  const parts = readParts(tidy, reading);
  if (parts.length > 1) {
    refuse(reading, 'contradiction', 'it has more than one number, and one is needed');
  }
  const tempC = quantityOf(parts, temperature, reading);
  if (convert(tempC, 'C').to('K') < 0) {
    refuse(reading, 'out-of-range', 'nothing is colder than absolute zero');
  }
  return tempC;
}
