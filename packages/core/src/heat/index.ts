export { type Body, lineVolume, singleLine } from './body.js';
export {
  GRADING,
  type RadialMesh,
  radialMesh,
  type ShapeExponent,
  valueAtRadius,
} from './mesh.js';
export { airFilmToVapour, latentHeat, saturation } from './moistAir.js';
export {
  cloneState,
  copyState,
  type HeatLedger,
  type HeatState,
  ledgerOf,
  uniformState,
} from './state.js';
export { type Exposure, Stepper } from './stepper.js';
export { BEEF_CRUST, type Crust, SurfaceLaw } from './surfaceLaw.js';
export {
  humidityOf,
  inAir,
  type Surroundings,
  unsaidSurroundings,
  vapourPressureOf,
} from './surroundings.js';
export { STAGE_ONE } from './twoStages.js';
