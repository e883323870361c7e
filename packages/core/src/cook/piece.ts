import { lengthOf, profileBetween, volumeBetween, volumeOf } from '../shape/index.js';
import type { Roast } from './roast.js';

/**
 * A piece of a roast, cut square at both places: a roast of its own, with its part of the weight and with two faces more.
 *
 * @param fromMm - first cut [mm from the first end]
 * @param toMm - second cut [mm]
 * @example
 * const thick = pieceOf(roast, 0, 240)
 * thick.massKg < roast.massKg // => true
 */
export function pieceOf(roast: Roast, fromMm: number, toMm: number): Roast {
  const { profile, doubledFromM } = roast;
  const fromM = Math.max(0, fromMm / 1000);
  const toM = Math.min(lengthOf(profile), toMm / 1000);
  const doubled =
    doubledFromM === undefined || doubledFromM >= toM
      ? undefined
      : Math.max(0, doubledFromM - fromM);
  return {
    cut: 'other',
    massKg: (roast.massKg * volumeBetween(profile, fromM, toM)) / volumeOf(profile),
    profile: profileBetween(profile, fromM, toM),
    aspect: roast.aspect,
    folded: doubled !== undefined,
    tied: roast.tied,
    ...(doubled === undefined ? {} : { doubledFromM: doubled }),
    intact: roast.intact,
    startC: roast.startC,
    meat: roast.meat,
  };
}
