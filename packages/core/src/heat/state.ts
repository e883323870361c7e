import type { Meat } from '../meat/index.js';
import type { Body } from './body.js';

/** Running totals of heat [J], for the lines as solved. */
export interface HeatLedger {
  /** Through the surface by convection, radiation and contact, positive into the roast. */
  heatInJ: number;
  /** Taken by evaporation. */
  latentJ: number;
  /** Sum of capacity times temperature change, as the scheme booked it. */
  storedJ: number;
  /** Carried away by departing juice at its own temperature, above 0 °C. */
  juiceJ: number;
}

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
  /** Lost from each station so far, ends included [kg of the true roast]. */
  readonly evaporatedKg: Float64Array;
  readonly drippedKg: Float64Array;
  readonly ledger: HeatLedger;
  /** Length of the latest step [s]; 0 before the first. */
  lastStepS: number;
}

/** A body at one temperature [°C], all its water in place, nothing lost yet. */
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
    ledger: { heatInJ: 0, latentJ: 0, storedJ: 0, juiceJ: 0 },
    lastStepS: 0,
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
] as const satisfies readonly (keyof HeatState)[];

/** Copies `from` over `into`; both must belong to the same body. */
export function copyState(from: HeatState, into: HeatState): void {
  for (const field of FIELDS) into[field].set(from[field]);
  Object.assign(into.ledger, from.ledger);
  into.lastStepS = from.lastStepS;
}

/** An independent copy. */
export function cloneState(state: HeatState): HeatState {
  const copy = { ...state, ledger: { ...state.ledger } };
  return Object.assign(copy, Object.fromEntries(FIELDS.map((f) => [f, state[f].slice()])));
}
