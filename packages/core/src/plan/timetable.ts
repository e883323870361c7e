import type { CookOptions } from '../cook/index.js';
import type { Plan } from './plan.js';
import { type Step, servingMinutes, stepsOf } from './steps.js';
import { type Tolerance, tolerancesOf } from './tolerances.js';

/** A step seen from the table. */
export interface TimedStep extends Step, Tolerance {
  /** Minutes until the plates go out; 0 for serving itself. */
  readonly beforeServingMinutes: number;
}

/** What to do when, back from serving. */
export interface Timetable {
  /** In order, from the first thing to switch on to serving. */
  readonly steps: readonly TimedStep[];
  /** From the first step to the plates [min]: so long before serving a cook must begin. */
  readonly lengthMinutes: number;
}

/**
 * The timetable of a plan, with how far each step may slip. Every step's moment follows from the plan alone; the slips come from a few
 * coarse simulations, a published limit, or judgement, and say which.
 *
 * @param options - as the plan was computed with; its mesh is replaced by a coarse one
 * @example
 * const { steps, lengthMinutes } = timetable(plan)
 */
export function timetable(plan: Plan, options: CookOptions = {}): Timetable {
  const steps = stepsOf(plan);
  const tolerances = tolerancesOf(plan, steps, options);
  const servedAt = servingMinutes(plan);
  return {
    steps: steps.map((step, i) => ({
      ...step,
      ...tolerances[i],
      beforeServingMinutes: servedAt - step.atMinutes,
    })),
    lengthMinutes: servedAt - steps[0].atMinutes,
  };
}
