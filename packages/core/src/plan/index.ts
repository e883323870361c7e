export { type Aim, type AimAt, type AimRequest, settleAim } from './aim.js';
export { compareSeatings } from './bestPull.js';
export { cookedRequest } from './cookedRequest.js';
export type { PanFinish, Piece, Remedy } from './guestRemedies.js';
export { cutsForGuests, type GuestOption, type GuestRequest, SCAN } from './guestTable.js';
export {
  CARVE_MINUTES_PER_SLICE,
  type Carving,
  carvedAtMinutes,
  FREEDOMS,
  type Freedom,
  type Way,
} from './guestWays.js';
export type { Checkpoint, Peak, Plan, PlanRequest, Pull, PullRequest, PutBack } from './plan.js';
export { planCook } from './planCook.js';
export { type GuestPlan, planForGuests, seatAtPlan } from './planForGuests.js';
export { type PullGoal, searchPull } from './pullSearch.js';
