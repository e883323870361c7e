import { type CookOptions, panSlicePeak, pieceOf, type Roast, tenderloin } from '../cook/index.js';
import {
  type Cut,
  cutsOf,
  misfitOf,
  type Seating,
  type SettledWish,
  seatGuests,
} from '../judge/index.js';
import { CUTS } from '../shape/index.js';
import { compareSeatings, type PullOutcome, type SeatedPull, seated } from './bestPull.js';
import type { GuestOption, Scanned, Table } from './guestTable.js';
import type { Way } from './guestWays.js';

/** A slice that goes into the pan after carving. */
export interface PanFinish {
  readonly slice: number;
  readonly wish: SettledWish;
  readonly panC: number;
  readonly secondsPerSide: number;
  /** Hottest its centre becomes then [°C]. */
  readonly peakCentreC: number;
}

/** One of several pieces in the same oven, each with its own pull. */
export interface Piece {
  readonly massKg: number;
  /** Where it was cut from the roast [mm from the first end], for a piece of it. */
  readonly fromMm?: number;
  readonly toMm?: number;
  /** Since the heat stage began [min]. */
  readonly heatMinutes: number;
  /** Axis of the piece's middle slice at the pull [°C]. */
  readonly pullCentreC: number;
}

/** What would meet more wishes than one roast can; simulated. */
export type Remedy =
  | {
      /** Pull for those who like it rarest; what is too rare for its guest gets a moment in a pan. */
      readonly kind: 'pan';
      readonly option: GuestOption;
      readonly finishes: readonly PanFinish[];
      /** Wishes met when that is done. */
      readonly met: number;
      readonly misfitK: number;
    }
  | {
      /** `pieces`: the roast cut in two; `centre`: centre cut of the same weight of portions instead. */
      readonly kind: 'pieces' | 'centre';
      readonly pieces: readonly Piece[];
      readonly met: number;
      readonly misfitK: number;
    };

const PAN_C = 200; // between gentle and searing: judgement
const PAN_STEP_S = 10;
const MOST_PAN_STEPS = 30;
const MOST_PAN_PULLS = 12; // looked at with the pan
const PAN_SPARE_K = 0.3; // above the edge of the wish, so that it is met for sure
const CUT_SHARES = [1 / 3, 1 / 2, 2 / 3]; // of the slices: where a roast may be cut in two
const WORTH_K = 0.5; // less misfit than this is not worth another pan or knife

/**
 * What would meet more wishes than the best pull of one roast, best first: a moment in the pan for single slices, the roast cut in
 * two, centre cut instead.
 */
export function remediesFor(
  best: GuestOption,
  { way, pulls }: Scanned,
  wishes: readonly SettledWish[],
  table: Table,
  options: CookOptions,
): Remedy[] {
  const remedies = [
    panRemedy(way, pulls, wishes, table),
    piecesRemedy(best, wishes, table, options),
    centreRemedy(best, wishes, table, options),
  ];
  const { met, misfitK } = best.seating;
  return remedies
    .filter((remedy) => remedy !== undefined)
    .filter((one) => one.met > met || (one.met === met && one.misfitK < misfitK - WORTH_K))
    .sort((a, b) => b.met - a.met || a.misfitK - b.misfitK);
}

/** The latest pull at which nobody's slice need be too done, as far as there is one; the others finish in the pan. */
function panRemedy(
  way: Way,
  pulls: readonly PullOutcome[],
  wishes: readonly SettledWish[],
  table: Table,
): Remedy | undefined {
  const cuts = table.cutsOf(way.roast);
  const tooRareIsFine = wishes.map((wish) => ({ ...wish, fromC: Number.NEGATIVE_INFINITY }));
  const carved = seated(pulls, tooRareIsFine);
  if (carved.length === 0) return undefined;
  const least = Math.min(...carved.map(({ seating }) => seating.misfitK));
  const promising = carved.filter(({ seating }) => seating.misfitK <= least + WORTH_K);
  const every = Math.ceil(promising.length / MOST_PAN_PULLS);
  const finished = promising
    .filter((_, i) => i % every === 0)
    .map((pull): Finished => {
      const finishes = pull.seating.places.flatMap(({ slice, peakCentreC }, i) => {
        const finish = finishInPan(way, cuts[slice], slice, peakCentreC, wishes[i]);
        return finish === undefined ? [] : [finish];
      });
      const panned = new Map(finishes.map(({ slice, peakCentreC }) => [slice, peakCentreC]));
      const missK = pull.seating.places.map(({ slice, peakCentreC }, i) =>
        misfitOf(wishes[i], panned.get(slice) ?? peakCentreC),
      );
      return {
        pull,
        finishes,
        met: missK.filter((miss) => miss === 0).length,
        misfitK: missK.reduce((sum, miss) => sum + miss, 0),
      };
    });
  const { pull, finishes, met, misfitK } = finished.reduce((a, b) => (better(b, a) ? b : a));
  if (finishes.length === 0) return undefined;
  return { kind: 'pan', option: table.option(way, pull), finishes, met, misfitK };
}

interface Finished {
  readonly pull: SeatedPull;
  readonly met: number;
  readonly misfitK: number;
  readonly finishes: readonly PanFinish[];
}

/** More wishes met, then less misfit, then less work at the pan. */
const better = (a: Finished, b: Finished): boolean =>
  a.met !== b.met
    ? a.met > b.met
    : Math.abs(a.misfitK - b.misfitK) > 0.01
      ? a.misfitK < b.misfitK
      : panSeconds(a) < panSeconds(b);

const panSeconds = ({ finishes }: Finished): number =>
  finishes.reduce((sum, { secondsPerSide }) => sum + secondsPerSide, 0);

