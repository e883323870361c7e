import type { Meat } from '../meat/index.js';
import type { Body } from './body.js';
import { lineVolume } from './body.js';
import { LATENT_AT_0C, LATENT_SLOPE } from './moistAir.js';
import { NodeProperties } from './nodeProperties.js';
import { type HeatState, LEDGER } from './state.js';
import { BEEF_CRUST, type Crust, SurfaceLaw } from './surfaceLaw.js';
import type { Surroundings } from './surroundings.js';

/**
 * A tridiagonal system, capacity * (new - old) = what flows in over a stage, eliminated once for any number of old temperatures:
 * forward new = own * old + near * new of the row before; backward new += far * new of the row after.
 */
interface Elimination {
  readonly own: Float64Array;
  readonly near: Float64Array;
  readonly far: Float64Array;
}

const elimination = (rows: number): Elimination => ({
  own: new Float64Array(rows),
  near: new Float64Array(rows),
  far: new Float64Array(rows),
});

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
/** The second stage begins at the step's first temperatures, moved on by so much of what the first stage changed. */
const ONWARD = (1 - STAGE_ONE) / STAGE_ONE;

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
  readonly #law: SurfaceLaw;
  readonly #nodeProperties: NodeProperties;

  // of the body and the meat, what the loops read: objects made elsewhere may change their layout, and compiled loops with it
  readonly #stations: number;
  readonly #nodes: number; // of one line
  readonly #axial: boolean;
  readonly #endsExposed: boolean;
  readonly #share: Float64Array;
  readonly #shape: Float64Array; // area over distance of each face, for a radius of 1
  readonly #lengthM: Float64Array;
  readonly #sideM2: Float64Array;
  readonly #massFactor: Float64Array;

  readonly #linkScale: Float64Array;
  readonly #faceM2: Float64Array; // the two end faces
  readonly #mostSide: Float64Array; // deficit at which a station, or an end, is dry [kg/m²]
  readonly #mostEnd: Float64Array;
  readonly #spread: Float64Array; // length / radius²: how far apart stations are to axial heat

  // views of the node properties
  readonly #capacity: Float64Array; // J/K
  readonly #conductivity: Float64Array;
  readonly #juice: Float64Array; // kg/(m²·s) reaching the surface
  readonly #along: Elimination; // the axial systems, shell by shell
  readonly #alongOne: Float64Array; // °C after the first stage
  readonly #lines: Elimination; // the radial systems, up to their surfaces; there, near is the link itself [W/K times one stage]
  readonly #radialOne: Float64Array;
  readonly #forward: Float64Array; // their right sides, eliminated
  readonly #diagonal: Float64Array; // of each surface row
  readonly #right: Float64Array;
  readonly #guessC: Float64Array;
  readonly #deficit: Float64Array; // where the second stage begins
  readonly #surfaceOne: Surfaces;
  readonly #surfaceTwo: Surfaces;
  readonly #link: Float64Array; // W/K times one stage, from each shell of the station before
  readonly #kept: Float64Array; // J/K that the stations before leave on each shell
  readonly #endHeat: Float64Array; // W into each shell of each end if it were at 0 °C
  readonly #endSlope: Float64Array; // W/K
  readonly #endRise: Float64Array; // K by that heat in one stage, once eliminated

  /** Evaporation over the latest step, of the true roast [kg/s]. */
  evaporationKgPerS = Number.NaN;

  constructor(body: Body, meat: Meat, crust: Crust = BEEF_CRUST) {
    const { stations, mesh } = body;
    const count = mesh.shells + 1;
    this.body = body;
    this.meat = meat;
    this.#law = new SurfaceLaw(crust);
    this.#nodeProperties = new NodeProperties(body, meat, crust);
    this.#capacity = this.#nodeProperties.capacity;
    this.#conductivity = this.#nodeProperties.conductivity;
    this.#juice = this.#nodeProperties.juiceKgPerM2S;
    this.#stations = stations;
    this.#nodes = count;
    this.#axial = body.axial;
    this.#endsExposed = body.endsExposed;
    this.#share = mesh.share;
    this.#shape = mesh.link;
    this.#lengthM = body.lengthM;
    this.#sideM2 = body.sideM2;
    this.#massFactor = body.massFactor;
    this.#linkScale = new Float64Array(stations);
    this.#faceM2 = new Float64Array(2);
    this.#spread = new Float64Array(stations);
    for (let i = 0; i < stations; i++) {
      const radius = body.radiusM[i];
      this.#linkScale[i] = mesh.unitArea * radius ** (mesh.exponent - 1) * body.lengthM[i];
      this.#spread[i] = body.lengthM[i] / (radius * radius);
    }
    if (body.endsExposed) {
      for (const [end, station] of [0, stations - 1].entries()) {
        this.#faceM2[end] = Math.PI * body.radiusM[station] ** 2;
      }
    }
    const dryable = meat.waterFraction - meat.holding.amplitude; // kg per kg of raw meat
    this.#mostSide = body.sideM2.map(
      (side, i) => (SIDE_SHARE * dryable * meat.densityKgPerM3 * lineVolume(body, i)) / side,
    );
    this.#mostEnd = Float64Array.of(
      END_SHARE * dryable * meat.densityKgPerM3 * body.radiusM[0],
      END_SHARE * dryable * meat.densityKgPerM3 * body.radiusM[stations - 1],
    );
    const total = stations * count;
    this.#along = elimination(total);
    this.#alongOne = new Float64Array(total);
    this.#lines = elimination(total);
    this.#radialOne = new Float64Array(total);
    this.#forward = new Float64Array(total);
    this.#diagonal = new Float64Array(stations);
    this.#right = new Float64Array(stations);
    this.#guessC = new Float64Array(stations);
    this.#deficit = new Float64Array(stations);
    this.#surfaceOne = surfaces(stations);
    this.#surfaceTwo = surfaces(stations);
    this.#link = new Float64Array(count);
    this.#kept = new Float64Array(count);
    this.#endHeat = new Float64Array(2 * count);
    this.#endSlope = new Float64Array(2 * count);
    this.#endRise = new Float64Array(2 * count);
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
    this.#nodeProperties.update(state, stepS);
    const along = this.#axial || this.#endsExposed;
    if (this.#endsExposed) this.#linearEnds(state, stepS, middle.ends);
    if (along) {
      this.#eliminateAlong((STAGE_ONE * stepS) / 2);
      this.#stepAlong(state, stepS / 2);
    }
    this.#radial(state, stepS, first.side, last.side);
    if (along) this.#stepAlong(state, stepS / 2);
    this.#close(state, stepS);
  }

  /** One straight line per shell of each end face: what its disc lets through, at the present temperature. */
  #linearEnds(state: HeatState, stepS: number, around: Surroundings): void {
    const lengthM = this.#lengthM;
    const law = this.#law;
    const count = this.#nodes;
    const share = this.#share;
    const { tempC, discC, endDeficit } = state;
    law.face(around);
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
        const conductance = this.#conductivity[at] / half; // W/(m²·K)
        const inside = tempC[at];
        let disc = discC[slot];
        law.begin(endDeficit[end], this.#juice[station], 0, heat, this.#mostEnd[end]);
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
        this.#endHeat[slot] = areaM2 * conductance * (disc - inside) - slope * inside;
        this.#endSlope[slot] = slope;
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

  /** Eliminates the axial systems, one per shell, for both stages of both half steps. */
  #eliminateAlong(spanS: number): void {
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

  /** Half a step along the axis, in place, by the two stages the radial steps use. */
  #stepAlong(state: HeatState, halfS: number): void {
    const { tempC, ledger } = state;
    const one = this.#alongOne;
    this.#firstAlong(tempC, one);
    this.#secondAlong(one, tempC);
    ledger[LEDGER.heatIn] +=
      halfS * ((1 - STAGE_ONE) * this.#endGain(one) + STAGE_ONE * this.#endGain(tempC));
  }

  /** The first implicit stage along the axis, all shells at once. */
  #firstAlong(from: Float64Array, into: Float64Array): void {
    const { own, near } = this.#along;
    const endRise = this.#endRise;
    const count = this.#nodes;
    const total = from.length;
    for (let at = 0; at < count; at++) into[at] = own[at] * from[at] + endRise[at];
    for (let at = count, before = 0; at < total; at++, before++) {
      into[at] = own[at] * from[at] + near[at] * into[before];
    }
    this.#backAlong(into);
  }

  /** The second stage, in place, which begins where the first one, `one`, points to. */
  #secondAlong(one: Float64Array, tempC: Float64Array): void {
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
    this.#backAlong(tempC);
  }

  /** From the last station back to the first. */
  #backAlong(into: Float64Array): void {
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

  /** Heat through both end faces at temperatures `tempC`, by their straight lines [W]. */
  #endGain(tempC: Float64Array): number {
    if (!this.#endsExposed) return 0;
    const count = this.#nodes;
    const toLast = (this.#stations - 2) * count;
    let heatW = 0;
    for (let slot = 0; slot < 2 * count; slot++) {
      const at = slot < count ? slot : toLast + slot;
      heatW += this.#endHeat[slot] + this.#endSlope[slot] * tempC[at];
    }
    return heatW;
  }

  /**
   * One step along every radius. Short loops one after another, not one long one: a compiler has them ready sooner, which is what
   * a cold start waits for.
   */
  #radial(state: HeatState, stepS: number, first: Surroundings, last: Surroundings): void {
    const spanS = STAGE_ONE * stepS;
    const { tempC } = state;
    this.#eliminateLines(state, stepS);
    this.#solveFronts(first, spanS, state.deficit, state.surfaceHeat, this.#surfaceOne);
    this.#backwardLines(this.#surfaceOne.frontC, this.#radialOne);
    this.#onwardLines(state);
    this.#solveFronts(last, spanS, this.#deficit, this.#surfaceOne.heat, this.#surfaceTwo);
    this.#closeSurfaces(state, stepS);
    this.#backwardLines(this.#surfaceTwo.frontC, tempC);
  }

  /** Eliminates every line from its axis outwards, up to the row of its surface. */
  #eliminateLines(state: HeatState, stepS: number): void {
    const { tempC, frontChangeK } = state;
    const { own, near, far } = this.#lines;
    const count = this.#nodes;
    const surface = count - 1;
    const capacity = this.#capacity;
    const conductivity = this.#conductivity;
    const shape = this.#shape;
    const forward = this.#forward;
    const growth = state.lastStepS > 0 ? stepS / state.lastStepS : 0;
    for (let i = 0; i < this.#stations; i++) {
      const top = i * count + surface;
      const scale = 0.5 * STAGE_ONE * stepS * this.#linkScale[i];
      let link = 0; // of the face just inside
      let kept = 0; // J/K that the shells inside leave on this one
      let carried = 0;
      for (let j = 0, at = i * count; j < surface; j++, at++) {
        const outward = scale * shape[j] * (conductivity[at] + conductivity[at + 1]);
        const held = capacity[at] + kept;
        const inverted = 1 / (held + outward);
        const o = capacity[at] * inverted;
        const n = link * inverted;
        const f = outward * inverted;
        carried = o * tempC[at] + n * carried;
        own[at] = o;
        near[at] = n;
        far[at] = f;
        forward[at] = carried;
        link = outward;
        kept = held * f;
      }
      near[top] = link;
      this.#diagonal[i] = capacity[top] + kept;
      this.#right[i] = capacity[top] * tempC[top] + link * carried;
      this.#guessC[i] = tempC[top] + STAGE_ONE * frontChangeK[i] * growth;
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
    const one = this.#radialOne;
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
      this.#right[i] = capacity[top] * (now + ONWARD * changeK) + near[top] * carried;
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
      law.begin(deficit[i], this.#juice[i], spanS, heat[i], this.#mostSide[i]);
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
