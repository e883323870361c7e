import { type Meat, ROW } from '../meat/index.js';
import type { Body } from './body.js';
import { lineVolume } from './body.js';
import type { ShapeExponent } from './mesh.js';
import { LATENT_AT_0C, LATENT_SLOPE } from './moistAir.js';
import { type HeatState, LEDGER } from './state.js';
import { BEEF_CRUST, type Crust, SurfaceLaw } from './surfaceLaw.js';
import type { Surroundings } from './surroundings.js';

/** Volume within a fraction of the radius, over the whole, without a power function. */
const volumeTo = (x: number, exponent: ShapeExponent): number =>
  exponent === 0 ? x : exponent === 1 ? x * x : x * x * x;

/** What the side and the end faces see at one moment. */
export interface Exposure {
  readonly side: Surroundings;
  readonly ends: Surroundings;
}

/**
 * Fraction of a step after which the first stage ends: 1 - 1/sqrt(2) makes the two-stage diagonally implicit Runge-Kutta
 * method L-stable and of second order. Source: Alexander 1977, SIAM J Numer Anal 14:1006-1021 (from memory).
 */
export const STAGE_ONE = 1 - Math.SQRT1_2;

const WATER_HEAT = 4180; // J/(kg·K), of the water a dry crust no longer holds
const LEAST_CAPACITY = 0.15 * 3500; // J/(kg·K): even dry crust stores some heat
const DISC_SETTLED_K = 1e-3; // Newton's error after such a correction is below 1e-7 K
const FRONT_SETTLED_K = 1e-5; // and here below 1e-11 K
const LOWEST_FRONT_C = -60;
const HIGHEST_FRONT_C = 460;

/*
 * Water that can dry off beside what leaves as juice: three quarters of it to the side, and a quarter of what lies within one
 * radius of an end to that end face, so that no part of a roast loses more than it has. Reached only by thin tips in long cooks.
 */
