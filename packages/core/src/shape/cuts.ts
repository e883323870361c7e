import { type Profile, profileFromDiameters } from './profile.js';

/** Pieces of a tenderloin a counter sells as roasts. */
export type TenderloinCut = 'whole' | 'centre' | 'butt' | 'tail';

/** Shape of a cut before folding and tying, and how its thickness grows with its weight. */
export interface CutShape {
  /** Diameter over the greatest, against share of the length from the butt end. */
  readonly profile: Profile;
  /** Greatest area-equivalent diameter [m] is `scaleM * massKg ** power`. */
  readonly scaleM: number;
  readonly power: number;
  /** Height over width of the cross-section, lying untied. */
  readonly aspect: number;
  /** Whether the diameters are those of the tied piece already. */
  readonly evenAsCut: boolean;
  /** Trimmed weights a counter meets [kg]; outside, the plan says so. Common practice, no source. */
  readonly usualKg: readonly [low: number, high: number];
}

/**
 * The cuts, shape by shape.
 *
 * Diameters and scales: engineering judgement, from retail and butchers' statements (untied whole tenderloins are 46 to 71 cm
 * long and 64 to 100 mm at the thickest) and steak areas of 45 to 50 cm²; `scaleM` of whole and centre cut is calibrated with the
 * crust's diffusivity and the oven's vent flow on six roasting-chart rows. Measured psoas major dimensions were not found.
 */
export const CUTS: Readonly<Record<TenderloinCut, CutShape>> = {
  whole: {
    profile: profileFromDiameters([
      [0, 0.55],
      [0.05, 0.8],
      [0.12, 0.95],
      [0.2, 1],
      [0.3, 0.98],
      [0.4, 0.92],
      [0.5, 0.86],
      [0.6, 0.8],
      [0.7, 0.7],
      [0.8, 0.56],
      [0.9, 0.38],
      [1, 0.18],
    ]),
    scaleM: 0.0625,
    power: 1 / 3,
    aspect: 0.7,
    evenAsCut: false,
    usualKg: [1.2, 3.2],
  },
  centre: {
    profile: profileFromDiameters([
      [0, 1],
      [0.25, 1],
      [0.5, 0.99],
      [0.75, 0.97],
      [1, 0.94],
    ]),
    scaleM: 0.0665,
    power: 0.2,
    aspect: 0.75,
    evenAsCut: true,
    usualKg: [0.4, 2],
  },
  butt: {
    profile: profileFromDiameters([
      [0, 0.58],
      [0.08, 0.8],
      [0.2, 0.96],
      [0.35, 1],
      [0.6, 0.99],
      [0.8, 0.95],
      [1, 0.91],
    ]),
    scaleM: 0.082,
    power: 1 / 3,
    aspect: 0.75,
    evenAsCut: false,
    usualKg: [0.4, 1.6],
  },
  tail: {
    profile: profileFromDiameters([
      [0, 1],
      [0.15, 0.98],
      [0.35, 0.9],
      [0.55, 0.76],
      [0.75, 0.56],
      [0.9, 0.38],
      [1, 0.2],
    ]),
    scaleM: 0.083,
    power: 1 / 3,
    aspect: 0.7,
    evenAsCut: false,
    usualKg: [0.2, 0.9],
  },
};
