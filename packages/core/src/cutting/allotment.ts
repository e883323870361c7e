import type { Window } from './demand.js';
import type { ClassName } from './rooms.js';

/** How many pieces of one demand come out of one window of a muscle. */
export interface Lot {
  /** Place of the demand in the list. */
  readonly demand: number;
  readonly window: Window;
  readonly pieces: number;
}

/** What one muscle is used for. */
export interface MuscleAllotment {
  /** Demand it is sold to uncut. */
  readonly whole?: number;
  /** Demands of the roasts at its two ends. */
  readonly butt?: number;
  readonly tail?: number;
  /** Pieces between them. */
  readonly lots: readonly Lot[];
  /** Mass by which the pieces of a class fall short of their orders together [kg]. */
  readonly shortKg: ReadonlyMap<ClassName, number>;
  /** Left in one piece, to be sold as a roast [kg]; 0 for none. */
  readonly keepKg: Readonly<Record<'butt' | 'centre' | 'tail', number>>;
  /** For orders of tips [kg]. */
  readonly tipsKg: number;
}

/** Who gets how much of what: everything but the places along the muscle. */
export interface Allotment {
  readonly muscles: readonly MuscleAllotment[];
  /** By order. */
  readonly served: readonly boolean[];
}
