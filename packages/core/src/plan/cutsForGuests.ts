import type { Roast } from '../cook/index.js';
import { type Cut, cutsOf, PORTION_KG } from '../judge/index.js';

/**
 * Slices for so many guests: a portion each, or the roast in equal parts where that is less.
 *
 * @example
 * cutsForGuests(roast, 8, 0.227).length // => 10
 */
export function cutsForGuests(roast: Roast, guests: number, portionKg = PORTION_KG): Cut[] {
  const cuts = cutsOf(roast, portionKg);
  return cuts.length >= guests ? cuts : cutsOf(roast, roast.massKg / guests);
}
