import { STOCK_KG } from '@roastsim/core';
import { readMass } from './readMass.js';
import { LIST_LIMIT, plainText, printable, refuse } from './text.js';

const SEPARATOR = /;|,(?!\d)|(?<!\d),/; // a comma between two digits is a decimal comma
const SEVERAL = /^(\d{1,3}) ?[x×*] ?(.+)$/i;

/**
 * Reads the weights of the tenderloins at hand: `2.4kg, 2.6kg`, `4lb 8oz; 5lb`, `3 x 2.4kg, 2.1kg`.
 *
 * @returns masses [kg], in the order typed
 * @throws RoastError with the codes of {@link readMass}; `out-of-range` for a weight no trimmed tenderloin has
 */
export function readStock(text: string, option: string): number[] {
  const accepted = 'weights of trimmed tenderloins, like "2.4kg, 2.6kg" or "3 x 2.4kg"';
  const reading = { option, text, accepted };
  const items = plainText(reading, LIST_LIMIT)
    .split(SEPARATOR)
    .map((item) => item.trim());
  if (items.includes('')) {
    refuse(reading, 'not-a-number', 'there is a separator with no weight beside it');
  }
  return items.flatMap((item) => {
    const [, countText = '1', weight = item] = SEVERAL.exec(item) ?? [];
    const massKg = readMass(weight, option);
    if (massKg < STOCK_KG[0] || massKg > STOCK_KG[1]) {
      const range = `${STOCK_KG[0]} to ${STOCK_KG[1]} kg`;
      refuse(reading, 'out-of-range', `${printable(weight)} is no tenderloin: they weigh ${range}`);
    }
    const count = Number(countText);
    if (count < 1) refuse(reading, 'out-of-range', 'there has to be a tenderloin');
    return new Array<number>(count).fill(massKg);
  });
}
