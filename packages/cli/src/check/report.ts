import { page } from './markdown.js';
import type { Section } from './row.js';
import { carryoverSection } from './sections/carryover.js';
import { chartSection } from './sections/charts.js';
import { exactSection } from './sections/exact.js';
import { handbookSection } from './sections/handbook.js';
import { holdOutSection } from './sections/holdOuts.js';
import { lethalitySection } from './sections/lethality.js';
import { lineSection } from './sections/lines.js';
import { lossSection } from './sections/losses.js';
import { ovenSection } from './sections/ovens.js';
import { planSection } from './sections/plans.js';
import { propertySection } from './sections/properties.js';
import { readingPage } from './sections/reading.js';
import { weakestPage } from './sections/weakest.js';

/** All groups of rows, in the order of the page. */
export const SECTIONS: readonly Section[] = [
  chartSection,
  lossSection,
  holdOutSection,
  carryoverSection,
  ovenSection,
  exactSection,
  lineSection,
  handbookSection,
  planSection,
  propertySection,
  lethalitySection,
];

/** The validation page, computed anew: the library beside everything published that it can be held against. */
export const validationReport = (): string =>
  `${page(readingPage(SECTIONS), ...SECTIONS.map((section) => section.page()), weakestPage())}\n`;
