export {
  type BandWish,
  type Candidate,
  type Cost,
  type Evenness,
  ORDER_CUTS,
  type OrderCut,
  type Prices,
  shapeOf,
} from './candidate.js';
export { COUNTER_STEP_KG, piecesFor, portionsIn } from './counter.js';
export { CHILD_APPETITE, type Eaters, type Need, needOf } from './need.js';
export { type Order, type OrderRequest, planOrder } from './planOrder.js';
export { ORDER_OVEN_C, QUICK_MESH, quickCook, USUAL_COOK } from './quickCook.js';
export { type Recommendation, type RecommendationCode, recommend } from './recommend.js';
export { CUT_SHARE, cutFromStock, fromStock } from './stock.js';
export {
  TRIM_PARTS,
  TRIM_SHARES,
  type Trimmed,
  type Trimming,
  type TrimPart,
  type TrimRule,
  type TrimShare,
  type Trims,
  trim,
  trimRule,
} from './trim.js';
export {
  type Fold,
  PRACTICE_FOLD_AT,
  type Readied,
  type ReadiedPiece,
  type TyingReport,
  tyingReport,
} from './tying.js';
export {
  askText,
  counterText,
  ORDER_CUT_NAMES,
  piecesText,
  sayChildren,
  sayRecommendation,
  TRIM_NAMES,
} from './wording.js';
