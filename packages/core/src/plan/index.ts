export { type Aim, type AimAt, type AimRequest, settleAim } from './aim.js';
export type { Checkpoint, Peak, Plan, PlanRequest, Pull, PullRequest, PutBack } from './plan.js';
export { planCook } from './planCook.js';
export { type PullGoal, searchPull } from './pullSearch.js';
export {
  aimedSlice,
  offerQuicker,
  type QuickerOffer,
  type QuickerOptions,
  type QuickerPlan,
  type QuickerWay,
  quickerPlans,
} from './quicker.js';
export {
  bathLeadMinutes,
  CARVING_MINUTES,
  ovenLeadMinutes,
  PAN_LEAD_MINUTES,
  type Step,
  type StepKind,
  servingMinutes,
  stepsOf,
} from './steps.js';
export { type TimedStep, type Timetable, timetable } from './timetable.js';
export type { Tolerance } from './tolerances.js';