const SIDE_SHARE = 0.75;
const END_SHARE = 0.25;

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
  readonly #crust: Crust;
  readonly #law: SurfaceLaw;
  readonly #nodes: number;
  readonly #lineKg: Float64Array; // raw mass of each station's line
  readonly #linkScale: Float64Array;
  readonly #exposedM2: Float64Array; // side and end faces
  readonly #faceM2: Float64Array; // the two end faces
  readonly #mostSide: Float64Array; // deficit at which a station, or an end, is dry [kg/m²]
  readonly #mostEnd: Float64Array;
  readonly #spread: Float64Array; // length / radius²: how far apart stations are to axial heat

  readonly #capacity: Float64Array; // J/K
  readonly #conductivity: Float64Array;
  readonly #juice: Float64Array; // kg/(m²·s) reaching the surface
  readonly #axialOne: Float64Array; // °C after the first stage
  readonly #axialLink: Float64Array; // W/K times one stage
  readonly #axialFactor: Float64Array;
  readonly #axialInverse: Float64Array;
  readonly #link: Float64Array; // of one line
  readonly #factor: Float64Array;
  readonly #inverse: Float64Array;
  readonly #right: Float64Array;
  readonly #stageOne: Float64Array;
  readonly #endHeat: Float64Array; // W into each shell of each end at its present temperature
  readonly #endSlope: Float64Array; // W/K
  readonly #endFrom: Float64Array; // °C the two lines above are taken at

  /** Evaporation over the latest step, of the true roast [kg/s]. */
  evaporationKgPerS = Number.NaN;

  constructor(body: Body, meat: Meat, crust: Crust = BEEF_CRUST) {
    const { stations, mesh } = body;
    const count = mesh.shells + 1;
    this.body = body;
    this.meat = meat;
    this.#crust = crust;
    this.#law = new SurfaceLaw(crust);
    this.#nodes = count;
    this.#lineKg = new Float64Array(stations);
    this.#linkScale = new Float64Array(stations);
    this.#exposedM2 = body.sideM2.slice();
    this.#faceM2 = new Float64Array(2);
    this.#spread = new Float64Array(stations);
    for (let i = 0; i < stations; i++) {
      const radius = body.radiusM[i];
      this.#lineKg[i] = meat.densityKgPerM3 * lineVolume(body, i);
      this.#linkScale[i] = mesh.unitArea * radius ** (mesh.exponent - 1) * body.lengthM[i];
      this.#spread[i] = body.lengthM[i] / (radius * radius);
    }
    if (body.endsExposed) {
      for (const [end, station] of [0, stations - 1].entries()) {
        this.#faceM2[end] = Math.PI * body.radiusM[station] ** 2;
        this.#exposedM2[station] += this.#faceM2[end];
      }
    }
    const dryable = meat.waterFraction - meat.holding.amplitude; // kg per kg of raw meat
    this.#mostSide = this.#lineKg.map((kg, i) => (SIDE_SHARE * dryable * kg) / body.sideM2[i]);
    this.#mostEnd = Float64Array.of(
      END_SHARE * dryable * meat.densityKgPerM3 * body.radiusM[0],
      END_SHARE * dryable * meat.densityKgPerM3 * body.radiusM[stations - 1],
    );
    const total = stations * count;
    this.#capacity = new Float64Array(total);
    this.#conductivity = new Float64Array(total);
    this.#axialOne = new Float64Array(total);
    this.#axialLink = new Float64Array(total);
    this.#axialFactor = new Float64Array(total);
    this.#axialInverse = new Float64Array(total);
    this.#juice = new Float64Array(stations);
    this.#link = new Float64Array(count);
    this.#factor = new Float64Array(count);
    this.#inverse = new Float64Array(count);
    this.#right = new Float64Array(count);
    this.#stageOne = new Float64Array(count);
    this.#endHeat = new Float64Array(2 * count);
    this.#endSlope = new Float64Array(2 * count);
    this.#endFrom = new Float64Array(2 * count);
  }

  /**
   * Advances `state` by `stepS` seconds.
   *
   * @param first - surroundings at {@link STAGE_ONE} of the step
   * @param middle - at half of it, for the end faces
   * @param last - at its end
   */
  step(state: HeatState, stepS: number, first: Exposure, middle: Exposure, last: Exposure): void {
    this.evaporationKgPerS = 0;
    this.#properties(state, stepS);
    const { axial, endsExposed } = this.body;
    const along = axial || endsExposed;
    if (endsExposed) this.#linearEnds(state, stepS, middle.ends);
    if (along) {
      this.#axialFactors((STAGE_ONE * stepS) / 2);
      this.#axialHalf(state, stepS / 2);
    }
    this.#radial(state, stepS, first.side, last.side);
    if (along) this.#axialHalf(state, stepS / 2);
    this.#close(state, stepS);
  }

  /** Releases juice and sets conductivity and capacity of every node at mid-step. */
  #properties(state: HeatState, stepS: number): void {
    const { meat } = this;
    const { mesh, stations, radiusM } = this.body;
    const { table, lowC, perK, waterHeat, dryHeat, holding } = meat;
    const { share, face, exponent } = mesh;
    const { removableWater } = this.#crust;
    const { tempC, previousC, water } = state;
    const count = this.#nodes;
    const capacity = this.#capacity;
    const conductivity = this.#conductivity;
    const ahead = state.lastStepS > 0 ? stepS / (2 * state.lastStepS) : 0;
    const lost = 1 - Math.exp(-stepS / holding.delayS); // of the water no longer held
    const [w0, w1, w2] = waterHeat;
    const [d0, d1, d2] = dryHeat;
    const lastPosition = meat.rows - 1;
    let juiceJ = 0;
    for (let i = 0; i < stations; i++) {
      const kg = this.#lineKg[i];
      let released = 0;
      for (let j = 0, at = i * count; j < count; j++, at++) {
        const now = tempC[at];
        let position = (now + (now - previousC[at]) * ahead - lowC) * perK;
        previousC[at] = now;
        if (position < 0) position = 0;
        else if (position > lastPosition) position = lastPosition;
        const row = position < lastPosition ? position | 0 : lastPosition - 1;
        const part = position - row;
        const low = row * ROW;
        const high = low + ROW;
        const t = lowC + position / perK;
        const held = table[low + 4] + part * (table[high + 4] - table[low + 4]);
        const before = water[at];
        const gone = before > held ? (before - held) * lost : 0;
        const m = before - 0.5 * gone;
        water[at] = before - gone;
        released += share[j] * gone;
        juiceJ += kg * share[j] * gone * t * (w0 + t * (w1 / 2 + (t * w2) / 3));
        const kWater = table[low] + part * (table[high] - table[low]);
        const kDry = table[low + 1] + part * (table[high + 1] - table[low + 1]);
        const vWater = table[low + 2] + part * (table[high + 2] - table[low + 2]);
        const vDry = table[low + 3] + part * (table[high + 3] - table[low + 3]);
        conductivity[at] = (m * kWater + kDry) / (m * vWater + vDry);
        capacity[at] = kg * share[j] * (m * (w0 + t * (w1 + t * w2)) + d0 + t * (d1 + t * d2));
      }
      // the dry crust holds no water: take its heat capacity from the nodes it covers
      const inner = Math.max(0, 1 - state.deficit[i] / (removableWater * radiusM[i]));
      const perShare = (WATER_HEAT * removableWater * kg) / meat.densityKgPerM3;
      for (let j = count - 1, covered = true; covered && j >= 0; j--) {
        const from = Math.min(face[j], Math.max(inner, j > 0 ? face[j - 1] : 0));
        const overlap = volumeTo(face[j], exponent) - volumeTo(from, exponent);
        covered = overlap > 0;
        const at = i * count + j;
        const least = kg * share[j] * LEAST_CAPACITY;
        capacity[at] = Math.max(capacity[at] - perShare * overlap, Math.min(capacity[at], least));
      }
      const expelledKg = kg * released;
      const toSurfaceKg = holding.surfaceShare * expelledKg;
      this.#juice[i] = toSurfaceKg / (stepS * this.#exposedM2[i]);
      state.drippedKg[i] += this.body.massFactor[i] * (expelledKg - toSurfaceKg);
    }
    state.ledger[LEDGER.juice] += juiceJ;
  }

  /** One straight line per shell of each end face: what its disc lets through, at the present temperature. */
  #linearEnds(state: HeatState, stepS: number, around: Surroundings): void {
    const { body } = this;
    const law = this.#law;
    const count = this.#nodes;
    const { share } = body.mesh;
    const { tempC, discC, endDeficit } = state;
    law.face(around);
    for (let end = 0; end < 2; end++) {
      const station = end === 0 ? 0 : body.stations - 1;
      const faceM2 = this.#faceM2[end];
      const half = body.lengthM[station] / 2;
      let evaporation = 0;
      let latentW = 0;
      for (let j = 0; j < count; j++) {
        const at = station * count + j;
        const slot = end * count + j;
        const conductance = this.#conductivity[at] / half; // W/(m²·K)
        const inside = tempC[at];
        let disc = discC[slot];
        law.begin(endDeficit[end], this.#juice[station], 0, 0, this.#mostEnd[end]);
        for (let round = 0; round < 12; round++) {
          law.at(disc);
          const change = (conductance * (inside - disc) + law.heat) / (conductance - law.heatSlope);
          disc = Math.min(Math.max(disc + change, LOWEST_FRONT_C), HIGHEST_FRONT_C);
          if (Math.abs(change) < DISC_SETTLED_K) break;
        }
        discC[slot] = disc;
        const areaM2 = faceM2 * share[j];
        const response = conductance / (conductance - law.heatSlope); // K of disc per K of shell
        this.#endHeat[slot] = areaM2 * conductance * (disc - inside);
        this.#endSlope[slot] = areaM2 * conductance * (response - 1);
        this.#endFrom[slot] = inside;
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
      const factor = body.massFactor[station] * faceM2;
      state.endEvaporatedKg[end] += factor * evaporation * stepS;
      state.endDrippedKg[end] += factor * (after - before - (evaporation - juice) * stepS);
      this.evaporationKgPerS += factor * evaporation;
    }
  }

  /** Factors of the axial systems, one per shell, shared by both stages of both half steps. */
  #axialFactors(span: number): void {
    const { stations, axial, endsExposed, mesh } = this.body;
    const { share } = mesh;
    const count = this.#nodes;
    const k = this.#conductivity;
    const link = this.#axialLink;
    const factor = this.#axialFactor;
    const inverse = this.#axialInverse;
    for (let i = 0; i < stations; i++) {
      const near = this.#spread[i];
      const far = i + 1 < stations ? this.#spread[i + 1] : 0;
      const scale = axial && i + 1 < stations ? 2 * Math.PI * span : 0;
      for (let j = 0, at = i * count; j < count; j++, at++) {
        let onward = 0;
        if (scale > 0) {
          const a = k[at];
          const b = k[at + count];
          onward = (scale * share[j] * a * b) / (near * b + far * a);
        }
        link[at] = onward;
        let diagonal = this.#capacity[at] + onward;
        if (i > 0) diagonal += link[at - count] * (1 - factor[at - count]);
        if (endsExposed) {
          if (i === 0) diagonal -= span * this.#endSlope[j];
          if (i === stations - 1) diagonal -= span * this.#endSlope[count + j];
        }
        const inverted = 1 / diagonal;
        inverse[at] = inverted;
        factor[at] = onward * inverted;
      }
    }
  }

  /** Half a step along the axis, in place, by the two stages the radial steps use. */
  #axialHalf(state: HeatState, halfS: number): void {
    const { tempC, ledger } = state;
    const one = this.#axialOne;
    const onward = (1 - STAGE_ONE) / STAGE_ONE;
    this.#axialSolve(tempC, one, STAGE_ONE * halfS);
    const heatOne = this.#endGain(one);
    for (let at = 0; at < tempC.length; at++) tempC[at] += onward * (one[at] - tempC[at]);
    this.#axialSolve(tempC, tempC, STAGE_ONE * halfS);
    const heatTwo = this.#endGain(tempC);
    ledger[LEDGER.heatIn] += halfS * ((1 - STAGE_ONE) * heatOne + STAGE_ONE * heatTwo);
  }

  /** One implicit stage of length `span` along the axis, all shells at once; `into` may be `from`. */
  #axialSolve(from: Float64Array, into: Float64Array, span: number): void {
    const { stations, endsExposed } = this.body;
    const count = this.#nodes;
    const capacity = this.#capacity;
    const link = this.#axialLink;
    const factor = this.#axialFactor;
    const inverse = this.#axialInverse;
    for (let i = 0; i < stations; i++) {
      const first = endsExposed && i === 0;
      const last = endsExposed && i === stations - 1;
      for (let j = 0, at = i * count; j < count; j++, at++) {
        let right = capacity[at] * from[at];
        if (first) right += span * (this.#endHeat[j] - this.#endSlope[j] * this.#endFrom[j]);
        if (last) {
          const slot = count + j;
          right += span * (this.#endHeat[slot] - this.#endSlope[slot] * this.#endFrom[slot]);
        }
        if (i > 0) right += link[at - count] * into[at - count];
        into[at] = right * inverse[at];
      }
    }
    for (let at = (stations - 1) * count - 1; at >= 0; at--)
      into[at] += factor[at] * into[at + count];
  }

  /** Heat through both end faces at temperatures `tempC`, by their straight lines [W]. */
  #endGain(tempC: Float64Array): number {
    const { stations, endsExposed } = this.body;
    if (!endsExposed) return 0;
    const count = this.#nodes;
    let heatW = 0;
    for (let slot = 0; slot < 2 * count; slot++) {
      const at = slot < count ? slot : (stations - 2) * count + slot;
      heatW += this.#endHeat[slot] + this.#endSlope[slot] * (tempC[at] - this.#endFrom[slot]);
    }
    return heatW;
  }

  /** One step along every radius. */
  #radial(state: HeatState, stepS: number, first: Surroundings, last: Surroundings): void {
    const { body } = this;
    const count = this.#nodes;
    const surface = count - 1;
    const span = STAGE_ONE * stepS;
    const onward = (1 - STAGE_ONE) / STAGE_ONE;
    const law = this.#law;
    const { tempC } = state;
    const growth = state.lastStepS > 0 ? stepS / state.lastStepS : 0;
    const capacity = this.#capacity;
    const conductivity = this.#conductivity;
    const shape = body.mesh.link;
    const link = this.#link;
    const factor = this.#factor;
    const inverse = this.#inverse;
    const right = this.#right;
    const one = this.#stageOne;
    for (let i = 0; i < body.stations; i++) {
      const base = i * count;
      const scale = 0.5 * span * this.#linkScale[i];
      let below = 0; // link and factor of the face just inside
      let open = 1;
      let carried = 0;
      for (let j = 0, at = base; j < surface; j++, at++) {
        const outward = scale * shape[j] * (conductivity[at] + conductivity[at + 1]);
        const inverted = 1 / (capacity[at] + below * open + outward);
        carried = (capacity[at] * tempC[at] + below * carried) * inverted;
        right[j] = carried;
        link[j] = outward;
        inverse[j] = inverted;
        const f = outward * inverted;
        factor[j] = f;
        below = outward;
        open = 1 - f;
      }
      const top = base + surface;
      const diagonal = capacity[top] + below * open;
      const area = body.sideM2[i];
      const juice = this.#juice[i];
      const before = state.deficit[i];
      law.face(first);
      law.begin(before, juice, span, state.surfaceHeat[i], this.#mostSide[i]);
      one[surface] = this.#surfaceRow(
        diagonal,
        capacity[top] * tempC[top] + below * carried,
        span * area,
        tempC[top] + STAGE_ONE * state.frontChangeK[i] * growth,
      );
      for (let j = surface - 1; j >= 0; j--) one[j] = right[j] + factor[j] * one[j + 1];
      const heatOne = law.heatIn;
      const evaporationOne = law.evaporation;
      const latentOne = LATENT_AT_0C - LATENT_SLOPE * one[surface];
      const deficitOne = law.deficit;

      carried = 0;
      for (let j = 0, at = base; j < surface; j++, at++) {
        const from = tempC[at] + onward * (one[j] - tempC[at]);
        const inner = j > 0 ? link[j - 1] * carried : 0;
        carried = (capacity[at] * from + inner) * inverse[j];
        right[j] = carried;
      }
      const from = tempC[top] + onward * (one[surface] - tempC[top]);
      law.face(last);
      law.begin(before + onward * (deficitOne - before), juice, span, heatOne, this.#mostSide[i]);
      const front = this.#surfaceRow(
        diagonal,
        capacity[top] * from + below * carried,
        span * area,
        tempC[top] + (one[surface] - tempC[top]) / STAGE_ONE,
      );
      state.frontChangeK[i] = front - tempC[top];
      tempC[top] = front;
      for (let j = surface - 1, at = top - 1; j >= 0; j--, at--) {
        tempC[at] = right[j] + factor[j] * tempC[at + 1];
      }
      const latentTwo = LATENT_AT_0C - LATENT_SLOPE * front;
      const spanOne = stepS * (1 - STAGE_ONE) * area;
      const spanTwo = span * area;
      const evaporatedKg = spanOne * evaporationOne + spanTwo * law.evaporation;
      state.ledger[LEDGER.heatIn] += spanOne * heatOne + spanTwo * law.heatIn;
      state.ledger[LEDGER.latent] +=
        spanOne * evaporationOne * latentOne + spanTwo * law.evaporation * latentTwo;
      state.deficit[i] = law.deficit;
      state.surfaceHeat[i] = law.heatIn;
      state.outsideC[i] = law.outsideC(front);
      const runOffKg = (law.deficit - before) * area - evaporatedKg + juice * stepS * area;
      const factorTrue = body.massFactor[i];
      state.evaporatedKg[i] += factorTrue * evaporatedKg;
      state.drippedKg[i] += factorTrue * runOffKg;
      this.evaporationKgPerS += (factorTrue * evaporatedKg) / stepS;
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
