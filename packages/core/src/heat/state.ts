import type { Meat } from '../meat/index.js';
import type { Body } from './body.js';

/** Running totals of heat [J], for the lines as solved. */
export interface HeatLedger {
  /** Through the surface by convection, radiation and contact, positive into the roast. */
  readonly heatInJ: number;
  /** Taken by evaporation. */
  readonly latentJ: number;
  /** Sum of capacity times temperature change, as the scheme booked it. */
  readonly storedJ: number;
  /** Carried away by departing juice at its own temperature, above 0 °C. */
  readonly juiceJ: number;
}

/** Places of the totals in {@link HeatState.ledger}. */
export const LEDGER = { heatIn: 0, latent: 1, stored: 2, juice: 3 } as const;

/** The totals by name. */
export const ledgerOf = ({ ledger }: HeatState): HeatLedger => ({
  heatInJ: ledger[LEDGER.heatIn],
  latentJ: ledger[LEDGER.latent],
  storedJ: ledger[LEDGER.stored],
  juiceJ: ledger[LEDGER.juice],
});

/** Everything about a body that changes while it cooks. Fields are laid out station by station, axis to surface. */
export interface HeatState {
  /** All arrays below, one after another: they are views of it. */
  readonly all: Float64Array;
  readonly tempC: Float64Array;
  /** Temperatures one step ago: with them properties are taken at mid-step. */
  readonly previousC: Float64Array;
  /** Hottest each node has been [°C]. */
  readonly hottestC: Float64Array;
  /** Water left [kg per kg of raw meat]. */
  readonly water: Float64Array;
  /** Water missing from the outermost layer of each station [kg/m²]. */
  readonly deficit: Float64Array;
  /** The same for the two end faces. */
  readonly endDeficit: Float64Array;
  /** Temperature outside the crust of each station [°C]. */
  readonly outsideC: Float64Array;
  /** Change of each front over the latest step [K]: where Newton's method starts from. */
  readonly frontChangeK: Float64Array;
  /** Heat through the crust of each station [W/m²]. */
  readonly surfaceHeat: Float64Array;
  /** Temperature of each end face's discs [°C], first end then last. */
  readonly discC: Float64Array;
  /** Lost through the side of each station so far [kg of the true roast]. */
  readonly evaporatedKg: Float64Array;
  readonly drippedKg: Float64Array;
  /** Lost through the two end faces. */
  readonly endEvaporatedKg: Float64Array;
  readonly endDrippedKg: Float64Array;
  /** Totals of heat [J] in the order of {@link HeatLedger}. */
  readonly ledger: Float64Array;
  /** Length of the latest step [s]; NaN before the first. */
  lastStepS: number;
}

/**
 * A body at one temperature [°C], all its water in place, nothing lost yet.
 *
 * @example
 * const cylinder = singleLine(radialMesh(32, 1), 0.04)
 * uniformState(cylinder, constantSolid(0.5, 1050, 3500), 4).tempC[0] // => 4
 */
export function uniformState(body: Body, meat: Meat, startC: number): HeatState {
  const { stations, mesh } = body;
  const nodes = stations * (mesh.shells + 1);
  const discs = 2 * (mesh.shells + 1);
  const state = viewsOf(new Float64Array(lengthOf(nodes, stations, discs)), nodes, stations, discs);
  for (const field of [state.tempC, state.previousC, state.hottestC]) field.fill(startC);
  state.outsideC.fill(startC);
  state.discC.fill(startC);
  state.water.fill(meat.waterFraction);
  return state;
}

const ENDS = 2;
const TOTALS = 4;

const lengthOf = (nodes: number, stations: number, discs: number): number =>
  4 * nodes + 6 * stations + discs + 3 * ENDS + TOTALS;

/** The only place a state is made: objects of one origin keep the compiled step loop valid. */
function viewsOf(all: Float64Array, nodes: number, stations: number, discs: number): HeatState {
  let taken = 0;
  const view = (length: number): Float64Array => {
    taken += length;
    return all.subarray(taken - length, taken);
  };
  return {
    all,
    tempC: view(nodes),
    previousC: view(nodes),
    hottestC: view(nodes),
    water: view(nodes),
    deficit: view(stations),
    outsideC: view(stations),
    frontChangeK: view(stations),
    surfaceHeat: view(stations),
    evaporatedKg: view(stations),
    drippedKg: view(stations),
    discC: view(discs),
    endDeficit: view(ENDS),
    endEvaporatedKg: view(ENDS),
    endDrippedKg: view(ENDS),
    ledger: view(TOTALS),
    lastStepS: Number.NaN,
  };
}

/** Copies `from` over `into`; both must belong to the same body. */
export function copyState(from: HeatState, into: HeatState): void {
  into.all.set(from.all);
  into.lastStepS = from.lastStepS;
}

/** An independent copy. */
export function cloneState({ all, tempC, deficit, discC, lastStepS }: HeatState): HeatState {
  const copy = viewsOf(all.slice(), tempC.length, deficit.length, discC.length);
  copy.lastStepS = lastStepS;
  return copy;
}
