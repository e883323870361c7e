import { PLAN_CASES } from './cases.js';
import { type Extrapolated, extrapolated } from './extrapolate.js';
import { PLAN_FIGURES, type PlanFigure } from './figures.js';
import { solvedFinely } from './solve.js';

/** A case as it stands in data/reference/plans.json. */
export interface PlanReference {
  readonly id: string;
  readonly words: string;
  readonly figures: Readonly<Record<PlanFigure, ReferenceFigure>>;
}

/** A reference with the three solutions it was extrapolated from, coarse to fine. */
export interface ReferenceFigure extends Extrapolated {
  readonly refined: readonly number[];
}

/** How often mesh and steps are refined for the three solutions. */
export const REFINED = [1, 2, 4] as const;

const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals));

/**
 * Computes the references; takes some minutes.
 *
 * @param tell - called after each case
 */
export function makeReference(tell: (id: string) => void): PlanReference[] {
  return PLAN_CASES.map((one) => {
    const [coarse, middle, fine] = REFINED.map((times) => solvedFinely(one, times));
    const figures = Object.fromEntries(
      PLAN_FIGURES.map((name) => {
        const { value, uncertainty } = extrapolated(coarse[name], middle[name], fine[name]);
        return [
          name,
          {
            value: rounded(value, 4),
            uncertainty: Math.ceil(1e4 * uncertainty) / 1e4,
            refined: [coarse[name], middle[name], fine[name]].map((each) => rounded(each, 4)),
          },
        ];
      }),
    ) as unknown as Record<PlanFigure, ReferenceFigure>;
    tell(one.id);
    return { id: one.id, words: one.words, figures };
  });
}
