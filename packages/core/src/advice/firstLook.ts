import { axisAt } from '../cook/index.js';
import type { QuickInterval } from '../forecast/index.js';
import type { Plan } from '../plan/index.js';

/**
 * A plan whose first look at the thermometer is not later than the earliest likely pull: a look that comes after the roast is
 * ready is none. A look that is early enough stays where it is, and says how long it can wait.
 *
 * @param interval - minutes from the beginning of the first oven or bath stage, as `quickInterval` gives them
 * @example
 * withEarlierLook(plan, { lowMinutes: 10 }).firstLook.atMinutes // => 40
 */
export function withEarlierLook(plan: Plan, interval: Pick<QuickInterval, 'lowMinutes'>): Plan {
  const { pull, firstLook, history, aim } = plan;
  const heatStart = pull.atMinutes - pull.heatMinutes;
  const earliest = pull.atMinutes - pull.minutes + interval.lowMinutes;
  const atMinutes = Math.max(heatStart, Math.min(firstLook.atMinutes, earliest));
  const spareMinutes = Math.max(0, earliest - atMinutes);
  if (!(atMinutes < firstLook.atMinutes)) {
    return { ...plan, firstLook: { ...firstLook, spareMinutes } };
  }
  const { seconds, rows } = history;
  let row = 1;
  while (row < rows - 1 && seconds[row] < 60 * atMinutes) row++;
  const span = seconds[row] - seconds[row - 1];
  const part = span > 0 ? (60 * atMinutes - seconds[row - 1]) / span : 1;
  const before = axisAt(history, aim.point, row - 1);
  return {
    ...plan,
    firstLook: {
      atMinutes,
      centreC: before + part * (axisAt(history, aim.point, row) - before),
      spareMinutes,
    },
  };
}
