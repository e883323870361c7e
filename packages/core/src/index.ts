export * from './errors.js';
export * from './units/index.js';
export * from './numerics/index.js';
export * from './meat/index.js';
export * from './shape/index.js';
export * from './heat/index.js';
export * from './cook/index.js';
