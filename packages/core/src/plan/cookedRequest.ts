import { isHeat } from '../cook/index.js';
import type { Plan, PlanRequest } from './plan.js';

/**
 * The stages a plan was made of, told apart again at its pull: for a forecast of a plan whose request was found by a search.
 *
 * @throws Error when the plan has no oven or bath stage: no plan lacks one
 */
export function cookedRequest({ history, pull }: Plan): PlanRequest {
  const stages = history.stages.map(({ stage }) => stage);
  const index = history.stages.findIndex(({ lastRow }) => lastRow === pull.row);
  const heat = stages[index];
  if (heat === undefined || !isHeat(heat)) throw new Error('the plan has no stage that is pulled');
  return { before: stages.slice(0, index), heat, after: stages.slice(index + 1) };
}
