export type { Advice, Share } from './advice.js';
export {
  type Ensemble,
  type EnsembleChunk,
  type EnsembleOptions,
  type EnsembleSetup,
  ensemble,
  ensembleChunk,
  type Interval,
  mergeChunks,
  prepareEnsemble,
  type SliceSpread,
  type Spread,
} from './ensemble.js';
export {
  type Belief,
  type BetterPull,
  type Estimate,
  type FitOptions,
  fitLog,
  type LogFit,
} from './fitLog.js';
export {
  type Deviations,
  deviationOf,
  deviationsOf,
  INPUTS,
  type InputName,
  NO_DEVIATION,
  type Prior,
  type PriorChanges,
  type Priors,
  priorsFor,
  sizeKnownBy,
  upright,
} from './priors.js';
export { type LiveEstimate, ProbeTracker } from './probeTracker.js';
export { type QuickInterval, quickInterval } from './quickInterval.js';
export type { Reading } from './readings.js';
export type { Coarseness } from './standIn.js';
export { varied } from './vary.js';
