import { isSteak, type Muscle, massBeforeShare, PARTS, placeOf, slabKg } from './muscle.js';
import type { CutOrder } from './order.js';

/** Like pieces, whoever ordered them: to the programme they are one. */
export interface Demand {
  readonly kind: CutOrder['kind'];
  readonly massKg?: number;
  readonly thicknessMm?: number;
  /** Places of the orders in the request, and how many pieces each wants. */
  readonly orders: readonly { readonly index: number; readonly pieces: number }[];
}

/** Gathers orders of like pieces. */
export function demandsOf(orders: readonly CutOrder[]): Demand[] {
  const found = new Map<string, { -readonly [K in keyof Demand]: Demand[K] }>();
  for (const [index, { kind, massKg, thicknessMm, pieces }] of orders.entries()) {
    const key = `${kind} ${massKg} ${thicknessMm}`;
    const one = found.get(key);
    const more = { index, pieces };
    if (one !== undefined) one.orders = [...one.orders, more];
    else {
      found.set(key, {
        kind,
        ...(massKg === undefined ? {} : { massKg }),
        ...(thicknessMm === undefined ? {} : { thicknessMm }),
        orders: [more],
      });
    }
  }
  return [...found.values()];
}

/** Where a piece may lie in one muscle, and how much of it it takes. */
export interface Window {
  /** Begins here at the earliest and ends there at the latest, as shares of the length. */
  readonly from: number;
  readonly to: number;
  /** Mass it takes [kg]; of a steak by thickness the most it can be anywhere in the window. */
  readonly massKg: number;
}

/*
 * Windows begin and end at these shares only. Both lists rise together, so that pieces in the order of their windows, each as far to
 * the butt end as it can go, fit whenever they fit at all (see docs/cutting.md).
 */
const STEAK_ENDS = [PARTS.steak.to, 0.55, 0.5, PARTS.steak.sureTo] as const;
const SLAB_STARTS = [PARTS.steak.from, PARTS.centre.from, 0.3, 0.4, 0.5] as const;

/** Windows of a piece between butt roast and tail roast; none when the muscle is too small for it. */
export function windowsOf(demand: Demand, muscle: Muscle): Window[] {
  const { kind, massKg = 0, thicknessMm } = demand;
  if (kind === 'centre') {
    return [{ ...PARTS.centre, massKg }];
  }
  if (kind !== 'steak') return [];
  return thicknessMm === undefined ? steakByMass(massKg, muscle) : slabs(thicknessMm, muscle);
}

function steakByMass(massKg: number, muscle: Muscle): Window[] {
  const { from } = PARTS.steak;
  const firstKg = massBeforeShare(muscle, from);
  const fits = (fromKg: number): boolean =>
    isSteak(muscle, placeOf(muscle, fromKg), placeOf(muscle, fromKg + massKg));
  if (!fits(firstKg)) return [];
  const to = STEAK_ENDS.find((end) => {
    const startKg = massBeforeShare(muscle, end) - massKg;
    return startKg >= firstKg && fits(startKg);
  });
  return to === undefined ? [] : [{ from, to, massKg }];
}

function slabs(thicknessMm: number, muscle: Muscle): Window[] {
  const fits = (fromMm: number): boolean => isSteak(muscle, fromMm, fromMm + thicknessMm);
  const firstMm = PARTS.steak.from * muscle.lengthMm;
  if (!fits(firstMm)) return [];
  const to = STEAK_ENDS.find((end) => {
    const startMm = end * muscle.lengthMm - thicknessMm;
    return startMm >= firstMm && fits(startMm);
  });
  if (to === undefined) return [];
  return SLAB_STARTS.filter(
    (from) =>
      (to - from) * muscle.lengthMm >= thicknessMm &&
      // a window that begins later must not end earlier than another
      (from === PARTS.steak.from || to === PARTS.steak.to),
  ).map((from) => ({ from, to, massKg: heaviestSlab(thicknessMm, muscle, from, to) }));
}

/** The most a slab in a window can weigh [kg]: its mass rises to the thickest place and falls after it. */
function heaviestSlab(thicknessMm: number, muscle: Muscle, from: number, to: number): number {
  let low = from * muscle.lengthMm;
  let high = to * muscle.lengthMm - thicknessMm;
  for (let round = 0; round < ROUNDS; round++) {
    const third = (high - low) / 3;
    if (slabKg(muscle, low + third, thicknessMm) < slabKg(muscle, high - third, thicknessMm)) {
      low += third;
    } else high -= third;
  }
  return slabKg(muscle, low, thicknessMm) * (1 + HAIR);
}

const ROUNDS = 60; // (2/3)^60 of the length is far below a micrometre
const HAIR = 1e-9;
