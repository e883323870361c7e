import { foldTail } from './fold.js';
import { lengthOf, type Profile } from './profile.js';

/**
 * Coefficient of variation of the diameter along the length [-]: standard deviation over mean, every millimetre of length
 * counting the same. Exact for the piecewise linear area: the mean square is linear, and over a piece of width w between
 * diameters a and b the integral of the diameter is w (2/3) (a² + ab + b²) / (a + b).
 *
 * @example
 * diameterVariation(CUTS.whole.profile) // => 0.299
 */
export function diameterVariation(profile: Profile): number {
  const { atM, areaM2 } = profile;
  let sum = 0; // of the diameter, in units of (4 / pi)^0.5, which cancel
  let squares = 0;
  for (let i = 1; i < atM.length; i++) {
    const width = atM[i] - atM[i - 1];
    const a = Math.sqrt(areaM2[i - 1]);
    const b = Math.sqrt(areaM2[i]);
    sum += (width * (2 / 3) * (a * a + a * b + b * b)) / (a + b);
    squares += (width * (a * a + b * b)) / 2;
  }
  const length = lengthOf(profile);
  return Math.sqrt(Math.max(0, (squares * length) / (sum * sum) - 1)); // rounding may fall just below
}

/** A place of the fold and how even the roast then is. */
export interface FoldPoint {
  /** Where the tail is folded, as a share of the length. */
  readonly foldAt: number;
  /** Coefficient of variation of the diameter once folded, see {@link diameterVariation}. */
  readonly variation: number;
}

/**
 * A fold at a place.
 *
 * @example
 * foldPoint(CUTS.whole.profile, FOLD_AT).variation // => 0.105
 */
export const foldPoint = (profile: Profile, foldAt: number): FoldPoint => ({
  foldAt,
  variation: diameterVariation(foldTail(profile, foldAt).profile),
});

const FOLDS = { from: 0.55, step: 0.005, count: 81 } as const; // to 0.95: the range a shape accepts

/**
 * The fold after which the diameter varies least, to half a per cent of the length: finer than anybody folds. All places are
 * tried in turn, because the step where the tail's tip ends may leave more than one valley.
 *
 * @param profile - the cut as it lies, unfolded and untied
 * @example
 * bestFold(CUTS.whole.profile).foldAt // => 0.73
 */
export function bestFold(profile: Profile): FoldPoint {
  let best = foldPoint(profile, FOLDS.from);
  for (let i = 1; i < FOLDS.count; i++) {
    const point = foldPoint(profile, FOLDS.from + i * FOLDS.step);
    if (point.variation < best.variation) best = point;
  }
  return best;
}
