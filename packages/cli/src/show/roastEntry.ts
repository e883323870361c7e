import { lengthOf, type Roast } from '@roastsim/core';

/** A roast in a document. */
export type RoastEntry = Pick<Roast, 'massKg' | 'cut' | 'folded' | 'tied' | 'intact' | 'startC'> & {
  readonly lengthMm: number;
};

/** What every document says of its roast. */
export const roastEntry = (roast: Roast): RoastEntry => ({
  massKg: roast.massKg,
  cut: roast.cut,
  lengthMm: 1000 * lengthOf(roast.profile),
  folded: roast.folded,
  tied: roast.tied,
  intact: roast.intact,
  startC: roast.startC,
});
