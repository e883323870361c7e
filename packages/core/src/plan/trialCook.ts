import { type CookOptions, CookRun, type Roast } from '../cook/index.js';

/**
 * A cook to try changes on: radial lines alone, in a fortieth to a sixtieth of the default mesh's time. Only differences of such
 * cooks against each other mean something: the time to put a roast back is within 4 % of the full mesh's over eight plans of 120 to
 * 230 °C.
 *
 * @param longestStepS - [s]; the first of every stretch is a fifteenth of it
 */
export const trialCook = (
  roast: Roast,
  { body: _, ...options }: CookOptions,
  longestStepS: number,
): CookRun =>
  new CookRun(roast, {
    ...options,
    stations: 6,
    shells: 12,
    axial: false,
    longestStepS,
    firstStepS: longestStepS / 15,
    fields: false,
  });
