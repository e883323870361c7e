import { type CookOptions, rest, roastIn, temper, tenderloin } from '../cook/index.js';
import type { Wish } from '../judge/index.js';
import {
  chooseForGuests,
  type GuestChoice,
  type Plan,
  type PlanRequest,
  planCook,
} from '../plan/index.js';
import type { TenderloinCut } from '../shape/index.js';

/**
 * Mesh of the simulations behind an order. Against the default mesh, over all cuts at their usual weights, ovens of 120 to 260 °C
 * and rare to well-done (144 cooks): the loss within 1.1 points of the raw weight, the oven time within 3 %, the spread of the
 * slices within 2.6 K, their miss within 1.25 K, and at most 2 slices in another band (tests/order/quickCook.test.ts). Against twice
 * the default's stations and shells and steps half as long they differ by up to 1.1 points, 3.2 %, 2.7 K, 1.3 K and 2 slices (measured
 * once, no test).
 */
export const QUICK_MESH = { stations: 10, shells: 16 } as const satisfies CookOptions;

/** Oven an order reckons with when none is named [°C]: a usual one. Common practice, no source. */
export const ORDER_OVEN_C = 230;

/** Half an hour on the counter, an oven at 230 °C, medium-rare in the middle, 20 min of rest. Common practice, no source. */
export const USUAL_COOK: PlanRequest = {
  before: [temper({ minutes: 30 })],
  heat: roastIn({ ovenC: ORDER_OVEN_C, until: { minutes: 0 } }), // the plan finds the pull
  after: [rest({ minutes: 20 })],
};

/** A piece to cook; folding and tying default as for `tenderloin`. */
export interface Piece {
  readonly cut: TenderloinCut;
  /** Trimmed raw weight [kg]. */
  readonly massKg: number;
  readonly folded?: boolean;
  readonly tied?: boolean;
}

/**
 * A plan on a coarse mesh: enough for loss and evenness, not for a timetable.
 *
 * @throws RoastError as `planCook`
 */
export const quickCook = (piece: Piece, cook: PlanRequest): Plan =>
  planCook(tenderloin(piece), cook, QUICK_MESH);

/**
 * A piece with its pull chosen for guests; the tail of a whole one folded or not, whichever meets more wishes. On the default mesh,
 * because a slice at the edge of a band decides a wish.
 *
 * @throws RoastError as `planForGuests`
 */
export function quickCookFor(
  piece: Piece,
  cook: PlanRequest,
  wishes: readonly Wish[],
): GuestChoice {
  const { pull: _, aim, ...rest } = cook;
  const whole = piece.cut === 'whole';
  return chooseForGuests(tenderloin(piece), {
    ...rest,
    ...(aim?.scale === undefined ? {} : { aim: { scale: aim.scale } }),
    wishes,
    ...(whole
      ? { vary: ['fold'], otherFold: tenderloin({ ...piece, folded: piece.folded === false }) }
      : {}),
  });
}
