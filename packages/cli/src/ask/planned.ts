import type { GuestPlan, Plan, QuickInterval, Seating, SettledWish } from '@roastsim/core';

/** Guests at a plan. */
export interface GuestTable {
  readonly wishes: readonly SettledWish[];
  readonly seating: Seating;
  /** Hottest that each slice's centre becomes before it is carved [°C]. */
  readonly slicePeakC: ArrayLike<number>;
  /** The search that chose the plan, when the guests decided. */
  readonly search?: GuestPlan;
  /** Cooked meat to keep for all guests together [kg], when it was asked for. */
  readonly leftoversKg?: number;
}

/** A plan and, where there are guests, who gets which slice. */
export interface Planned {
  readonly plan: Plan;
  readonly table?: GuestTable;
  /** Minutes to the pull as a range, where the thermometer decides and the middle has warmed by then. */
  readonly range?: Pick<QuickInterval, 'lowMinutes' | 'likelyMinutes' | 'highMinutes'>;
}
