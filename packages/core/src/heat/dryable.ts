import type { Meat } from '../meat/index.js';

/*
 * Water that can dry off beside what leaves as juice: three quarters of it to the side, and a quarter of what lies within one
 * radius of an end to that end face, so that no part of a roast loses more than it has. Reached only by thin tips in long cooks.
 */
export const SIDE_SHARE = 0.75;
export const END_SHARE = 0.25;

/** Water in raw meat that does not leave as juice [kg/m³]. */
export const dryableKgPerM3 = ({ waterFraction, holding, densityKgPerM3 }: Meat): number =>
  (waterFraction - holding.amplitude) * densityKgPerM3;
