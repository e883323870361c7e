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
  return {
    tempC: new Float64Array(nodes).fill(startC),
    previousC: new Float64Array(nodes).fill(startC),
    hottestC: new Float64Array(nodes).fill(startC),
    water: new Float64Array(nodes).fill(meat.waterFraction),
    deficit: new Float64Array(stations),
    endDeficit: new Float64Array(2),
    outsideC: new Float64Array(stations).fill(startC),
    frontChangeK: new Float64Array(stations),
    surfaceHeat: new Float64Array(stations),
    discC: new Float64Array(2 * (mesh.shells + 1)).fill(startC),
    evaporatedKg: new Float64Array(stations),
    drippedKg: new Float64Array(stations),
    endEvaporatedKg: new Float64Array(2),
    endDrippedKg: new Float64Array(2),
    ledger: new Float64Array(4),
    lastStepS: Number.NaN,
  };
}

const FIELDS = [
  'tempC',
  'previousC',
  'hottestC',
  'water',
  'deficit',
  'endDeficit',
  'outsideC',
  'frontChangeK',
  'surfaceHeat',
  'discC',
  'evaporatedKg',
  'drippedKg',
  'endEvaporatedKg',
  'endDrippedKg',
  'ledger',
] as const satisfies readonly (keyof HeatState)[];

/** Copies `from` over `into`; both must belong to the same body. */
export function copyState(from: HeatState, into: HeatState): void {
  for (const field of FIELDS) into[field].set(from[field]);
  into.lastStepS = from.lastStepS;
}

/** An independent copy. */
export function cloneState(state: HeatState): HeatState {
  return Object.assign({ ...state }, Object.fromEntries(FIELDS.map((f) => [f, state[f].slice()])));
}
