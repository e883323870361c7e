import { areaAt, lengthOf, type Profile } from './profile.js';

/** A folded profile and where the roast lies doubled. */
export interface Folded {
  readonly profile: Profile;
  /** The folded-under part lies along the roast from here to its end [m]. */
  readonly doubledFromM: number;
}

const HAIR = 1e-12; // share of the length below which two knots are one

/**
 * Folds the thin end under: what lies beyond `fraction` of the length is laid back along the roast, and the areas add. Volume
 * is kept to rounding, because a sum of piecewise linear areas is piecewise linear between the union of their knots; the blunt
 * tip makes a step where it ends.
 *
 * @param fraction - where to fold, as a share of the length; above 0.5 and below 1
 */
export function foldTail(profile: Profile, fraction: number): Folded {
  const length = lengthOf(profile);
  const foldM = fraction * length;
  const doubledFromM = 2 * foldM - length;
  const knots = Array.from(profile.atM, (at) => (at <= foldM ? at : 2 * foldM - at));
  knots.push(foldM);
  const single: number[] = [0];
  const doubled: number[] = [doubledFromM];
  for (const at of knots.sort((a, b) => a - b)) {
    if (at < doubledFromM) {
      if (at > single[single.length - 1] + HAIR * length) single.push(at);
    } else if (at > doubled[doubled.length - 1] + HAIR * length) doubled.push(at);
  }
  doubled[doubled.length - 1] = foldM;
  return {
    profile: {
      atM: Float64Array.from([...single, doubledFromM, ...doubled]),
      areaM2: Float64Array.from([
        ...single.map((at) => areaAt(profile, at)),
        areaAt(profile, doubledFromM),
        ...doubled.map((at) => areaAt(profile, at) + areaAt(profile, 2 * foldM - at)),
      ]),
    },
    doubledFromM,
  };
}
