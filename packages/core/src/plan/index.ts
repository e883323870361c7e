export { type Aim, type AimAt, type AimRequest, settleAim } from './aim.js';
export type { Checkpoint, Peak, Plan, PlanRequest, Pull, PullRequest, PutBack } from './plan.js';
export { planCook } from './planCook.js';
export { type PullGoal, searchPull } from './pullSearch.js';
