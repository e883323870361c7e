export { checkDocument } from './checkDocument.js';
export { checkText } from './checkText.js';
export { SECTIONS, validationReport } from './report.js';
export { mustFail } from './row.js';