/** The shortest time in the pan that meets a wish; nothing when none is needed or none would do. */
function finishInPan(
  { roast }: Way,
  { fromMm, toMm }: Cut,
  slice: number,
  startC: number,
  wish: SettledWish,
): PanFinish | undefined {
  if (startC >= wish.fromC) return undefined;
  const peakAfter = (steps: number): number =>
    panSlicePeak({
      meat: roast.meat,
      thicknessMm: toMm - fromMm,
      startC,
      panC: PAN_C,
      secondsPerSide: steps * PAN_STEP_S,
    });
  let few = 0;
  let enough = MOST_PAN_STEPS;
  if (peakAfter(enough) < wish.fromC + PAN_SPARE_K) return undefined;
  while (enough - few > 1) {
    const steps = Math.floor((few + enough) / 2);
    if (peakAfter(steps) < wish.fromC + PAN_SPARE_K) few = steps;
    else enough = steps;
  }
  const peakCentreC = peakAfter(enough);
  if (peakCentreC > wish.toC) return undefined;
  return { slice, wish, panC: PAN_C, secondsPerSide: enough * PAN_STEP_S, peakCentreC };
}

/** The roast cut in two across its length, each piece pulled in its own time. */
function piecesRemedy(
  { way }: GuestOption,
  wishes: readonly SettledWish[],
  table: Table,
  options: CookOptions,
): Remedy | undefined {
  const { roast } = way;
  const cuts = table.cutsOf(roast);
  const places = new Set(
    CUT_SHARES.map((share) => Math.round(share * cuts.length)).filter(
      (place) => place > 0 && place < cuts.length,
    ),
  );
  const tries = [...places].map((place) => {
    const atMm = cuts[place].fromMm;
    const endMm = cuts[cuts.length - 1].toMm;
    const parts = [
      { fromMm: 0, toMm: atMm, cuts: cuts.slice(0, place) },
      { fromMm: atMm, toMm: endMm, cuts: cuts.slice(place) },
    ];
    return bestOfPieces(
      parts.map(({ fromMm, toMm, cuts: own }) => ({
        roast: pieceOf(roast, fromMm, toMm),
        cuts: own.map((cut) => movedBy(cut, -fromMm)),
        fromMm,
        toMm,
      })),
      'pieces',
      way,
      wishes,
      table,
      options,
    );
  });
  return bestRemedy(tries);
}

const movedBy = (cut: Cut, byMm: number): Cut => ({
  ...cut,
  fromMm: cut.fromMm + byMm,
  toMm: cut.toMm + byMm,
  middleMm: cut.middleMm + byMm,
});

/** The same weight of portions as centre cut, in one piece or two. */
function centreRemedy(
  { way }: GuestOption,
  wishes: readonly SettledWish[],
  table: Table,
  options: CookOptions,
): Remedy | undefined {
  const { roast } = way;
  if (roast.cut !== 'whole') return undefined;
  const portionKg = roast.massKg / table.cutsOf(roast).length;
  const massKg = wishes.length * portionKg;
  const [leastKg, mostKg] = CUTS.centre.usualKg;
  const count = massKg <= mostKg ? 1 : 2;
  if (massKg < leastKg || massKg / count > mostKg) return undefined;
  const { startC, intact, tied, meat } = roast;
  const pieces = Array.from({ length: count }, (_, i) => {
    const guests = Math.ceil((wishes.length - i) / count);
    const piece = tenderloin({
      cut: 'centre',
      massKg: guests * portionKg,
      startC,
      intact,
      tied,
    });
    return { roast: { ...piece, meat }, cuts: cutsOf(piece, portionKg) };
  });
  return bestOfPieces(pieces, 'centre', way, wishes, table, options);
}

interface PieceToCook {
  readonly roast: Roast;
  readonly cuts: readonly Cut[];
  readonly fromMm?: number;
  readonly toMm?: number;
}

/** One or two pieces, each with the pull that suits all guests together best. */
function bestOfPieces(
  pieces: readonly PieceToCook[],
  kind: 'pieces' | 'centre',
  way: Way,
  wishes: readonly SettledWish[],
  table: Table,
  options: CookOptions,
): Remedy | undefined {
  const pulls = pieces.map(({ roast, cuts }) =>
    table.pullsOfPiece({ ...way, roast }, cuts, options),
  );
  if (pulls.some((own) => own.length === 0)) return undefined;
  const combinations = pulls.reduce<PullOutcome[][]>(
    (all, own) => all.flatMap((some) => own.map((pull) => [...some, pull])),
    [[]],
  );
  const seat = (chosen: readonly PullOutcome[]): Seating =>
    seatGuests(
      chosen.flatMap(({ peakC }) => [...peakC]),
      wishes,
    );
  const best = combinations
    .map((chosen) => ({ chosen, seating: seat(chosen) }))
    .reduce((a, b) => (compareSeatings(b.seating, a.seating) < 0 ? b : a));
  return {
    kind,
    pieces: pieces.map(({ roast, fromMm, toMm }, i) => ({
      massKg: roast.massKg,
      ...(fromMm === undefined ? {} : { fromMm }),
      ...(toMm === undefined ? {} : { toMm }),
      heatMinutes: best.chosen[i].pullS / 60,
      pullCentreC: best.chosen[i].centreC,
    })),
    met: best.seating.met,
    misfitK: best.seating.misfitK,
  };
}

const bestRemedy = (tries: readonly (Remedy | undefined)[]): Remedy | undefined =>
  tries
    .filter((one) => one !== undefined)
    .reduce<Remedy | undefined>(
      (a, b) =>
        a === undefined || b.met > a.met || (b.met === a.met && b.misfitK < a.misfitK) ? b : a,
      undefined,
    );
