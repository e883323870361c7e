export { bracketedRoot, type Root } from './bracketedRoot.js';
export { UniformTable } from './uniformTable.js';
