import type { GuestOption, Plan, Remedy, Seating, SettledWish } from '@roastsim/core';
import type { GuestTable } from '../ask/planned.js';

/** Who gets what, counted from slice 0. `missK`: below 0 too rare, above 0 too done, 0 as wished. */
interface PlaceEntry {
  readonly guest?: string;
  /** Band wished for, or the one a wished temperature falls in. */
  readonly wish: string;
  /** Where a temperature was wished for. */
  readonly wishedC?: number;
  readonly slice: number;
  readonly peakCentreC: number;
  readonly missK: number;
}

/** How well wishes are met. */
interface FitEntry {
  readonly met: number;
  readonly misfitK: number;
}

/** Another pull or another way. */
interface OptionEntry extends FitEntry {
  readonly pullCentreC: number;
  readonly heatMinutes: number;
  readonly totalMinutes: number;
  readonly ovenC?: number;
  readonly bathC?: number;
  readonly sear: 'none' | 'first' | 'last';
  readonly folded: boolean;
  readonly carving?: { readonly startMinutes: number; readonly from: 'first-end' | 'last-end' };
}

/** What would meet more wishes. */
type RemedyEntry =
  | (FitEntry & {
      readonly kind: 'pan';
      readonly pullCentreC: number;
      readonly finishes: readonly {
        readonly slice: number;
        readonly wish: string;
        readonly panC: number;
        readonly secondsPerSide: number;
        readonly peakCentreC: number;
      }[];
    })
  | (FitEntry & {
      readonly kind: 'pieces' | 'centre';
      readonly pieces: readonly {
        readonly massKg: number;
        readonly fromMm?: number;
        readonly toMm?: number;
        readonly heatMinutes: number;
        readonly pullCentreC: number;
      }[];
    });

/** The guests of a plan as data; docs/plan.schema.json describes every field. */
export interface GuestsEntry extends FitEntry {
  readonly count: number;
  readonly places: readonly PlaceEntry[];
  readonly spareSlices: readonly number[];
  readonly spareServedKg: number;
  readonly leftoversWantedKg?: number;
  /** Where the guests decided the pull. */
  readonly chosen?: OptionEntry;
  readonly others?: readonly OptionEntry[];
  readonly remedies?: readonly RemedyEntry[];
}

/** The guests of a plan as plain data. */
export function guestsEntry(plan: Plan, table: GuestTable): GuestsEntry {
  const { seating, wishes, search, leftoversKg } = table;
  return {
    count: wishes.length,
    ...fitOf(seating),
    places: seating.places.map(({ wish, slice, peakCentreC, missK }) => ({
      ...(wish.name === undefined ? {} : { guest: wish.name }),
      ...wishOf(wish),
      slice,
      peakCentreC,
      missK,
    })),
    spareSlices: seating.spare,
    spareServedKg: seating.spare.reduce((sum, slice) => sum + plan.slices[slice].servedKg, 0),
    ...(leftoversKg === undefined ? {} : { leftoversWantedKg: leftoversKg }),
    ...(search === undefined
      ? {}
      : {
          chosen: optionOf(search.best),
          others: search.others.map(optionOf),
          remedies: search.remedies.map(remedyOf),
        }),
  };
}

const fitOf = ({ met, misfitK }: Pick<Seating, 'met' | 'misfitK'>): FitEntry => ({ met, misfitK });

const wishOf = ({ band, exact, targetC }: SettledWish): Pick<PlaceEntry, 'wish' | 'wishedC'> => ({
  wish: band.name,
  ...(exact ? { wishedC: targetC } : {}),
});

function optionOf({
  way,
  heatMinutes,
  totalMinutes,
  pullCentreC,
  seating,
}: GuestOption): OptionEntry {
  return {
    ...fitOf(seating),
    pullCentreC,
    heatMinutes,
    totalMinutes,
    ...(way.heat.kind === 'bath' ? { bathC: way.heat.bathC } : { ovenC: way.heat.ovenC }),
    sear: way.sear,
    folded: way.roast.folded,
    ...(way.carving === undefined ? {} : { carving: way.carving }),
  };
}

function remedyOf(remedy: Remedy): RemedyEntry {
  if (remedy.kind !== 'pan') {
    return { kind: remedy.kind, ...fitOf(remedy), pieces: remedy.pieces };
  }
  return {
    kind: 'pan',
    ...fitOf(remedy),
    pullCentreC: remedy.option.pullCentreC,
    finishes: remedy.finishes.map(({ wish, ...finish }) => ({ ...finish, wish: wish.band.name })),
  };
}
