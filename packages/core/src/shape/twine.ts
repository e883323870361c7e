import { diameterAt, lengthOf, type Profile } from './profile.js';

/** How a roast is tied. */
export interface Twine {
  /** Places of the ties [mm from the first end]. */
  readonly atMm: readonly number[];
  /** Distance between neighbours [mm]. */
  readonly spacingMm: number;
  /** Twine for all of them, knots included [mm]. */
  readonly lengthMm: number;
}

const SPACING_MM = 40; // common practice, no source: three to five centimetres
/** Twine held and knotted at each tie [mm]. Common practice, no source. */
export const KNOT_MM = 250;

/**
 * Separate ties at even distances, half a distance from both ends; at least two. Girths are taken as circles.
 *
 * @example
 * const { atMm, lengthMm } = twineFor(roast.profile)
 * lengthText(lengthMm, 'metric') // => '615 cm'
 */
export function twineFor(profile: Profile): Twine {
  const lengthMm = 1000 * lengthOf(profile);
  const count = Math.max(2, Math.round(lengthMm / SPACING_MM));
  const spacingMm = lengthMm / count;
  const atMm = Array.from({ length: count }, (_, i) => (i + 0.5) * spacingMm);
  const girths = atMm.map((at) => Math.PI * 1000 * diameterAt(profile, at / 1000));
  return {
    atMm,
    spacingMm,
    lengthMm: girths.reduce((sum, girth) => sum + girth + KNOT_MM, 0),
  };
}
