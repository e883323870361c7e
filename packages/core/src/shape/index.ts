export { bestFold, diameterVariation, type FoldPoint, foldPoint } from './bestFold.js';
export { diameterFromGirth, lineRadius } from './crossSection.js';
export { CUTS, type CutShape, type TenderloinCut } from './cuts.js';
export { type Folded, foldTail } from './fold.js';
export { ownShape } from './ownShape.js';
export {
  areaAt,
  diameterAt,
  greatestDiameter,
  lengthOf,
  mirrored,
  type Profile,
  positionOfShare,
  profileBetween,
  profileFromDiameters,
  scaled,
  volumeBetween,
  volumeOf,
} from './profile.js';
export { LENGTH_MM, MASS_KG } from './ranges.js';
export {
  FOLD_AT,
  type Measure,
  type RoastShape,
  roastShape,
  type ShapeRequest,
} from './roastShape.js';
export { TIED_ASPECT, tied } from './tie.js';
export { KNOT_MM, type Twine, twineFor } from './twine.js';
