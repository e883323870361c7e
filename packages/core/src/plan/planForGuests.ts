import {
  type CookOptions,
  type History,
  type Roast,
  seriesAt,
  stationsAround,
} from '../cook/index.js';
import { RoastError } from '../errors.js';
import {
  bandOf,
  SCALES,
  type Seating,
  type SettledWish,
  seatGuests,
  settleWishes,
  type Wish,
} from '../judge/index.js';
import { compareSeatings, type PullOutcome, type SeatedPull } from './bestPull.js';
import { cutsForGuests } from './cutsForGuests.js';
import { type Remedy, remediesFor } from './guestRemedies.js';
import { type GuestOption, type GuestRequest, type Scanned, Table } from './guestTable.js';
import {
  carvedAtMinutes,
  type Freedom,
  type Way,
  type WaysOfOneOven,
  waysOf,
} from './guestWays.js';
import type { Plan } from './plan.js';

/** The plan that meets the most wishes, and the next best. */
export interface GuestChoice {
  readonly plan: Plan;
  readonly wishes: readonly SettledWish[];
  readonly best: GuestOption;
  /** Other pulls and other ways, best first. */
  readonly others: readonly GuestOption[];
}

/** The plan that meets the most wishes, and what else there is. */
export interface GuestPlan extends GuestChoice {
  /** What would meet more wishes than one roast can, best first; empty when all are met. */
  readonly remedies: readonly Remedy[];
}

const APART_K = 1.5; // pulls nearer than this are one and the same to a cook
const MOST_OTHERS = 3;
const FEW_WAYS = 3; // so many are all computed in full

/**
 * Seats guests at the slices of a plan that was made without them.
 *
 * @example
 * seatAtPlan(plan, [{ doneness: 'rare' }, { doneness: 'medium' }]).spare.length // => 8
 */
export function seatAtPlan(plan: Plan, wishes: readonly Wish[]): Seating {
  return seatGuests(
    plan.slices.map(({ peakCentreC }) => peakCentreC),
    settleWishes(wishes, plan.aim.scale),
  );
}

/**
 * Chooses the pull, and what else may vary, so that the most wishes are met; among equals the least misfit. Every way is looked
 * at on a coarse mesh, pull by pull; the best of every set of freedoms is then computed in full, so that more freedom never makes
 * the answer worse. Meat that is not intact and people at risk keep their limit: no pull before it is looked at.
 *
 * @throws RoastError `unreachable` when no pull fits the time there is, and what {@link planCook} and {@link settleWishes} throw
 * @example
 * const wishes = [{ doneness: 'rare' }, { doneness: 'medium-rare', name: 'Ada' }]
 * const { plan: table, best, remedies } = planForGuests(roast, { ...request, wishes }, { stations: 10, shells: 12 })
 * best.seating.places.length // => 2
 */
export function planForGuests(
  roast: Roast,
  request: GuestRequest,
  options: CookOptions = {},
): GuestPlan {
  const { choice, scanned, table } = search(roast, request, options);
  const { best, wishes } = choice;
  const allMet = best.seating.met === wishes.length;
  return {
    ...choice,
    remedies: allMet ? [] : remediesFor(best, scanned, wishes, table, options),
  };
}

/**
 * {@link planForGuests} without the remedies, which take most of its time.
 *
 * @example
 * const wishes = [{ doneness: 'rare' }, { doneness: 'medium' }]
 * const { best } = chooseForGuests(roast, { ...request, wishes }, { stations: 10, shells: 12 })
 * best.seating.met <= 2 // => true
 */
export const chooseForGuests = (
  roast: Roast,
  request: GuestRequest,
  options: CookOptions = {},
): GuestChoice => search(roast, request, options).choice;

function search(
  roast: Roast,
  request: GuestRequest,
  options: CookOptions,
): { readonly choice: GuestChoice; readonly scanned: Scanned; readonly table: Table } {
  const scale = request.aim?.scale ?? SCALES.kitchen;
  const wishes = settleWishes(request.wishes, scale);
  const table = new Table(request, wishes, roast.intact);
  const slices = cutsForGuests(roast, wishes.length, request.portionKg).length;
  const ovens = waysOf(roast, request, request.vary ?? [], slices);
  const computed = finalistsOf(ovens, request.vary ?? [], table, options)
    .flatMap((way) => table.inFull(way, options))
    .sort((a, b) => compareSeatings(a.best.seating, b.best.seating));
  if (computed.length === 0) throw noTime(request.withinMinutes);
  const [scanned, ...otherWays] = computed;
  const { way, pulls, best: pull } = scanned;
  const best = table.option(way, pull);
  const plan = carvedPlan(best, table, options);
  const others = [
    ...otherPulls(pulls, pull, table).map((other) => table.option(way, other)),
    ...otherWays.map((other) => table.option(other.way, other.best)),
  ];
  // judged again on the plan that is handed out, so that plan and seating say the same
  const slicePeakC = Float64Array.from(plan.slices, ({ peakCentreC }) => peakCentreC);
  const final: GuestOption = {
    ...best,
    pullCentreC: plan.pull.centreC,
    totalMinutes: endMinutes(plan),
    slicePeakC,
    seating: seatGuests(slicePeakC, wishes),
  };
  others.sort((a, b) => compareSeatings(a.seating, b.seating));
  return {
    choice: { plan, wishes, best: final, others: others.slice(0, MOST_OTHERS) },
    scanned,
    table,
  };
}

