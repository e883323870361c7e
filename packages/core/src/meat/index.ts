export {
  ASH,
  type Component,
  evaluate,
  FAT,
  PROTEIN,
  type Quadratic,
  VALID_C,
  WATER,
} from './choiOkos.js';
export {
  COMPOSITIONS,
  type Composition,
  type CompositionName,
  type CompositionPreset,
  checkComposition,
} from './composition.js';
export {
  changedMeat,
  conductivity,
  constantSolid,
  heatCapacity,
  heatContent,
  type Meat,
  type MeatChange,
  type MeatOptions,
  meatOf,
  ROW,
} from './meat.js';
export { heldWater, TENDERLOIN_WATER_HOLDING, type WaterHolding } from './waterHolding.js';
