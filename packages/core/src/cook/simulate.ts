import type { History } from './history.js';
import type { Roast } from './roast.js';
import { type CookOptions, CookRun } from './run.js';
import type { Stage } from './stages.js';

/**
 * Cooks a roast through a list of stages.
 *
 * @throws RoastError `unreachable` when a stage's temperature is never reached, `out-of-range` for impossible options or a place
 *   beyond the roast, `unknown-name` for a kind of stage that there is not
 * @example
 * const cook = simulate(tenderloin({ massKg: 2.2 }), [
 *   temper({ minutes: 30 }),
 *   roastIn({ ovenC: 230, until: centreReaches(49) }),
 *   rest({ minutes: 20 }),
 * ])
 */
export function simulate(
  roast: Roast,
  stages: readonly Stage[],
  options: CookOptions = {},
): History {
  const run = new CookRun(roast, options);
  for (const stage of stages) run.run(stage);
  return run.history();
}
