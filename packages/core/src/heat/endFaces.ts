import type { Meat } from '../meat/index.js';
import type { Body } from './body.js';
import { dryableKgPerM3, END_SHARE } from './dryable.js';
import { LATENT_AT_0C, LATENT_SLOPE } from './moistAir.js';
import type { NodeProperties } from './nodeProperties.js';
import { type HeatState, LEDGER } from './state.js';
import { HIGHEST_FRONT_C, LOWEST_FRONT_C, type SurfaceLaw } from './surfaceLaw.js';
import type { Surroundings } from './surroundings.js';

const DISC_SETTLED_K = 1e-3; // Newton's error after such a correction is below 1e-7 K

/**
 * The two end faces: each shell of the first and the last station has a disc, and what that lets through is, for one step, a straight
 * line in the shell's temperature. The arrays hold the first end's shells, then the last one's.
 */
export class EndFaces {
  /** Into each shell if it were at 0 °C [W]. */
  readonly heatW: Float64Array;
  /** Of that heat with the shell's temperature [W/K]. */
  readonly slopeWPerK: Float64Array;
  /** Evaporation at the latest lines, of the true roast [kg/s]. */
  evaporationKgPerS = Number.NaN;

  readonly #law: SurfaceLaw;
  readonly #stations: number;
  readonly #nodes: number; // of one line
  readonly #share: Float64Array;
  readonly #lengthM: Float64Array;
  readonly #massFactor: Float64Array;
  readonly #conductivity: Float64Array;
  readonly #juice: Float64Array;
  readonly #faceM2: Float64Array;
  readonly #most: Float64Array; // deficit at which an end is dry [kg/m²]

  constructor(body: Body, meat: Meat, properties: NodeProperties, law: SurfaceLaw) {
    const { stations, mesh, radiusM } = body;
    this.#law = law;
    this.#stations = stations;
    this.#nodes = mesh.shells + 1;
    this.#share = mesh.share;
    this.#lengthM = body.lengthM;
    this.#massFactor = body.massFactor;
    this.#conductivity = properties.conductivity;
    this.#juice = properties.juiceKgPerM2S;
    this.heatW = new Float64Array(2 * this.#nodes);
    this.slopeWPerK = new Float64Array(2 * this.#nodes);
    const endRadiiM = [radiusM[0], radiusM[stations - 1]];
    this.#faceM2 = Float64Array.from(endRadiiM, (radius) => Math.PI * radius ** 2);
    this.#most = Float64Array.from(
      endRadiiM,
      (radius) => END_SHARE * dryableKgPerM3(meat) * radius,
    );
  }

  /** Draws the lines at the present temperatures, and books what evaporates in a step of `stepS` seconds. */
  straighten(state: HeatState, stepS: number, around: Surroundings): void {
    const lengthM = this.#lengthM;
    const law = this.#law;
    const count = this.#nodes;
    const share = this.#share;
    const heatW = this.heatW;
    const slopeWPerK = this.slopeWPerK;
    const conductivity = this.#conductivity;
    const { tempC, discC, endDeficit } = state;
    law.face(around);
    this.evaporationKgPerS = 0;
    for (let end = 0; end < 2; end++) {
      const station = end === 0 ? 0 : this.#stations - 1;
      const faceM2 = this.#faceM2[end];
      const half = lengthM[station] / 2;
      let evaporation = 0;
      let latentW = 0;
      let heat = 0; // through the shell's crust: near what the next one's comes to
      for (let j = 0; j < count; j++) {
        const at = station * count + j;
        const slot = end * count + j;
        const conductance = conductivity[at] / half; // W/(m²·K)
        const inside = tempC[at];
        let disc = discC[slot];
        law.begin(endDeficit[end], this.#juice[station], 0, heat, this.#most[end]);
        for (let round = 0; round < 12; round++) {
          law.at(disc);
          const change = (conductance * (inside - disc) + law.heat) / (conductance - law.heatSlope);
          disc = Math.min(Math.max(disc + change, LOWEST_FRONT_C), HIGHEST_FRONT_C);
          if (Math.abs(change) < DISC_SETTLED_K) break;
        }
        discC[slot] = disc;
        heat = law.heatIn;
        const areaM2 = faceM2 * share[j];
        const response = conductance / (conductance - law.heatSlope); // K of disc per K of shell
        const slope = areaM2 * conductance * (response - 1);
        heatW[slot] = areaM2 * conductance * (disc - inside) - slope * inside;
        slopeWPerK[slot] = slope;
        evaporation += share[j] * law.evaporation;
        latentW += areaM2 * law.evaporation * (LATENT_AT_0C - LATENT_SLOPE * disc);
      }
      state.ledger[LEDGER.latent] += latentW * stepS;
      state.ledger[LEDGER.heatIn] += latentW * stepS; // the disc's net heat is booked as the half steps take it
      const juice = this.#juice[station];
      const sealed = around.vapourResistance === Number.POSITIVE_INFINITY;
      const before = endDeficit[end];
      const after = sealed ? before : Math.max(0, before + stepS * (evaporation - juice));
      endDeficit[end] = after;
      const factor = this.#massFactor[station] * faceM2;
      state.endEvaporatedKg[end] += factor * evaporation * stepS;
      state.endDrippedKg[end] += factor * (after - before - (evaporation - juice) * stepS);
      this.evaporationKgPerS += factor * evaporation;
    }
  }

  /** Heat through both end faces at temperatures `tempC`, by their straight lines [W]. */
  gainW(tempC: Float64Array): number {
    const count = this.#nodes;
    const toLast = (this.#stations - 2) * count;
    const heatW = this.heatW;
    const slopeWPerK = this.slopeWPerK;
    let gain = 0;
    for (let slot = 0; slot < 2 * count; slot++) {
      const at = slot < count ? slot : toLast + slot;
      gain += heatW[slot] + slopeWPerK[slot] * tempC[at];
    }
    return gain;
  }
}
