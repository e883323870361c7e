import { isHeat } from '../cook/index.js';
import { RoastError } from '../errors.js';
import type { Plan, PlanRequest } from './plan.js';

/**
 * The stages a plan was made of, told apart again at its pull: for a forecast of a plan whose request was found by a search.
 *
 * @throws RoastError `contradiction` when the plan heats in surroundings of a caller's own, which no forecast knows
 * @example
 * cookedRequest(plan).heat.kind // => 'roast'
 */
export function cookedRequest({ history, pull }: Plan): PlanRequest {
  const stages = history.stages.map(({ stage }) => stage);
  const index = history.stages.findIndex(({ lastRow }) => lastRow === pull.row);
  const heat = stages[index];
  if (heat === undefined || !isHeat(heat)) {
    throw new RoastError('the plan heats in surroundings of its own, of which nothing is known', {
      code: 'contradiction',
      path: ['heat'],
      found: heat?.kind,
      accepted: 'an oven or a bath',
    });
  }
  return { before: stages.slice(0, index), heat, after: stages.slice(index + 1) };
}
