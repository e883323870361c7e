export { checkEnding, checkPoint, checkStage } from './checkStage.js';
export {
  axisAt,
  type Between,
  coldestAxis,
  type History,
  type StageRecord,
  seriesAt,
  stationsAround,
} from './history.js';
export { HOUSEHOLD_OVEN, type OvenModel } from './oven.js';
export { type PanSlice, panSlicePeak } from './panSlice.js';
export { pieceOf } from './piece.js';
export type { RowBlock } from './recorder.js';
export {
  bodyOf,
  DEFAULT_SHELLS,
  DEFAULT_STATIONS,
  FRIDGE_C,
  linesOf,
  type ProfileOptions,
  type Resolution,
  type Roast,
  type RoastBody,
  type RoastOptions,
  roastOfProfile,
  roundRoast,
  type TenderloinOptions,
  tenderloin,
  thickened,
} from './roast.js';
export { type CookOptions, CookRun, type Snapshot, type Watch } from './run.js';
export { simulate } from './simulate.js';
export {
  ACCEPTED,
  type Bath,
  centreReaches,
  type Ending,
  inSurroundings,
  isHeat,
  type OvenRoast,
  type OvenSear,
  type OwnSurroundings,
  type PanSear,
  type Point,
  RESTING_ROOM_C,
  type Rest,
  ROOM_C,
  rest,
  roastIn,
  type Stage,
  searInOven,
  searInPan,
  type Temper,
  temper,
  type Until,
  waterBath,
} from './stages.js';
