import { RoastError } from '../errors.js';
import { greatestDiameter, lengthOf, type Profile, volumeOf, withVolume } from './profile.js';
import { checkRange, DIAMETER_MM, LENGTH_MM, MASS_KG } from './ranges.js';
import type { RoastShape } from './roastShape.js';

const THINNEST_MM = 5; // at any knot: below, a line has no middle worth a number
const ASPECT = [0.5, 1] as const; // where the round line stands for an ellipse

const broken = (sentence: string, field: string, found: unknown, accepted: string): RoastError =>
  new RoastError(sentence, { code: 'contradiction', path: ['profile', field], found, accepted });

function checkProfile({ atM, areaM2 }: Profile): void {
  if (atM.length !== areaM2.length || atM.length < 2) {
    throw broken(
      `the profile has ${atM.length} places and ${areaM2.length} areas`,
      'areaM2',
      areaM2.length,
      'an area for each of two places or more',
    );
  }
  if (atM[0] !== 0) {
    throw broken(`the profile begins at ${atM[0]} m`, 'atM', atM[0], 'a first place of 0');
  }
  for (let i = 0; i < atM.length; i++) {
    checkRange(1000 * atM[i], [0, LENGTH_MM[1]], 'profile', 'a place of the profile', 'mm');
    if (i > 0 && atM[i] < atM[i - 1]) {
      throw broken(
        'the places of the profile go back',
        'atM',
        atM[i],
        'places that never decrease',
      );
    }
    const acrossMm = 1000 * Math.sqrt((4 / Math.PI) * areaM2[i]);
    checkRange(
      acrossMm,
      [THINNEST_MM, DIAMETER_MM[1]],
      'profile',
      'a diameter of the profile',
      'mm',
    );
  }
}

/**
 * A shape from a caller's own profile. With a weight its diameters are scaled to it, at the length given; without one the volume
 * makes the weight.
 *
 * @throws RoastError `not-a-number`, `out-of-range` or `contradiction` (places that go back, arrays of two lengths)
 */
export function ownShape(
  profile: Profile,
  aspect: number,
  densityKgPerM3: number,
  massKg: number | undefined,
): RoastShape {
  checkProfile(profile);
  checkRange(aspect, ASPECT, 'aspect', 'height over width', '');
  if (massKg !== undefined) checkRange(massKg, MASS_KG, 'massKg', 'the weight', 'kg');
  const shape = massKg === undefined ? profile : withVolume(profile, massKg / densityKgPerM3);
  checkRange(1000 * lengthOf(shape), LENGTH_MM, 'profile', 'the length', 'mm');
  checkRange(1000 * greatestDiameter(shape), DIAMETER_MM, 'profile', 'the thickest diameter', 'mm');
  const kg = massKg ?? densityKgPerM3 * volumeOf(shape);
  checkRange(kg, MASS_KG, 'profile', 'the weight by the profile', 'kg');
  return { profile: shape, massKg: kg, aspect };
}
