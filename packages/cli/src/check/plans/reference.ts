import plans from '../../../../../data/reference/plans.json' with { type: 'json' };
import type { PlanReference } from './makeReference.js';

/** The references by their id. */
export const PLAN_REFERENCES: Readonly<Record<string, PlanReference>> = Object.fromEntries(
  plans.plans.map((one) => [one.id, one]),
);
