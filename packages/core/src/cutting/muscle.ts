import {
  CUTS,
  diameterAt,
  FOLD_AT,
  greatestDiameter,
  lengthOf,
  type Profile,
  positionOfShare,
  roastShape,
  volumeBetween,
} from '../shape/index.js';

/** A trimmed tenderloin lying flat, butt end first. Along it, a place is a share of the length, a length [mm] or the mass before it [kg]. */
export interface Muscle {
  readonly massKg: number;
  readonly lengthMm: number;
  readonly thickestMm: number;
  readonly densityKgPerM3: number;
  readonly profile: Profile;
}

/**
 * Parts of the muscle, as shares of its length from the butt end. Where the trade draws them differs from shop to shop; these
 * follow the usual profile (`CUTS.whole`): it is thickest at 0.20, where the wing ends, and 0.80 of its greatest diameter at 0.60.
 * Common practice, no source, put into numbers by engineering judgement.
 */
export const PARTS = {
  /** Even: from the thickest place to where the diameter has fallen to 0.8 of it. A centre roast lies wholly inside. */
  centre: { from: 0.2, to: 0.6 },
  /** A butt roast begins at the butt end and ends here at the latest: beyond, it would be half a tenderloin. */
  buttTo: 0.4,
  /** A tail roast ends at the tail end and begins here at the earliest. */
  tailFrom: 0.5,
  /**
   * Steaks come from butt and centre; the ragged first tenth is squared off. One that is no taller than wide only in the very thickest
   * stretch is not cut from such a small tenderloin: it has to be right from `from` to `sureTo` at least.
   */
  steak: { from: 0.1, sureTo: 0.45, to: 0.6 },
} as const;

/**
 * Narrowest way across a steak [mm]: 1.0 in, USDA Institutional Meat Purchase Specifications, item 1190A (tenderloin steak, side
 * muscle off, skinned).
 */
export const STEAK_NARROWEST_MM = 25.4;

/** Trimmed tenderloins that are planned [kg]: the usual 1.2 to 3.2 kg and what a shop may meet around it. */
export const STOCK_KG = [0.8, 4.5] as const;

/**
 * Shape of a whole tenderloin of a weight, neither folded nor tied.
 *
 * @example
 * muscleOf(2.2, 1060).lengthMm
 */
export function muscleOf(massKg: number, densityKgPerM3: number): Muscle {
  const { profile } = roastShape({
    massKg,
    densityKgPerM3,
    cut: 'whole',
    folded: false,
    tied: false,
    foldAt: FOLD_AT, // asked for, and not used unfolded
  });
  return {
    massKg,
    densityKgPerM3,
    profile,
    lengthMm: 1000 * lengthOf(profile),
    thickestMm: 1000 * greatestDiameter(profile),
  };
}

/** Mass before a place [kg]. */
export const massBefore = (muscle: Muscle, atMm: number): number =>
  muscle.densityKgPerM3 * volumeBetween(muscle.profile, 0, atMm / 1000);

/** Place [mm] that has a mass [kg] before it. */
export const placeOf = (muscle: Muscle, beforeKg: number): number =>
  1000 * positionOfShare(muscle.profile, Math.min(1, Math.max(0, beforeKg / muscle.massKg)));

/** Mass before a share of the length [kg]. */
export const massBeforeShare = (muscle: Muscle, share: number): number =>
  massBefore(muscle, share * muscle.lengthMm);

/**
 * Diameter of the circle with the area of the cut face [mm].
 *
 * @example
 * widthAt(muscleOf(2.2, 1060), 100) // => 79
 */
export const widthAt = (muscle: Muscle, atMm: number): number =>
  1000 * diameterAt(muscle.profile, atMm / 1000);

/** The narrowest way across the cut face [mm]: its height, lying untied. */
export const narrowestAt = (muscle: Muscle, atMm: number): number =>
  widthAt(muscle, atMm) * Math.sqrt(CUTS.whole.aspect);

/** Mass of a slab [kg] from a place on. */
export const slabKg = (muscle: Muscle, fromMm: number, thicknessMm: number): number =>
  massBefore(muscle, fromMm + thicknessMm) - massBefore(muscle, fromMm);

/**
 * Whether a steak may be cut there: wide enough across, and no taller than wide. Engineering judgement: taller, it is a roast.
 *
 * @example
 * isSteak(muscleOf(2.2, 1060), 100, 140) // => true
 */
export function isSteak(muscle: Muscle, fromMm: number, toMm: number): boolean {
  return [fromMm, toMm].every(
    (at) => narrowestAt(muscle, at) >= STEAK_NARROWEST_MM && toMm - fromMm <= widthAt(muscle, at),
  );
}
