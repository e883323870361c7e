export { bracketedRoot, type Root } from './bracketedRoot.js';
export { normalDeviate, normalShare } from './normal.js';
export { quantileOf } from './quantile.js';
export { mixBits, SOBOL_DIMENSIONS, SobolPoints } from './sobol.js';
export { UniformTable } from './uniformTable.js';
