/** What can be ordered of a trimmed tenderloin. */
export type CutKind = 'whole' | 'centre' | 'butt' | 'tail' | 'steak' | 'tips';

/** Kinds in the order in which they are told. */
export const CUT_KINDS: readonly CutKind[] = ['whole', 'centre', 'butt', 'tail', 'steak', 'tips'];

/** One order: a number of like pieces. */
export interface CutOrder {
  readonly kind: CutKind;
  /** How many, 1 to 200; 1 for tips. */
  readonly pieces: number;
  /**
   * Mass of one piece [kg], for tips of all of it. A whole tenderloin may do without: any one is right then. A steak has this or
   * a thickness.
   */
  readonly massKg?: number;
  /** Thickness of one steak [mm]; its mass then depends on where it is cut. */
  readonly thicknessMm?: number;
}

/** Value of a kilogram of each kind: only their ratios count, so the currency is left open. */
export type KindPrices = Readonly<Record<CutKind, number>>;

/**
 * Value of a kilogram relative to the uncut tenderloin. Engineering judgement: what is even and can be portioned is worth more,
 * what is uneven less, trimmings about half. A shop gives its own.
 */
export const KIND_PRICES: KindPrices = {
  whole: 1,
  centre: 1.25,
  butt: 0.9,
  tail: 0.75,
  steak: 1.25,
  tips: 0.5,
};

/** What is to be allotted. */
export interface CuttingRequest {
  readonly orders: readonly CutOrder[];
  /** Trimmed tenderloins at hand [kg each], 0.8 to 4.5. */
  readonly stockKg: readonly number[];
  /** How far below its ordered weight a piece may be cut, 0 to 0.2; a whole tenderloin may be off by twice this either way. */
  readonly tolerance?: number;
  readonly prices?: KindPrices;
  /** Raw density [kg/m³]; that of lean tenderloin when left out. */
  readonly densityKgPerM3?: number;
  /** Seconds the solver may take in all; 7 when left out. */
  readonly timeLimitS?: number;
}

/** Common practice, no source: a roast is cut to the ordered weight within about this. */
export const TOLERANCE = 0.05;
