import type { Meat } from '../meat/index.js';
import { type Body, lineVolume } from './body.js';
import { dryableKgPerM3, SIDE_SHARE } from './dryable.js';
import { LATENT_AT_0C, LATENT_SLOPE } from './moistAir.js';
import type { NodeProperties } from './nodeProperties.js';
import { type HeatState, LEDGER } from './state.js';
import { HIGHEST_FRONT_C, LOWEST_FRONT_C, type SurfaceLaw } from './surfaceLaw.js';
import type { Surroundings } from './surroundings.js';
import { type Elimination, elimination, ONWARD, STAGE_ONE } from './twoStages.js';

/** What every station's surface comes to in one stage. */
interface Surfaces {
  readonly frontC: Float64Array;
  /** Through the crust [W/m²]. */
  readonly heat: Float64Array;
  readonly evaporation: Float64Array; // kg/(m²·s)
  readonly deficit: Float64Array; // kg/m²
}

const surfaces = (stations: number): Surfaces => ({
  frontC: new Float64Array(stations),
  heat: new Float64Array(stations),
  evaporation: new Float64Array(stations),
  deficit: new Float64Array(stations),
});

const FRONT_SETTLED_K = 1e-5; // Newton's error after such a correction is below 1e-11 K

/** Heat along the radius of every station, from the axis to the surface and what it sees. Only the surface's row is not linear. */
export class RadialLines {
  /** Evaporation over the latest step, of the true roast [kg/s]. */
  evaporationKgPerS = Number.NaN;

  readonly #law: SurfaceLaw;
  readonly #stations: number;
  readonly #nodes: number; // of one line
  readonly #shape: Float64Array; // area over distance of each face, for a radius of 1
  readonly #sideM2: Float64Array;
  readonly #massFactor: Float64Array;
  readonly #capacity: Float64Array;
  readonly #conductivity: Float64Array;
  readonly #juice: Float64Array;
  readonly #linkScale: Float64Array;
  readonly #most: Float64Array; // deficit at which a station is dry [kg/m²]
  readonly #lines: Elimination; // up to their surfaces, whose rows are left to solve:
  readonly #diagonal: Float64Array; // J/K
  readonly #link: Float64Array; // J/K to the shell below
  readonly #right: Float64Array; // J
  readonly #one: Float64Array; // °C after the first stage
  readonly #forward: Float64Array; // right sides, eliminated [°C]
  readonly #guessC: Float64Array;
  readonly #deficit: Float64Array; // where the second stage begins
  readonly #surfaceOne: Surfaces;
  readonly #surfaceTwo: Surfaces;

