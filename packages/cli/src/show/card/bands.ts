import { bandIndex, type Plan } from '@roastsim/core';

/** Bands on a card, rarest first: those drawn anywhere on it, and the one aimed at. Its legend names them, and its chart no others. */
export function bandsOn({ aim, slices, history }: Plan): string[] {
  const { scale } = aim;
  const used = new Set(slices.map(({ peakCentreC }) => bandIndex(scale, peakCentreC)));
  for (const tempC of history.hottestC) used.add(bandIndex(scale, tempC));
  return scale.bands
    .filter(({ name }, index) => used.has(index) || name === aim.band.name)
    .map(({ name }) => name);
}
