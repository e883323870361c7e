export { type Aim, type AimAt, type AimRequest, settleAim } from './aim.js';
export {
  type Checkpoint,
  type Peak,
  type Plan,
  type PlanRequest,
  type Pull,
  type PullRequest,
  planCook,
} from './planCook.js';
export { type PullGoal, searchPull } from './pullSearch.js';
export type { PutBack } from './putBack.js';
