export { checkCutOrder, LIMITS, PIECE_KG, STEAK_THICKNESS_MM } from './checkRequest.js';
export { cutTenderloins } from './cutTenderloins.js';
export {
  type CutPiece,
  type CuttingList,
  type Missing,
  type TenderloinUse,
  VALUE_GAP,
} from './cuttingList.js';
export { cuttingFaults } from './faults.js';
export {
  isSteak,
  type Muscle,
  muscleOf,
  PARTS,
  STEAK_NARROWEST_MM,
  STOCK_KG,
  widthAt,
} from './muscle.js';
export {
  CUT_KINDS,
  type CutKind,
  type CutOrder,
  type CuttingRequest,
  KIND_PRICES,
  type KindPrices,
  TOLERANCE,
} from './order.js';
export { LEAST_TO_SELL_KG, OPENING_KG, type Part, UNORDERED } from './programme.js';
export type { Solve, Solved, SolveOptions } from './solve.js';