/** The best way of every set of freedoms, by a scan on a coarse mesh. */
function finalistsOf(
  ovens: readonly WaysOfOneOven[],
  freedoms: readonly Freedom[],
  table: Table,
  options: CookOptions,
): Way[] {
  if (freedoms.length === 0) return ovens.flat();
  const found = ovens.flatMap((ways) => table.scanned(ways, options));
  const finalists = subsetsOf(freedoms).flatMap((allowed) => {
    const among = found.filter(({ way }) => way.changed.every((one) => allowed.includes(one)));
    if (among.length <= FEW_WAYS) return among.map(({ way }) => way);
    return [
      among.reduce((a, b) => (compareSeatings(b.best.seating, a.best.seating) < 0 ? b : a)).way,
    ];
  });
  return [...new Set(finalists)];
}

/** The best of the clearly earlier and of the clearly later pulls. */
const otherPulls = (pulls: readonly PullOutcome[], best: SeatedPull, table: Table): SeatedPull[] =>
  [-1, 1]
    .map((side) => pulls.filter(({ centreC }) => side * (centreC - best.centreC) >= APART_K))
    .map((apart) => table.best(apart))
    .filter((other) => other !== undefined);

/**
 * The plan of an option. Where slices are carved within the rest each is judged by what it becomes until then, and safety by the cook
 * up to the first: what climbs afterwards is no longer on every plate.
 */
function carvedPlan(option: GuestOption, table: Table, options: CookOptions): Plan {
  const plan = table.plan(option, options);
  const { carving, before, after } = option.way;
  if (carving === undefined) return plan;
  const firstRest = after.findIndex(({ kind }) => kind === 'rest');
  const { safety, warnings } = table.plan(option, options, after.slice(0, firstRest + 1));
  const { roomMinutes, roomAfterMinutes } = plan.safety;
  const carvedMinutes = carvedAtMinutes(carving, plan.slices.length);
  // of the rest after the pull: there may be others before
  const { startS } = plan.history.stages[before.length + 1 + firstRest];
  const slices = plan.slices.map((slice, i) => {
    const untilS = startS + 60 * carvedMinutes[i];
    const peakCentreC = peakUntil(plan.history, slice.middleMm, untilS);
    return { ...slice, peakCentreC, band: bandOf(plan.aim.scale, peakCentreC).name };
  });
  return {
    ...plan,
    slices,
    carving,
    safety: { ...safety, roomMinutes, roomAfterMinutes },
    warnings,
  };
}

/** Hottest that the axis at a place becomes until a moment of the cook [°C]. */
function peakUntil(history: History, atMm: number, untilS: number): number {
  const place = stationsAround(history.body, atMm);
  const { seconds, rows, axisC, body } = history;
  const axis = (row: number): number => seriesAt(axisC, body.body.stations, row, place);
  let peakC = axis(0);
  for (let row = 1; row < rows && seconds[row - 1] < untilS; row++) {
    const span = seconds[row] - seconds[row - 1];
    // cut within a step, not at a row: whether a row falls on the very moment hangs on a rounding
    const part = span > 0 ? Math.min(1, (untilS - seconds[row - 1]) / span) : 1;
    peakC = Math.max(peakC, axis(row - 1) + part * (axis(row) - axis(row - 1)));
  }
  return peakC;
}

const endMinutes = ({ history }: Plan): number => history.seconds[history.rows - 1] / 60;

function subsetsOf(freedoms: readonly Freedom[]): Freedom[][] {
  return Array.from({ length: 2 ** freedoms.length }, (_, subset) =>
    freedoms.filter((_, i) => (subset >> i) % 2 === 1),
  );
}

const noTime = (withinMinutes: number | undefined): RoastError =>
  new RoastError(
    withinMinutes === undefined
      ? 'no pull meets the safety rules'
      : `the cook cannot be done within ${withinMinutes} min`,
    {
      code: 'unreachable',
      path: [withinMinutes === undefined ? 'pull' : 'withinMinutes'],
      found: withinMinutes,
      accepted:
        withinMinutes === undefined
          ? 'a hotter oven or a longer rest'
          : 'more time, less of it on the counter, a hotter oven, a shorter rest',
    },
  );
