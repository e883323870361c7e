import type { Meat } from '../meat/index.js';
import { AlongAxis } from './alongAxis.js';
import type { Body } from './body.js';
import { EndFaces } from './endFaces.js';
import { NodeProperties } from './nodeProperties.js';
import { RadialLines } from './radialLines.js';
import { type HeatState, LEDGER } from './state.js';
import { BEEF_CRUST, type Crust, SurfaceLaw } from './surfaceLaw.js';
import type { Surroundings } from './surroundings.js';
import { STAGE_ONE } from './twoStages.js';

/** What the side and the end faces see at one moment. */
export interface Exposure {
  readonly side: Surroundings;
  readonly ends: Surroundings;
}

/**
 * Advances a body by one step at a time: half a step along the axis, one step along the radii, half a step along the axis
 * (Strang 1968). Each radial step is implicit in two stages with one factorisation; only the surface row is nonlinear and
 * solved by Newton's method. Properties are taken at mid-step and held, so heat leaves one shell and enters the next as the same
 * number.
 *
 * All scratch space is allocated once; {@link Stepper.step} allocates nothing.
 *
 * @example
 * // an endless cylinder of 40 mm radius, two minutes in air of 180 °C
 * const body = singleLine(radialMesh(32, 1), 0.04)
 * const solid = constantSolid(0.5, 1050, 3500)
 * const state = uniformState(body, solid, 4)
 * const air = inAir({ airC: 180, wallC: 180, filmWPerM2K: 8, radiationFactor: 0, vapourPa: 1300 })
 * const dry = { ...air, vapourResistance: Infinity, condenses: false }
 * const around = { side: dry, ends: dry }
 * const stepper = new Stepper(body, solid)
 * for (let step = 0; step < 12; step++) stepper.step(state, 10, around, around, around)
 * state.tempC[32] // => 16.7
 */
export class Stepper {
  readonly body: Body;
  readonly meat: Meat;
  readonly #properties: NodeProperties;
  readonly #capacity: Float64Array; // J/K, a view of the properties
  readonly #ends: EndFaces | undefined;
  readonly #along: AlongAxis | undefined;
  readonly #lines: RadialLines;

  /** Evaporation over the latest step, of the true roast [kg/s]. */
  evaporationKgPerS = Number.NaN;

  constructor(body: Body, meat: Meat, crust: Crust = BEEF_CRUST) {
    const law = new SurfaceLaw(crust);
    const properties = new NodeProperties(body, meat, crust);
    this.body = body;
    this.meat = meat;
    this.#properties = properties;
    this.#capacity = properties.capacity;
    this.#ends = body.endsExposed ? new EndFaces(body, meat, properties, law) : undefined;
    this.#along =
      body.axial || body.endsExposed ? new AlongAxis(body, properties, this.#ends) : undefined;
    this.#lines = new RadialLines(body, meat, properties, law);
  }

  /**
   * Advances `state` by `stepS` seconds.
   *
   * @param first - surroundings at {@link STAGE_ONE} of the step
   * @param middle - at half of it, for the end faces
   * @param last - at its end
   */
  step(state: HeatState, stepS: number, first: Exposure, middle: Exposure, last: Exposure): void {
    const ends = this.#ends;
    const along = this.#along;
    const lines = this.#lines;
    this.#properties.update(state, stepS);
    ends?.straighten(state, stepS, middle.ends);
    along?.eliminate(stepS / 2);
    along?.advance(state, stepS / 2);
    lines.advance(state, stepS, first.side, last.side);
    along?.advance(state, stepS / 2);
    this.evaporationKgPerS = (ends?.evaporationKgPerS ?? 0) + lines.evaporationKgPerS;
    this.#close(state, stepS);
  }

  /** Books what was stored and keeps the hottest temperatures. */
  #close(state: HeatState, stepS: number): void {
    const { tempC, previousC, hottestC, ledger } = state;
    const capacity = this.#capacity;
    let stored = 0;
    for (let at = 0; at < tempC.length; at++) {
      const now = tempC[at];
      stored += capacity[at] * (now - previousC[at]);
      if (now > hottestC[at]) hottestC[at] = now;
    }
    ledger[LEDGER.stored] += stored;
    state.lastStepS = stepS;
  }
}
