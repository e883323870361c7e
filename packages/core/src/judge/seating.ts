import { linearSumAssignment } from 'linear-sum-assignment';
import { RoastError } from '../errors.js';
import { misfitOf, type SettledWish } from './wishes.js';

/** One guest and the slice on the plate. */
export interface Place {
  readonly wish: SettledWish;
  /** Index of the slice. */
  readonly slice: number;
  /** Hottest its centre becomes [°C]. */
  readonly peakCentreC: number;
  /** How far that lies outside the wish [K]: above 0 too done, below 0 too rare, 0 as wished. */
  readonly missK: number;
}

/** Who gets which slice. */
export interface Seating {
  /** One for each guest, in the order of the wishes. */
  readonly places: readonly Place[];
  /** Slices that nobody gets. */
  readonly spare: readonly number[];
  /** Guests whose wish is met. */
  readonly met: number;
  /** Sum of all misses [K]. */
  readonly misfitK: number;
  /** Sum of the distances from what would be best of all [K]; tells two seatings of equal misfit apart. */
  readonly offTargetK: number;
}

// small enough that together they never outweigh a tenth of a kelvin of misfit
const PER_MISS = 1e-4; // of equal sums, rather one guest far off than two a little off
const PER_OFF_TARGET_K = 1e-6;

/** What it costs to give a slice to a guest: misfit above all. */
function costOf(wish: SettledWish, peakC: number): number {
  const missK = misfitOf(wish, peakC);
  return (
    missK +
    (missK > 0 ? PER_MISS : 0) +
    PER_OFF_TARGET_K * Math.min(100, Math.abs(peakC - wish.targetC))
  );
}

/**
 * Gives every guest a slice so that the misfits add up to the least possible: an assignment problem, solved exactly by shortest
 * augmenting paths (Crouse 2016, IEEE Trans. Aerosp. Electron. Syst. 52(4); the library's method). Among equals, more wishes met,
 * then centres nearer to the targets.
 *
 * @param peakCentreC - hottest centre of each slice [°C], at least as many as wishes
 * @throws RoastError `contradiction` when there are more guests than slices
 * @example
 * const wishes = settleWishes([{ doneness: 'rare' }, { doneness: 'medium' }], SCALES.kitchen)
 * seatGuests([50.5, 57, 62], wishes).places.map(({ slice }) => slice) // => [0, 2]
 */
export function seatGuests(
  peakCentreC: ArrayLike<number>,
  wishes: readonly SettledWish[],
): Seating {
  const slices = peakCentreC.length;
  if (slices < wishes.length) {
    throw new RoastError(`${wishes.length} guests cannot share ${slices} slices`, {
      code: 'contradiction',
      path: ['guests'],
      found: wishes.length,
      accepted: `at most ${slices} guests`,
    });
  }
  const costs = wishes.map((wish) =>
    Float64Array.from({ length: slices }, (_, slice) => costOf(wish, peakCentreC[slice])),
  );
  const { rowAssignments } = linearSumAssignment(costs, { maximaze: false });
  const places = inOrder(wishes, rowAssignments).map(([wish, slice]): Place => {
    const centreC = peakCentreC[slice];
    const missK = misfitOf(wish, centreC);
    return {
      wish,
      slice,
      peakCentreC: centreC,
      missK: centreC < wish.fromC ? -missK : missK,
    };
  });
  const taken = new Set(places.map(({ slice }) => slice));
  const sum = (of: (place: Place) => number): number =>
    places.reduce((total, place) => total + of(place), 0);
  return {
    places,
    spare: Array.from({ length: slices }, (_, slice) => slice).filter((slice) => !taken.has(slice)),
    met: places.filter(({ missK }) => missK === 0).length,
    misfitK: sum(({ missK }) => Math.abs(missK)),
    offTargetK: sum(({ peakCentreC: c, wish }) => Math.abs(c - wish.targetC)),
  };
}

/** Guests of one and the same wish get their slices in the order of the roast, so that nothing depends on the solver's habits. */
function inOrder(
  wishes: readonly SettledWish[],
  slices: ArrayLike<number>,
): (readonly [SettledWish, number])[] {
  const pairs: (readonly [SettledWish, number])[] = [];
  for (let from = 0; from < wishes.length; ) {
    let to = from + 1;
    while (to < wishes.length && sameWish(wishes[from], wishes[to])) to++;
    const theirs = Array.from({ length: to - from }, (_, i) => slices[from + i]);
    theirs.sort((a, b) => a - b);
    for (const [i, slice] of theirs.entries()) pairs.push([wishes[from + i], slice]);
    from = to;
  }
  return pairs;
}

const sameWish = (a: SettledWish, b: SettledWish): boolean =>
  a.fromC === b.fromC && a.toC === b.toC && a.targetC === b.targetC;
