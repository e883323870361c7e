import { RoastError } from '../errors.js';

/** What raw meat is made of: mass fractions that sum to 1. */
export interface Composition {
  readonly water: number;
  readonly protein: number;
  readonly fat: number;
  readonly ash: number;
}

/** A named composition and where its figures come from. */
export interface CompositionPreset extends Composition {
  readonly source: string;
}

const USDA = 'USDA National Nutrient Database for Standard Reference (SR27/28), record';

/** Grams per 100 g as printed; printed rows miss 100 by rounding, so they are scaled to sum 1. */
function per100g(
  water: number,
  protein: number,
  fat: number,
  ash: number,
  source: string,
): CompositionPreset {
  const sum = water + protein + fat + ash;
  return { water: water / sum, protein: protein / sum, fat: fat / sum, ash: ash / sum, source };
}

/** Compositions to choose from; the first is the default. */
export const COMPOSITIONS = {
  'lean-tenderloin': per100g(
    72,
    21.5,
    5.5,
    1,
    'rounded middle of the USDA SR rows below: 71-73 % water, 21.5-22.2 % protein, 5.1-7.4 % fat',
  ),
  'tenderloin-choice': per100g(71.05, 21.5, 7.4, 1.1, `${USDA} 23337, roast, lean and fat, Choice`),
  'tenderloin-select': per100g(
    72.17,
    21.91,
    6.21,
    1.09,
    `${USDA} 23338, roast, lean and fat, Select`,
  ),
  'tenderloin-choice-lean': per100g(
    72.04,
    21.78,
    6.16,
    1.11,
    `${USDA} 23367, roast, lean only, Choice`,
  ),
  'tenderloin-select-lean': per100g(
    73.04,
    22.16,
    5.1,
    1.1,
    `${USDA} 23368, roast, lean only, Select`,
  ),
  'tenderloin-prime': per100g(
    59.52,
    18.15,
    21.83,
    0.88,
    `${USDA} 13926, lean and fat with 1/8 in of outside fat, Prime`,
  ),
  'rib-eye-lean': per100g(70.14, 21.99, 7.54, 1.01, `${USDA} 23153, rib eye, lean, all grades`),
  'tri-tip-lean': per100g(72.41, 21.26, 5.63, 1.06, `${USDA} 23646, tri-tip, lean, all grades`),
} as const satisfies Record<string, CompositionPreset>;

/** Name of a composition preset. */
export type CompositionName = keyof typeof COMPOSITIONS;

const TOLERANCE = 1e-6; // far below any analysis, wide enough for decimal input

/**
 * Checks a caller's own composition.
 *
 * @throws RoastError `not-a-number`, `out-of-range` (a fraction outside 0 to 1, water outside 0.4 to 0.8) or `contradiction`
 *   (the fractions do not sum to 1)
 */
export function checkComposition(composition: Composition): Composition {
  for (const part of ['water', 'protein', 'fat', 'ash'] as const) {
    const found = composition[part];
    const path = ['composition', part];
    if (typeof found !== 'number' || !Number.isFinite(found)) {
      throw new RoastError(`the composition's ${part} is not a number`, {
        code: 'not-a-number',
        path,
        found,
        accepted: 'a mass fraction from 0 to 1',
      });
    }
    const [low, high] = part === 'water' ? [0.4, 0.8] : [0, 1];
    if (found < low || found > high) {
      throw new RoastError(
        `the composition's ${part} is ${found}; it is a mass fraction from ${low} to ${high}`,
        { code: 'out-of-range', path, found, accepted: `${low} to ${high}` },
      );
    }
  }
  const sum = composition.water + composition.protein + composition.fat + composition.ash;
  if (Math.abs(sum - 1) > TOLERANCE) {
    throw new RoastError(`the composition sums to ${sum}; mass fractions sum to 1`, {
      code: 'contradiction',
      path: ['composition'],
      found: sum,
      accepted: 'fractions that sum to 1',
    });
  }
  return composition;
}
