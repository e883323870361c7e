import type { CutKind } from './order.js';

/** A piece of a cut tenderloin. */
export interface CutPiece {
  /** For an order; to be sold as a roast without one; or the ends and trimmings. */
  readonly use: 'order' | 'sell' | 'ends';
  /** What it is: `tips` for ends. */
  readonly kind: Exclude<CutKind, 'whole'>;
  /** Place of the order in the request. */
  readonly order?: number;
  /** Where it begins and ends, from the butt end [mm]. */
  readonly fromMm: number;
  readonly toMm: number;
  readonly massKg: number;
}

/** What becomes of one tenderloin. */
export interface TenderloinUse {
  readonly massKg: number;
  readonly lengthMm: number;
  /** Greatest area-equivalent diameter [mm]; along the length it goes as `CUTS.whole.profile`. */
  readonly thickestMm: number;
  /** Cut up, sold uncut to an order, or not touched. */
  readonly use: 'cut' | 'whole' | 'spare';
  /** The order it is sold to uncut. */
  readonly order?: number;
  /** From the butt end on, without gaps; none when it is not cut. */
  readonly pieces: readonly CutPiece[];
  /** Orders of tips that its ends go to. */
  readonly tips: readonly { readonly order: number; readonly massKg: number }[];
}

/** What would have to be at hand besides for the orders that could not be served. */
export interface Missing {
  /** Orders that could not be served, by their places in the request. */
  readonly orders: readonly number[];
  /** Their weight by kind [kg]; steaks by thickness as they come out of a tenderloin of the usual weight. */
  readonly byKind: readonly {
    readonly kind: CutKind;
    readonly pieces: number;
    readonly massKg: number;
  }[];
  /** Tenderloins that would do, one line each; not proven to be the fewest. */
  readonly tenderloins: readonly {
    readonly leastKg: number;
    /** For an order of a whole tenderloin, whose weight may not be more than this. */
    readonly mostKg?: number;
  }[];
  /** Orders that no tenderloin a shop meets is large enough for. */
  readonly impossible: readonly number[];
}

/** A day's orders allotted to the tenderloins at hand. */
export interface CuttingList {
  /** In the order of the request. */
  readonly tenderloins: readonly TenderloinUse[];
  /** By order. */
  readonly served: readonly boolean[];
  readonly missing?: Missing;
  readonly totals: {
    readonly stockKg: number;
    /** Mass of the tenderloins that are cut up. */
    readonly cutKg: number;
    /** Mass that goes to orders, uncut ones and tips included. */
    readonly orderedKg: number;
    /** Mass of roasts to be sold without an order. */
    readonly toSellKg: number;
    /** Mass of ends that no order of tips takes. */
    readonly spareEndsKg: number;
    /** Those, as a share of what is cut up; 0 when nothing is. */
    readonly wasteShare: number;
    /** Mass of tenderloins not touched. */
    readonly spareKg: number;
  };
  readonly proof: {
    /** No allotment serves more orders than this. */
    readonly servedAtMost: number;
    /**
     * No allotment that serves as many orders makes more than this much more of the meat, as a share of the value of the stock; below
     * {@link VALUE_GAP} it counts as the best. Left out when there was no time to find out.
     */
    readonly valueGap?: number;
  };
}

/** Share of the value of the stock within which an allotment counts as the best: about five grams of each tenderloin. */
export const VALUE_GAP = 0.002;