  constructor(body: Body, meat: Meat, properties: NodeProperties, law: SurfaceLaw) {
    const { stations, mesh, radiusM, lengthM, sideM2 } = body;
    const total = stations * (mesh.shells + 1);
    this.#law = law;
    this.#stations = stations;
    this.#nodes = mesh.shells + 1;
    this.#shape = mesh.link;
    this.#sideM2 = sideM2;
    this.#massFactor = body.massFactor;
    this.#capacity = properties.capacity;
    this.#conductivity = properties.conductivity;
    this.#juice = properties.juiceKgPerM2S;
    this.#linkScale = radiusM.map(
      (radius, i) => mesh.unitArea * radius ** (mesh.exponent - 1) * lengthM[i],
    );
    this.#most = sideM2.map(
      (side, i) => (SIDE_SHARE * dryableKgPerM3(meat) * lineVolume(body, i)) / side,
    );
    this.#lines = elimination(total);
    this.#one = new Float64Array(total);
    this.#forward = new Float64Array(total);
    this.#diagonal = new Float64Array(stations);
    this.#link = new Float64Array(stations);
    this.#right = new Float64Array(stations);
    this.#guessC = new Float64Array(stations);
    this.#deficit = new Float64Array(stations);
    this.#surfaceOne = surfaces(stations);
    this.#surfaceTwo = surfaces(stations);
  }

  /**
   * One step along every radius. Short loops one after another, not one long one: a compiler has them ready sooner, which is what
   * a cold start waits for.
   */
  advance(state: HeatState, stepS: number, first: Surroundings, last: Surroundings): void {
    const spanS = STAGE_ONE * stepS;
    const { tempC } = state;
    this.#eliminateLines(state, stepS);
    this.#guessFronts(state, stepS);
    this.#solveFronts(first, spanS, state.deficit, state.surfaceHeat, this.#surfaceOne);
    this.#backwardLines(this.#surfaceOne.frontC, this.#one);
    this.#onwardLines(state);
    this.#solveFronts(last, spanS, this.#deficit, this.#surfaceOne.heat, this.#surfaceTwo);
    this.#closeSurfaces(state, stepS);
    this.#backwardLines(this.#surfaceTwo.frontC, tempC);
  }

  /**
   * Eliminates every line from its axis outwards, up to the row of its surface. Two lines side by side: each division waits for the
   * row before, and meanwhile the processor works at the other line, which saves 3 % of a cook. A line left over is its own
   * partner.
   */
  #eliminateLines({ tempC }: HeatState, stepS: number): void {
    const stations = this.#stations;
    const { own, near, far } = this.#lines;
    const count = this.#nodes;
    const surface = count - 1;
    const capacity = this.#capacity;
    const conductivity = this.#conductivity;
    const shape = this.#shape;
    const linkScale = this.#linkScale;
    const forward = this.#forward;
    const diagonal = this.#diagonal;
    const surfaceLink = this.#link;
    const right = this.#right;
    const half = 0.5 * STAGE_ONE * stepS; // half for the mean of two conductivities
    for (let a = 0; a < stations; a += 2) {
      const b = a + 1 < stations ? a + 1 : a;
      const scaleA = half * linkScale[a];
      const scaleB = half * linkScale[b];
      let linkA = 0; // of the face just inside
      let linkB = 0;
      let keptA = 0; // J/K that the shells inside leave on this one
      let keptB = 0;
      let carriedA = 0;
      let carriedB = 0;
      let atA = a * count;
      let atB = b * count;
      for (let j = 0; j < surface; j++, atA++, atB++) {
        const outwardA = scaleA * shape[j] * (conductivity[atA] + conductivity[atA + 1]);
        const outwardB = scaleB * shape[j] * (conductivity[atB] + conductivity[atB + 1]);
        const heldA = capacity[atA] + keptA;
        const heldB = capacity[atB] + keptB;
        const invertedA = 1 / (heldA + outwardA);
        const invertedB = 1 / (heldB + outwardB);
        const ownA = capacity[atA] * invertedA;
        const ownB = capacity[atB] * invertedB;
        const nearA = linkA * invertedA;
        const nearB = linkB * invertedB;
        carriedA = ownA * tempC[atA] + nearA * carriedA;
        carriedB = ownB * tempC[atB] + nearB * carriedB;
        own[atA] = ownA;
        own[atB] = ownB;
        near[atA] = nearA;
        near[atB] = nearB;
        far[atA] = outwardA * invertedA;
        far[atB] = outwardB * invertedB;
        forward[atA] = carriedA;
        forward[atB] = carriedB;
        linkA = outwardA;
        linkB = outwardB;
        keptA = heldA * outwardA * invertedA; // the first product is ready before the division is
        keptB = heldB * outwardB * invertedB;
      }
      diagonal[a] = capacity[atA] + keptA;
      diagonal[b] = capacity[atB] + keptB;
      surfaceLink[a] = linkA;
      surfaceLink[b] = linkB;
      right[a] = capacity[atA] * tempC[atA] + linkA * carriedA;
      right[b] = capacity[atB] * tempC[atB] + linkB * carriedB;
    }
  }

  /** Where Newton's method begins in the first stage: the fronts go on as in the step before. */
  #guessFronts({ tempC, frontChangeK, lastStepS }: HeatState, stepS: number): void {
    const stations = this.#stations;
    const count = this.#nodes;
    const growth = lastStepS > 0 ? stepS / lastStepS : 0;
    for (let i = 0; i < stations; i++) {
      const now = tempC[i * count + count - 1];
      this.#guessC[i] = now + STAGE_ONE * frontChangeK[i] * growth;
    }
  }

  /** The second stage's right sides, which begin where the first stage points to. */
  #onwardLines({ tempC, deficit }: HeatState): void {
    const stations = this.#stations;
    const { own, near } = this.#lines;
    const count = this.#nodes;
    const surface = count - 1;
    const capacity = this.#capacity;
    const forward = this.#forward;
    const one = this.#one;
    for (let i = 0; i < stations; i++) {
      const top = i * count + surface;
      let carried = 0;
      for (let at = i * count; at < top; at++) {
        const now = tempC[at];
        carried = own[at] * (now + ONWARD * (one[at] - now)) + near[at] * carried;
        forward[at] = carried;
      }
      const now = tempC[top];
      const changeK = one[top] - now;
      this.#right[i] = capacity[top] * (now + ONWARD * changeK) + this.#link[i] * carried;
      this.#guessC[i] = now + changeK / STAGE_ONE;
      this.#deficit[i] = deficit[i] + ONWARD * (this.#surfaceOne.deficit[i] - deficit[i]);
    }
  }

  /** From the fronts inwards; `into` receives the temperatures. */
  #backwardLines(frontC: Float64Array, into: Float64Array): void {
    const stations = this.#stations;
    const { far } = this.#lines;
    const count = this.#nodes;
    const forward = this.#forward;
    for (let i = 0; i < stations; i++) {
      const base = i * count;
      const top = base + count - 1;
      let next = frontC[i];
      into[top] = next;
      for (let at = top - 1; at >= base; at--) {
        next = forward[at] + far[at] * next;
        into[at] = next;
      }
    }
  }

  /**
   * Every station's surface in one stage of `spanS` seconds.
   *
   * @param deficit - of each station before the stage [kg/m²]
   * @param heat - through each crust, to start from [W/m²]
   */
  #solveFronts(
    around: Surroundings,
    spanS: number,
    deficit: Float64Array,
    heat: Float64Array,
    into: Surfaces,
  ): void {
    const stations = this.#stations;
    const sideM2 = this.#sideM2;
    const law = this.#law;
    law.face(around);
    for (let i = 0; i < stations; i++) {
      law.begin(deficit[i], this.#juice[i], spanS, heat[i], this.#most[i]);
      into.frontC[i] = this.#surfaceRow(
        this.#diagonal[i],
        this.#right[i],
        spanS * sideM2[i],
        this.#guessC[i],
      );
      into.heat[i] = law.heatIn;
      into.evaporation[i] = law.evaporation;
      into.deficit[i] = law.deficit;
    }
  }

  /** Books what went through the surfaces in both stages. */
  #closeSurfaces(state: HeatState, stepS: number): void {
    const stations = this.#stations;
    const sideM2 = this.#sideM2;
    const massFactor = this.#massFactor;
    const { tempC, ledger } = state;
    const count = this.#nodes;
    const one = this.#surfaceOne;
    const two = this.#surfaceTwo;
    this.evaporationKgPerS = 0;
    for (let i = 0; i < stations; i++) {
      const front = two.frontC[i];
      const area = sideM2[i];
      const spanOne = (1 - STAGE_ONE) * stepS * area;
      const spanTwo = STAGE_ONE * stepS * area;
      const latentOne = LATENT_AT_0C - LATENT_SLOPE * one.frontC[i];
      const latentTwo = LATENT_AT_0C - LATENT_SLOPE * front;
      const evaporatedOne = spanOne * one.evaporation[i];
      const evaporatedTwo = spanTwo * two.evaporation[i];
      const evaporatedKg = evaporatedOne + evaporatedTwo;
      const grownKg = (two.deficit[i] - state.deficit[i]) * area;
      const runOffKg = grownKg - evaporatedKg + this.#juice[i] * stepS * area;
      ledger[LEDGER.heatIn] += spanOne * one.heat[i] + spanTwo * two.heat[i];
      ledger[LEDGER.latent] += evaporatedOne * latentOne + evaporatedTwo * latentTwo;
      state.frontChangeK[i] = front - tempC[i * count + count - 1];
      state.deficit[i] = two.deficit[i];
      state.surfaceHeat[i] = two.heat[i];
      state.outsideC[i] = this.#law.outsideC(front, two.deficit[i], two.heat[i]);
      state.evaporatedKg[i] += massFactor[i] * evaporatedKg;
      state.drippedKg[i] += massFactor[i] * runOffKg;
      this.evaporationKgPerS += (massFactor[i] * evaporatedKg) / stepS;
    }
  }

  /**
   * Front temperature that satisfies `diagonal * T - right = span * heat(T)`: Newton's method inside a bracket, which closes
   * on the only root because the left side rises and the right side falls.
   */
  #surfaceRow(diagonal: number, right: number, span: number, guessC: number): number {
    const law = this.#law;
    let low = LOWEST_FRONT_C;
    let high = HIGHEST_FRONT_C;
    let front = guessC;
    for (let round = 0; round < 60; round++) {
      law.at(front);
      const excess = diagonal * front - right - span * law.heat;
      if (excess > 0) high = front;
      else low = front;
      let change = -excess / (diagonal - span * law.heatSlope);
      if (Math.abs(change) < FRONT_SETTLED_K) {
        // last correction without another evaluation: every result moves along its own tangent
        law.heatIn += law.heatInSlope * change;
        law.evaporation += law.evaporationSlope * change;
        law.deficit = Math.max(0, law.deficit + law.deficitSlope * change);
        return front + change;
      }
      if (front + change <= low || front + change >= high) change = (low + high) / 2 - front;
      front += change;
    }
    return front;
  }
}
