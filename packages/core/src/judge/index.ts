export { decimalReductionMinutes, LETHALITY, leastLogReduction } from './lethality.js';
export { judgeSafety, SAFETY_LIMITS, type Safety, type SafetyContext } from './safety.js';
export {
  type Band,
  bandIndex,
  bandNamed,
  bandOf,
  donenessScale,
  doneThroughC,
  SCALES,
  type Scale,
  type ScaleName,
  TARGET_C,
  upperEdge,
} from './scales.js';
export { type Place, type Seating, seatGuests } from './seating.js';
export {
  type CookingLoss,
  type Cut,
  cookingLoss,
  cutsOf,
  hottestProfile,
  judgeSlices,
  PORTION_KG,
  PORTION_RANGE_KG,
  type Slice,
  shareWithin,
  sliceRoast,
} from './slices.js';
export { type Warning, type WarningCode, warningsOf } from './warnings.js';
export { EXACT_WISH_K, misfitOf, type SettledWish, settleWishes, type Wish } from './wishes.js';
export {
  type Caution,
  CUT_NAMES,
  cautions,
  cuttingCautions,
  sayBath,
  sayWarning,
} from './wording.js';
