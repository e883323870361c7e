import { type CookOptions, CookRun, type Point, type Roast } from '../cook/index.js';
import { bracketedRoot } from '../numerics/index.js';
import type { Plan, PlanRequest } from './planCook.js';

/** How long a roast that fell behind goes back into the oven. */
export interface PutBack {
  /** So much below what the thermometer should show 10 minutes after the pull [K]... */
  readonly behindK: number;
  /** ...takes so many more minutes in the same oven. */
  readonly minutes: number;
}

const BEHIND_K = 3; // more than a probe's error, less than a band
const COARSE = { stations: 10, shells: 16 } as const; // differences only: a tenth of the work
const LONGEST_MINUTES = 20;
const LEAST_SLOPE = 0.3; // K of peak per minute of oven; below, a low oven answers too slowly to be worth a rule

/**
 * Simulates a roast that was pulled too early: by so much that the thermometer is {@link BEHIND_K} behind ten minutes later; then
 * finds how long it must go back for its peak to come out as planned. On a coarse mesh against itself.
 */
export function putBack(
  roast: Roast,
  request: PlanRequest,
  plan: Plan,
  peakKPerMinute: number,
  options: CookOptions,
): PutBack {
  const slope = Math.max(peakKPerMinute, LEAST_SLOPE);
  const run = new CookRun(roast, { ...options, ...COARSE, fields: false });
  for (const stage of request.before) run.run(stage);
  const heatStart = run.save();
  const ovenMinutes = plan.pull.minutes - heatOffset(plan);
  const pullAt = (minutes: number): void => {
    run.restore(heatStart);
    run.run({ ...request.heat, until: { minutes: Math.max(0, minutes) } });
  };
  const point: Point =
    plan.aim.point.atMm === 'coldest' ? run.fixed(plan.aim.point) : plan.aim.point;

  pullAt(ovenMinutes);
  const wishedC = peakOver(run, request, point);
  pullAt(ovenMinutes - BEHIND_K / slope);
  const [first] = request.after;
  run.run({ ...first, until: { minutes: 10 } } as typeof first);
  const waiting = run.save();
  const missing = (minutes: number): number => {
    run.restore(waiting);
    if (minutes > 0) run.run({ ...request.heat, until: { minutes } });
    return peakOver(run, request, point) - wishedC;
  };
  const low = missing(0);
  const high = missing(LONGEST_MINUTES);
  if (low >= 0) return { behindK: BEHIND_K, minutes: 0 };
  if (high <= 0) return { behindK: BEHIND_K, minutes: LONGEST_MINUTES };
  const root = bracketedRoot(missing, 0, low, LONGEST_MINUTES, high, 0.1, 8);
  return { behindK: BEHIND_K, minutes: root.x };
}

/** Minutes between the first heat stage and the last one. */
const heatOffset = (plan: Plan): number => {
  const { stages } = plan.history;
  const heats = stages.filter(({ stage }) => stage.kind === 'roast' || stage.kind === 'bath');
  return (heats[heats.length - 1].startS - heats[0].startS) / 60;
};

function peakOver(run: CookRun, request: PlanRequest, point: Point): number {
  let peakC = run.temperatureOf(point);
  for (const stage of request.after) {
    run.run(stage, {
      onStep: () => {
        const nowC = run.temperatureOf(point);
        if (nowC > peakC) peakC = nowC;
        return stage.kind === 'rest' && nowC < peakC - 0.05;
      },
    });
  }
  return peakC;
}
