import { readMass } from './readMass.js';
import { LIST_LIMIT, plainText, refuse } from './text.js';

const SEPARATOR = /;|,(?!\d)|(?<!\d),/; // a comma between two digits is a decimal comma

/**
 * Reads weights separated by commas or semicolons: `2.4kg, 2.6kg`; decimal commas may stand inside.
 *
 * @param option - the option the text was given to, `--stock`
 * @returns masses [kg], in the order typed, at least one
 * @throws RoastError with the codes of {@link readMass}
 */
export function readMasses(text: string, option: string): readonly number[] {
  const reading = { option, text, accepted: 'weights, like "2.4kg, 2.6kg"' };
  const items = plainText(reading, LIST_LIMIT).split(SEPARATOR);
  if (items.some((item) => item.trim() === '')) {
    refuse(reading, 'not-a-number', 'there is a separator with no weight beside it');
  }
  return items.map((item) => readMass(item.trim(), option));
}
