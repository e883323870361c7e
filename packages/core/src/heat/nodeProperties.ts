import { type Meat, ROW } from '../meat/index.js';
import { type Body, lineVolume } from './body.js';
import type { ShapeExponent } from './mesh.js';
import { type HeatState, LEDGER } from './state.js';
import type { Crust } from './surfaceLaw.js';

const WATER_HEAT = 4180; // J/(kg·K), of the water a dry crust no longer holds
const LEAST_CAPACITY = 0.15 * 3500; // J/(kg·K): even dry crust stores some heat

/** Volume within a fraction of the radius, over the whole, without a power function. */
const volumeTo = (x: number, exponent: ShapeExponent): number =>
  exponent === 0 ? x : exponent === 1 ? x * x : x * x * x;

/**
 * What the nodes of a body are made of in the middle of a step: how they conduct, what heat they hold, and the juice they let go.
 * All that its loops read stands in its own fields: objects made elsewhere may change their layout, and compiled loops with it.
 */
export class NodeProperties {
  /** Of every node [J/K]. */
  readonly capacity: Float64Array;
  /** Of every node [W/(m·K)]. */
  readonly conductivity: Float64Array;
  /** Reaching each station's surface. */
  readonly juiceKgPerM2S: Float64Array;

  readonly #stations: number;
  readonly #count: number; // nodes of one line
  readonly #exponent: ShapeExponent;
  readonly #share: Float64Array;
  readonly #face: Float64Array;
  readonly #massFactor: Float64Array;
  readonly #table: Float64Array;
  readonly #lowC: number;
  readonly #perK: number;
  readonly #rows: number;
  readonly #heat: Float64Array; // coefficients of the heat capacity: water, then all else
  readonly #delayS: number;
  readonly #surfaceShare: number;
  readonly #lineKg: Float64Array; // raw mass of each station's line
  readonly #exposedM2: Float64Array; // side and end faces
  readonly #dryWater: Float64Array; // deficit at which a flat front would reach the axis [kg/m²]
  readonly #dryHeat: Float64Array; // J/K that it would take with it

  constructor(body: Body, meat: Meat, crust: Crust) {
    const { stations, mesh, radiusM, sideM2 } = body;
    const total = stations * (mesh.shells + 1);
    this.capacity = new Float64Array(total);
    this.conductivity = new Float64Array(total);
    this.juiceKgPerM2S = new Float64Array(stations);
    this.#stations = stations;
    this.#count = mesh.shells + 1;
    this.#exponent = mesh.exponent;
    this.#share = mesh.share;
    this.#face = mesh.face;
    this.#massFactor = body.massFactor;
    this.#table = meat.table;
    this.#lowC = meat.lowC;
    this.#perK = meat.perK;
    this.#rows = meat.rows;
    this.#heat = Float64Array.of(...meat.waterHeat, ...meat.dryHeat);
    this.#delayS = meat.holding.delayS;
    this.#surfaceShare = meat.holding.surfaceShare;
    this.#lineKg = radiusM.map((_, i) => meat.densityKgPerM3 * lineVolume(body, i));
    this.#exposedM2 = sideM2.slice();
    if (body.endsExposed) {
      for (const station of [0, stations - 1]) {
        this.#exposedM2[station] += Math.PI * radiusM[station] ** 2;
      }
    }
    this.#dryWater = radiusM.map((radius) => crust.removableWater * radius);
    this.#dryHeat = radiusM.map((_, i) => WATER_HEAT * crust.removableWater * lineVolume(body, i));
  }

  /** Lets `state` release the juice of a step of `stepS` seconds, and sets the properties for it. */
  update(state: HeatState, stepS: number): void {
    this.#atMidStep(state, stepS);
    this.#dryCrusts(state);
  }

  /** Releases juice and sets conductivity and capacity of every node at mid-step. */
  #atMidStep(state: HeatState, stepS: number): void {
    const { tempC, previousC, water, drippedKg } = state;
    const stations = this.#stations;
    const count = this.#count;
    const share = this.#share;
    const table = this.#table;
    const heat = this.#heat;
    const capacity = this.capacity;
    const conductivity = this.conductivity;
    const ahead = state.lastStepS > 0 ? stepS / (2 * state.lastStepS) : 0;
    const lost = 1 - Math.exp(-stepS / this.#delayS); // of the water no longer held
    const w0 = heat[0];
    const w1 = heat[1];
    const w2 = heat[2];
    const d0 = heat[3];
    const d1 = heat[4];
    const d2 = heat[5];
    const halfW1 = w1 / 2;
    const thirdW2 = w2 / 3;
    const lowC = this.#lowC;
    const perK = this.#perK;
    const kPerRow = 1 / perK;
    const lastRow = this.#rows - 2;
    const lastPosition = this.#rows - 1;
    let juiceJ = 0;
    for (let i = 0; i < stations; i++) {
      const kg = this.#lineKg[i];
      let released = 0;
      let carried = 0; // J per kg of the line, with what is released
      for (let j = 0, at = i * count; j < count; j++, at++) {
        const now = tempC[at];
        let position = (now + (now - previousC[at]) * ahead - lowC) * perK;
        previousC[at] = now;
        if (!(position > 0)) position = 0;
        let row = lastRow;
        if (position < lastPosition) row = position | 0;
        else position = lastPosition;
        const part = position - row;
        const first = row * ROW; // each property and its rise to the next row
        const t = lowC + position * kPerRow;
        const held = table[first + 8] + part * table[first + 9];
        const before = water[at];
        const gone = before > held ? (before - held) * lost : 0;
        const m = before - 0.5 * gone;
        water[at] = before - gone;
        const shell = share[j];
        const leaving = shell * gone;
        released += leaving;
        carried += leaving * t * (w0 + t * (halfW1 + t * thirdW2));
        const kWater = table[first] + part * table[first + 1];
        const kDry = table[first + 2] + part * table[first + 3];
        const vWater = table[first + 4] + part * table[first + 5];
        const vDry = table[first + 6] + part * table[first + 7];
        conductivity[at] = (m * kWater + kDry) / (m * vWater + vDry);
        capacity[at] = kg * shell * (m * (w0 + t * (w1 + t * w2)) + d0 + t * (d1 + t * d2));
      }
      juiceJ += kg * carried;
      const expelledKg = kg * released;
      const toSurfaceKg = this.#surfaceShare * expelledKg;
      this.juiceKgPerM2S[i] = toSurfaceKg / (stepS * this.#exposedM2[i]);
      drippedKg[i] += this.#massFactor[i] * (expelledKg - toSurfaceKg);
    }
    state.ledger[LEDGER.juice] += juiceJ;
  }

  /** A dry crust holds no water: takes its heat capacity from the nodes it covers. */
  #dryCrusts({ deficit }: HeatState): void {
    const share = this.#share;
    const face = this.#face;
    const exponent = this.#exponent;
    const capacity = this.capacity;
    const count = this.#count;
    for (let i = 0; i < this.#stations; i++) {
      const kg = this.#lineKg[i];
      const inner = Math.max(0, 1 - deficit[i] / this.#dryWater[i]);
      const perShare = this.#dryHeat[i];
      for (let j = count - 1, covered = true; covered && j >= 0; j--) {
        const from = Math.min(face[j], Math.max(inner, j > 0 ? face[j - 1] : 0));
        const overlap = volumeTo(face[j], exponent) - volumeTo(from, exponent);
        covered = overlap > 0;
        const at = i * count + j;
        const least = kg * share[j] * LEAST_CAPACITY;
        capacity[at] = Math.max(capacity[at] - perShare * overlap, Math.min(capacity[at], least));
      }
    }
  }
}
