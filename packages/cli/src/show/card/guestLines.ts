import { temperatureText, type UnitSystem } from '@roastsim/core';
import type { CardGuest } from './cardModel.js';

/** Who, and what they get. */
export interface GuestLine {
  /** `Ada`, `3 guests, rare`. */
  readonly who: string;
  /** `slice 3: medium-rare, 56 °C`, `slices 1 to 3: rare, 50 to 52 °C`. */
  readonly what: string;
}

/** A line for each guest with a name; neighbours without one share a line where they wished for and get the same. */
export function guestLines(guests: readonly CardGuest[], units: UnitSystem): GuestLine[] {
  const shared = (a: CardGuest, b: CardGuest): boolean =>
    a.name === undefined && b.name === undefined && a.wish === b.wish && a.band === b.band;
  return runsOf(guests, shared).map((run) => {
    const [{ name, wish, slice, band }] = run;
    const last = run.at(-1)?.slice;
    const which = last === slice ? `slice ${slice}` : `slices ${slice} to ${last}`;
    return {
      who: name ?? `${run.length === 1 ? '1 guest' : `${run.length} guests`}, ${wish}`,
      what:
        `${which}: ${band}, ${peaksOf(run, units)}` +
        (name !== undefined && wish !== band ? ` (asked for ${wish})` : ''),
    };
  });
}

/** Guests whose slices lie side by side in one band. */
export interface GuestGroup {
  /** `medium-rare, 54 to 58 °C`. */
  readonly what: string;
  /** Slice and name, `2 Ada`; slices and wish where there is no name, `4 to 6 rare`. */
  readonly who: readonly string[];
}

/** The same in fewer words: slices of one band together. */
export function guestGroups(guests: readonly CardGuest[], units: UnitSystem): GuestGroup[] {
  return runsOf(guests, (a, b) => a.band === b.band).map((run) => ({
    what: `${run[0].band}, ${peaksOf(run, units)}`,
    who: runsOf(
      run,
      (a, b) => a.name === undefined && b.name === undefined && a.wish === b.wish,
    ).map((same) => {
      const [{ name, wish, slice, band }] = same;
      const last = same.at(-1)?.slice;
      const asked = wish === band ? '' : ` (asked for ${wish})`;
      const which = last === slice ? `${slice}` : `${slice} to ${last}`;
      return name === undefined ? `${which} for ${wish}` : `${which} ${name}${asked}`;
    }),
  }));
}

/** Guests by their slices, thick end first, those with neighbouring slices together where they are alike. */
function runsOf(
  guests: readonly CardGuest[],
  alike: (a: CardGuest, b: CardGuest) => boolean,
): [CardGuest, ...CardGuest[]][] {
  const runs: [CardGuest, ...CardGuest[]][] = [];
  for (const guest of guests.toSorted((a, b) => a.slice - b.slice)) {
    const run = runs.at(-1);
    const before = run?.at(-1);
    if (
      run !== undefined &&
      before !== undefined &&
      guest.slice <= before.slice + 1 &&
      alike(before, guest)
    ) {
      run.push(guest);
    } else runs.push([guest]);
  }
  return runs;
}

/** Peak of a slice, or from the lowest to the highest of several. */
function peaksOf(guests: readonly CardGuest[], units: UnitSystem): string {
  const peaks = guests.map(({ peakC }) => peakC);
  const low = temperatureText(Math.min(...peaks), units);
  const high = temperatureText(Math.max(...peaks), units);
  return low === high ? low : `${low.replace(/ °[CF]$/, '')} to ${high}`;
}
