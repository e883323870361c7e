import type { BandWish, Candidate, OrderCut } from './candidate.js';

/** What speaks for a candidate. */
export type RecommendationCode =
  /** Of all it meets most wishes of guests who want different things. */
  | 'meets-wishes'
  /** Its slices lie nearest to what is aimed at. */
  | 'nearest'
  /** About as near as the nearest, and it costs least. */
  | 'cheapest-as-near'
  /** About as near as the nearest, and it is fewer pieces or less work. */
  | 'simplest-as-near'
  /** Of what the shop has nothing else is enough, or it is far too much. */
  | 'only-fit';

/** The candidate to take and why. */
export interface Recommendation {
  readonly cut: OrderCut;
  readonly code: RecommendationCode;
  /** The cheapest other one that fits, where it costs less, and how much it saves. */
  readonly cheaper?: { readonly cut: OrderCut; readonly saves: number };
}

const AS_NEAR_K = 1; // two ways whose slices miss the aim by so nearly the same are as near to it; judgement
/** Trimmed weight beyond the need, over the need, up to which a candidate is thought of: more is another dinner. Judgement. */
export const MOST_SURPLUS = 0.5;

/** Trimmed weight beyond the need, over the need. */
export const surplusShare = ({ surplusKg, trimmedKg }: Candidate): number =>
  surplusKg / (trimmedKg - surplusKg);

/** Those that meet the condition, or all when none does. */
function preferring(
  candidates: readonly Candidate[],
  fits: (candidate: Candidate) => boolean,
): readonly Candidate[] {
  const fitting = candidates.filter(fits);
  return fitting.length > 0 ? fitting : candidates;
}

/** Fewer pieces first, then no work at home, then less beyond the need. */
const simpler = (a: Candidate, b: Candidate): number =>
  a.piecesKg.length - b.piecesKg.length ||
  a.comesOff.length - b.comesOff.length ||
  a.surplusKg - b.surplusKg;

const totalOf = ({ cost }: Candidate): number => cost?.total ?? Number.POSITIVE_INFINITY;

function least(candidates: readonly Candidate[], by: (a: Candidate, b: Candidate) => number) {
  return candidates.reduce((best, each) => (by(each, best) < 0 ? each : best));
}

/**
 * Picks a candidate: from the stock where that has enough, without a second dinner left over; for guests who want different
 * things the one that meets most wishes, for all others the one whose slices come out nearest to it; among equals the cheapest where all have prices, else the
 * simplest.
 *
 * @param candidates - at least one
 */
export function recommend(
  candidates: readonly Candidate[],
  wishes: readonly BandWish[],
): Recommendation {
  const fit = preferring(
    preferring(candidates, ({ inStock }) => inStock !== false),
    (each) => surplusShare(each) <= MOST_SURPLUS,
  );
  const mixed = wishes.length > 1;
  const first = mixed
    ? least(fit, (a, b) => b.evenness.wishesMet - a.evenness.wishesMet)
    : least(fit, (a, b) => a.evenness.missK - b.evenness.missK);
  const equals = fit.filter(({ evenness }) =>
    mixed
      ? evenness.wishesMet === first.evenness.wishesMet
      : evenness.missK <= first.evenness.missK + AS_NEAR_K,
  );
  const priced = equals.every(({ cost }) => cost !== undefined);
  const best = least(equals, (a, b) => (priced ? totalOf(a) - totalOf(b) : 0) || simpler(a, b));
  const cheapest = least(fit, (a, b) => totalOf(a) - totalOf(b));
  const saves = totalOf(best) - totalOf(cheapest);
  return {
    cut: best.cut,
    code:
      fit.length === 1 && best.inStock === true
        ? 'only-fit'
        : mixed
          ? 'meets-wishes'
          : best === first
            ? 'nearest'
            : priced
              ? 'cheapest-as-near'
              : 'simplest-as-near',
    ...(best.cost !== undefined && saves > 0 ? { cheaper: { cut: cheapest.cut, saves } } : {}),
  };
}
