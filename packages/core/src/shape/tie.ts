import { lengthOf, type Profile, volumeOf, withVolume } from './profile.js';

/** Height over width of a tied roast's cross-section. Engineering judgement. */
export const TIED_ASPECT = 0.85;

const TOWARDS_MEAN = 0.6; // how far twine pulls diameters to their mean; engineering judgement

/**
 * Ties a roast: every diameter moves part of the way to the root-mean-square diameter; volume and length stay.
 */
export function tied(profile: Profile): Profile {
  const volume = volumeOf(profile);
  const meanArea = volume / lengthOf(profile);
  const evened: Profile = {
    atM: profile.atM,
    areaM2: profile.areaM2.map(
      (area) => (TOWARDS_MEAN * Math.sqrt(meanArea) + (1 - TOWARDS_MEAN) * Math.sqrt(area)) ** 2,
    ),
  };
  return withVolume(evened, volume);
}
