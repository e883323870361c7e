import { page } from './markdown.js';
import { carryoverSection } from './sections/carryover.js';
import { chartSection } from './sections/charts.js';
import { exactSection } from './sections/exact.js';
import { holdOutSection } from './sections/holdOuts.js';
import { lethalitySection } from './sections/lethality.js';
import { lossSection } from './sections/losses.js';
import { meshSection } from './sections/mesh.js';
import { ovenSection } from './sections/ovens.js';
import { propertySection } from './sections/properties.js';
import { readingSection } from './sections/reading.js';
import { weakestSection } from './sections/weakest.js';

/** The validation page, computed anew: the library beside everything published that it can be held against. */
export const validationReport = (): string =>
  `${page(
    readingSection(),
    chartSection(),
    lossSection(),
    holdOutSection(),
    carryoverSection(),
    ovenSection(),
    exactSection(),
    propertySection(),
    lethalitySection(),
    meshSection(),
    weakestSection(),
  )}\n`;
