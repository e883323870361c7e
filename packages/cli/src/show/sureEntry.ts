import type { InputName, Narrowing, Plan, Spread } from '@roastsim/core';
import type { SureForecast } from '../ask/forecast.js';
import { driverText } from './sure.js';

/** A temperature that is not known exactly: half of the cooks lie below `likely`. */
export interface RangeEntry {
  readonly lowC: number;
  readonly likelyC: number;
  readonly highC: number;
}

/** What came out of many simulated cooks. */
export interface SureEntry {
  readonly level: number;
  readonly members: number;
  readonly seed: number;
  /** Cooks whose thermometer never showed the pull. */
  readonly unreached: number;
  readonly peak: RangeEntry;
  readonly slices: readonly (RangeEntry & {
    readonly bands: readonly { readonly band: string; readonly share: number }[];
  })[];
  readonly shares: readonly { readonly input: InputName; readonly share: number }[];
  readonly narrows: readonly Narrowing[];
  readonly text: string;
}

const rangeEntry = ({ likely, intervals: [{ low, high }] }: Spread): RangeEntry => ({
  lowC: low,
  likelyC: likely,
  highC: high,
});

/** The ensemble of a plan as plain data, by docs/plan.schema.json. */
export function sureEntry({ aim }: Plan, sure: SureForecast): SureEntry {
  const { ensemble, level, seed, narrowings } = sure;
  return {
    level,
    members: ensemble.members,
    seed,
    unreached: ensemble.unreached,
    peak: rangeEntry(ensemble.peakC),
    slices: ensemble.slices.map(({ peakC, bandShares }) => ({
      ...rangeEntry(peakC),
      bands: bandShares.map((share, i) => ({ band: aim.scale.bands[i].name, share })),
    })),
    shares: ensemble.shares,
    narrows: narrowings,
    text: driverText(ensemble.shares, narrowings),
  };
}
