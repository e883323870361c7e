import { RoastError } from '../errors.js';
import { type Band, bandIndex, bandNamed, type Scale, TARGET_C, upperEdge } from './scales.js';

/** What one guest would like. */
export interface Wish {
  /** A band of the scale, or a centre temperature at its hottest [°C], 35 to 85. */
  readonly doneness: string | number;
  /** Whose wish it is. */
  readonly name?: string;
}

/** A wish on a scale: the interval of centre temperatures that meets it. */
export interface SettledWish {
  readonly name?: string;
  /** Band of the wish, or the one a wished temperature falls in. */
  readonly band: Band;
  /** Whether a temperature was wished for instead of a band. */
  readonly exact: boolean;
  /** Met from here [°C], included; -Infinity for the rarest band... */
  readonly fromC: number;
  /** ...up to here [°C]; Infinity for the most done. */
  readonly toC: number;
  /** What is best of all [°C]. */
  readonly targetC: number;
}

/** A wished temperature is met this close to it [K]. Judgement: a thermometer at the table cannot tell less. */
export const EXACT_WISH_K = 1.5;

const MOST_GUESTS = 100;

function settle({ doneness, name }: Wish, scale: Scale): SettledWish {
  const named = name === undefined ? {} : { name };
  if (typeof doneness === 'string') {
    const band = bandNamed(scale, doneness);
    const { fromC, targetC } = band;
    const toC = upperEdge(scale, scale.bands.indexOf(band));
    return { ...named, band, exact: false, fromC, toC, targetC };
  }
  const [low, high] = TARGET_C;
  if (!(doneness >= low && doneness <= high)) {
    throw new RoastError(`a guest wishes for ${doneness} °C; it can be ${low} to ${high} °C`, {
      code: Number.isFinite(doneness) ? 'out-of-range' : 'not-a-number',
      path: ['guests'],
      found: doneness,
      accepted: `${low} to ${high} °C, or ${scale.bands.map((band) => band.name).join(', ')}`,
    });
  }
  return {
    ...named,
    band: scale.bands[bandIndex(scale, doneness)],
    exact: true,
    fromC: doneness - EXACT_WISH_K,
    toC: doneness + EXACT_WISH_K,
    targetC: doneness,
  };
}

/**
 * Wishes on a scale, rarest first, guests of one wish by name: the order they were given in leaves no trace.
 *
 * @throws RoastError `unknown-name`, `out-of-range`, `missing`
 * @example
 * settleWishes([{ doneness: 'medium' }, { doneness: 'rare', name: 'Ada' }], SCALES.kitchen)[0].name // => 'Ada'
 */
export function settleWishes(wishes: readonly Wish[], scale: Scale): SettledWish[] {
  if (wishes.length < 1 || wishes.length > MOST_GUESTS) {
    throw new RoastError(`there are ${wishes.length} guests; there can be 1 to ${MOST_GUESTS}`, {
      code: wishes.length < 1 ? 'missing' : 'out-of-range',
      path: ['guests'],
      found: wishes.length,
      accepted: `1 to ${MOST_GUESTS} guests`,
    });
  }
  const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
  return wishes
    .map((wish) => settle(wish, scale))
    .sort(
      (a, b) =>
        a.targetC - b.targetC ||
        a.toC - a.fromC - (b.toC - b.fromC) ||
        order(a.name ?? '', b.name ?? ''),
    );
}

/**
 * How far a centre temperature lies outside what was wished for [K]; 0 within.
 *
 * @example
 * const [wish] = settleWishes([{ doneness: 60 }], SCALES.kitchen)
 * misfitOf(wish, 63) // => 1.5
 */
export const misfitOf = ({ fromC, toC }: SettledWish, centreC: number): number =>
  Math.max(0, fromC - centreC, centreC - toC);
