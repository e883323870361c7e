import { type Roast, tenderloin } from '../cook/index.js';
import type { PlanRequest } from '../plan/index.js';
import {
  bestFold,
  CUTS,
  diameterVariation,
  FOLD_AT,
  type FoldPoint,
  foldPoint,
  lengthOf,
  type TenderloinCut,
  type Twine,
  twineFor,
} from '../shape/index.js';
import { quickCook } from './quickCook.js';

/** Where cooks fold a tail: where it narrows, about nine tenths along. Common practice, no source. */
export const PRACTICE_FOLD_AT = 0.9;

/** How a piece is made ready. */
export type Readied = 'as-cut' | 'tied' | 'folded' | 'folded-tied';

/** A piece made ready in one way: its shape and what becomes of it. */
export interface ReadiedPiece {
  readonly how: Readied;
  /** Coefficient of variation of the diameter along the length. */
  readonly variation: number;
  /** Height over width of the cross-section: 1 is round. */
  readonly aspect: number;
  /** In the oven. */
  readonly ovenMinutes: number;
  /** Hottest less coolest peak of a slice's middle [K]. */
  readonly spreadK: number;
}

/** Places to fold the tail of a whole tenderloin. */
export interface Fold {
  /** Length as it lies, unfolded [mm]. */
  readonly flatLengthMm: number;
  /** Where this program folds. */
  readonly usual: FoldPoint;
  /** Where the diameter comes out most even. */
  readonly best: FoldPoint;
  /** Where cooks fold. */
  readonly practice: FoldPoint;
}

/** How to fold and tie a piece, and what it is good for. */
export interface TyingReport {
  readonly cut: TenderloinCut;
  readonly massKg: number;
  /** Only for a whole tenderloin: nothing else has a tail to fold. */
  readonly fold?: Fold;
  /** Ties of the piece as it goes in, folded where it has a tail. */
  readonly twine: Twine;
  /** From as it was cut to as it goes in. */
  readonly ways: readonly ReadiedPiece[];
}

const WAYS: readonly { how: Readied; folded: boolean; tied: boolean }[] = [
  { how: 'as-cut', folded: false, tied: false },
  { how: 'tied', folded: false, tied: true },
  { how: 'folded', folded: true, tied: false },
  { how: 'folded-tied', folded: true, tied: true },
];

/**
 * How to fold and tie a piece: where the fold evens it most, twine and ties, and by quick simulations what folding and tying
 * change in the cook.
 *
 * @param massKg - trimmed raw weight [kg]
 * @throws RoastError as `tenderloin` and `planCook`
 * @example
 * const { fold, ways } = tyingReport('whole', 2.2, USUAL_COOK)
 * ways.map(({ how }) => how) // => ['as-cut', 'tied', 'folded', 'folded-tied']
 */
export function tyingReport(cut: TenderloinCut, massKg: number, cook: PlanRequest): TyingReport {
  const hasTail = cut === 'whole';
  const ready = (folded: boolean, tied: boolean): Roast =>
    tenderloin({ cut, massKg, folded, tied });
  const flat = CUTS[cut].profile;
  return {
    cut,
    massKg,
    ...(hasTail
      ? {
          fold: {
            flatLengthMm: 1000 * lengthOf(ready(false, false).profile),
            usual: foldPoint(flat, FOLD_AT),
            best: bestFold(flat),
            practice: foldPoint(flat, PRACTICE_FOLD_AT),
          },
        }
      : {}),
    twine: twineFor(ready(hasTail, true).profile),
    ways: WAYS.filter(({ folded }) => hasTail || !folded).map(({ how, folded, tied }) => {
      const { profile, aspect } = ready(folded, tied);
      const { pull, slices } = quickCook({ cut, massKg, folded, tied }, cook);
      const peaks = slices.map(({ peakCentreC }) => peakCentreC);
      return {
        how,
        variation: diameterVariation(profile),
        aspect,
        ovenMinutes: pull.minutes,
        spreadK: Math.max(...peaks) - Math.min(...peaks),
      };
    }),
  };
}
