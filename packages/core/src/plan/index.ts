export { type Aim, type AimAt, type AimRequest, settleAim } from './aim.js';
export { compareSeatings } from './bestPull.js';
export { commonWays } from './commonWays.js';
export {
  type ComparedWay,
  type CompareRequest,
  type CookedWay,
  type CookWay,
  compareWays,
  type WayFigures,
  type WayPiece,
  type WaySafety,
  type WinningWays,
  winningWays,
} from './compareWays.js';
export { cookedRequest } from './cookedRequest.js';
export { cutsForGuests } from './cutsForGuests.js';
export type { PanFinish, Piece, Remedy } from './guestRemedies.js';
export { type GuestOption, type GuestRequest, SCAN } from './guestTable.js';
export {
  CARVE_MINUTES_PER_SLICE,
  type Carving,
  carvedAtMinutes,
  FREEDOMS,
  type Freedom,
  type Way,
} from './guestWays.js';
export { HANDS_ON_MINUTES, handsOnMinutes } from './handsOn.js';
export { peakOver } from './peakOver.js';
export type {
  Checkpoint,
  OwnPlanRequest,
  Peak,
  Plan,
  PlanRequest,
  Pull,
  PullRequest,
  PutBack,
} from './plan.js';
export { planCook, planWithoutPutBack } from './planCook.js';
export {
  chooseForGuests,
  type GuestChoice,
  type GuestPlan,
  planForGuests,
  seatAtPlan,
} from './planForGuests.js';
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
