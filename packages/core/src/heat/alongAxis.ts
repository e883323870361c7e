import type { Body } from './body.js';
import type { EndFaces } from './endFaces.js';
import type { NodeProperties } from './nodeProperties.js';
import { type HeatState, LEDGER } from './state.js';
import { type Elimination, elimination, ONWARD, STAGE_ONE } from './twoStages.js';

/** Heat from station to station along the axis, and through the end faces where they are exposed: one system for each shell. */
export class AlongAxis {
  readonly #ends: EndFaces | undefined;
  readonly #stations: number;
  readonly #nodes: number; // of one line
  readonly #axial: boolean;
  readonly #share: Float64Array;
  readonly #capacity: Float64Array;
  readonly #conductivity: Float64Array;
  readonly #endHeat: Float64Array; // W into each shell of each end if it were at 0 °C
  readonly #endSlope: Float64Array; // W/K
  readonly #spread: Float64Array; // length / radius²: how far apart stations are
  readonly #along: Elimination; // shell by shell
  readonly #one: Float64Array; // °C after the first stage
  readonly #link: Float64Array; // W/K times one stage, from each shell of the station before
  readonly #kept: Float64Array; // J/K that the stations before leave on each shell
  readonly #endRise: Float64Array; // K by the ends' heat in one stage, once eliminated

  constructor(body: Body, properties: NodeProperties, ends: EndFaces | undefined) {
    const { stations, mesh, lengthM, radiusM } = body;
    const count = mesh.shells + 1;
    this.#ends = ends;
    this.#stations = stations;
    this.#nodes = count;
    this.#axial = body.axial;
    this.#share = mesh.share;
    this.#capacity = properties.capacity;
    this.#conductivity = properties.conductivity;
    this.#endHeat = ends?.heatW ?? new Float64Array(2 * count);
    this.#endSlope = ends?.slopeWPerK ?? new Float64Array(2 * count);
    this.#spread = lengthM.map((length, i) => length / (radiusM[i] * radiusM[i]));
    this.#along = elimination(stations * count);
    this.#one = new Float64Array(stations * count);
    this.#link = new Float64Array(count);
    this.#kept = new Float64Array(count);
    this.#endRise = new Float64Array(2 * count);
  }

  /** Eliminates the systems for both stages of an {@link advance} of `halfS` seconds. */
  eliminate(halfS: number): void {
    const spanS = STAGE_ONE * halfS;
    const stations = this.#stations;
    const axial = this.#axial;
    const share = this.#share;
    const { own, near, far } = this.#along;
    const count = this.#nodes;
    const total = stations * count;
    const lastStation = stations - 1;
    const conductivity = this.#conductivity;
    const capacity = this.#capacity;
    const link = this.#link;
    const kept = this.#kept;
    const endHeat = this.#endHeat;
    const endSlope = this.#endSlope;
    const endRise = this.#endRise;
    for (let j = 0; j < count; j++) {
      link[j] = 0;
      kept[j] = -spanS * endSlope[j];
    }
    for (let i = 0; i < stations; i++) {
      const linked = axial && i < lastStation;
      const scale = linked ? 2 * Math.PI * spanS : 0;
      const spread = this.#spread[i];
      const spreadNext = linked ? this.#spread[i + 1] : 1;
      const step = linked ? count : 0;
      if (i === lastStation) {
        for (let j = 0; j < count; j++) kept[j] -= spanS * endSlope[count + j];
      }
      for (let j = 0, at = i * count; j < count; j++, at++) {
        const k = conductivity[at];
        const kNext = conductivity[at + step];
        const onward = (scale * share[j] * k * kNext) / (spread * kNext + spreadNext * k);
        const held = capacity[at] + kept[j];
        const inverted = 1 / (held + onward);
        const f = onward * inverted;
        own[at] = capacity[at] * inverted;
        near[at] = link[j] * inverted;
        far[at] = f;
        link[j] = onward;
        kept[j] = held * f;
      }
    }
    for (let j = 0, at = total - count; j < count; j++, at++) {
      endRise[j] = (spanS * endHeat[j] * own[j]) / capacity[j];
      endRise[count + j] = (spanS * endHeat[count + j] * own[at]) / capacity[at];
    }
  }

  /** `halfS` seconds along the axis, in place, by the two stages the radial steps use. */
  advance(state: HeatState, halfS: number): void {
    const { tempC, ledger } = state;
    const one = this.#one;
    this.#first(tempC, one);
    this.#second(one, tempC);
    if (this.#ends === undefined) return;
    const gainOneW = this.#ends.gainW(one);
    const gainTwoW = this.#ends.gainW(tempC);
    ledger[LEDGER.heatIn] += halfS * ((1 - STAGE_ONE) * gainOneW + STAGE_ONE * gainTwoW);
  }

  /** The first implicit stage along the axis, all shells at once. */
  #first(from: Float64Array, into: Float64Array): void {
    const { own, near } = this.#along;
    const endRise = this.#endRise;
    const count = this.#nodes;
    const total = from.length;
    for (let at = 0; at < count; at++) into[at] = own[at] * from[at] + endRise[at];
    for (let at = count, before = 0; at < total; at++, before++) {
      into[at] = own[at] * from[at] + near[at] * into[before];
    }
    this.#back(into);
  }

  /** The second stage, in place, which begins where the first one, `one`, points to. */
  #second(one: Float64Array, tempC: Float64Array): void {
    const { own, near } = this.#along;
    const endRise = this.#endRise;
    const count = this.#nodes;
    const total = tempC.length;
    for (let at = 0; at < count; at++) {
      const now = tempC[at];
      tempC[at] = own[at] * (now + ONWARD * (one[at] - now)) + endRise[at];
    }
    for (let at = count, before = 0; at < total; at++, before++) {
      const now = tempC[at];
      tempC[at] = own[at] * (now + ONWARD * (one[at] - now)) + near[at] * tempC[before];
    }
    this.#back(tempC);
  }

  /** From the last station back to the first. */
  #back(into: Float64Array): void {
    const { far } = this.#along;
    const endRise = this.#endRise;
    const count = this.#nodes;
    const total = into.length;
    const last = total - count;
    for (let at = last, slot = count; at < total; at++, slot++) into[at] += endRise[slot];
    for (let at = last - 1, next = total - 1; at >= 0; at--, next--) {
      into[at] += far[at] * into[next];
    }
  }
}
