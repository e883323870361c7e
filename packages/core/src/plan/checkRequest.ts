import { checkEnding, checkStage, type Roast } from '../cook/index.js';
import { RoastError } from '../errors.js';
import { checkList, checkName, checkObject } from '../units/index.js';
import type { OwnPlanRequest } from './plan.js';

const HEATS = ['roast', 'bath', 'surroundings'] as const;

/**
 * What a plan needs before anything is cooked: stages before and after, and one that heats between.
 *
 * @throws RoastError with the path in the request: `['before', 0, 'until', 'at', 'atMm']`
 */
export function checkRequest(request: OwnPlanRequest, roast: Roast): void {
  checkObject(request, ['request'], 'the request', '{ before, heat, after }');
  const { before, heat, after, pull } = request;
  checkList(
    before,
    ['before'],
    'the stages before the heat',
    'a list of stages, empty if there are none',
  );
  checkObject(heat, ['heat'], 'the heat', 'a stage in an oven or a bath');
  checkName(heat.kind, HEATS, ['heat', 'kind'], 'the heat');
  checkList(
    after,
    ['after'],
    'the stages after the heat',
    'a list of stages, empty if there are none',
  );
  before.forEach((stage, i) => {
    under(['before', i], () => checkStage(stage, roast));
  });
  under(['heat'], () => checkStage(heat, roast));
  after.forEach((stage, i) => {
    under(['after', i], () => checkStage(stage, roast));
  });
  if (pull === undefined) return;
  checkObject(pull, ['pull'], 'the pull', '{ centreC }, { minutes } or { reachesC, at }');
  if (!('centreC' in pull) && !('minutes' in pull)) checkEnding(pull, roast, ['pull']);
}

/** Puts the place of what is checked before the path of an error. */
function under(path: readonly (string | number)[], check: () => void): void {
  try {
    check();
  } catch (error) {
    if (!(error instanceof RoastError)) throw error;
    const { code, found, accepted, hint } = error;
    const sentence = hint === undefined ? error.message : error.message.replace(` (${hint})`, '');
    throw new RoastError(sentence, {
      code,
      path: [...path, ...error.path],
      found,
      accepted,
      ...(hint === undefined ? {} : { hint }),
    });
  }
}
