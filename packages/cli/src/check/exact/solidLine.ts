import {
  constantSolid,
  DEFAULT_SHELLS,
  type Exposure,
  type HeatState,
  radialMesh,
  Stepper,
  type Surroundings,
  singleLine,
  uniformState,
  valueAtRadius,
} from '@roastsim/core';
import type { Shape } from './series.js';

/** How long the steps are: `firstS`, growing by `growth` up to `longestS`. */
export interface StepPolicy {
  readonly firstS: number;
  readonly growth: number;
  readonly longestS: number;
}

/** What a cook does unless told otherwise. */
export const COOK_STEPS: StepPolicy = { firstS: 1, growth: 1.2, longestS: 20 };

/** Steps of one length. */
export const evenSteps = (stepS: number): StepPolicy => ({
  firstS: stepS,
  growth: 1,
  longestS: stepS,
});

/** Air moving past a sealed surface: a constant film, no radiation, no evaporation. What the exact series assume. */
export const convection = (airC: number, filmWPerM2K: number): Surroundings => ({
  airC,
  wallC: airC,
  filmWPerM2K,
  radiationFactor: 0,
  vapourPa: 0,
  vapourResistance: Number.POSITIVE_INFINITY,
  condenses: false,
});

/** The same all round. */
export const allRound = (around: Surroundings): Exposure => ({ side: around, ends: around });

/** Advances a body by `seconds` in unchanging surroundings; the last step is cut to fit. */
export function march(
  stepper: Stepper,
  state: HeatState,
  around: Exposure,
  seconds: number,
  { firstS, growth, longestS }: StepPolicy,
): void {
  let stepS = firstS;
  let left = seconds;
  while (left > 0) {
    const taken = stepS < left * (1 - 1e-12) ? stepS : left;
    stepper.step(state, taken, around, around, around);
    left = taken === left ? 0 : left - taken;
    stepS = Math.min(longestS, growth * stepS);
  }
}

const EXPONENT = { slab: 0, cylinder: 1, sphere: 2 } as const;
export const START_C = 4;
export const AIR_C = 204;

/** Meat-like solid: diffusivity 1.4e-7 m²/s, conductivity 0.5 W/(m·K). */
export const SOLID = { conductivity: 0.5, density: 1000, heatCapacity: 0.5 / 1.4e-7 / 1000 };
export const DIFFUSIVITY = SOLID.conductivity / (SOLID.density * SOLID.heatCapacity);

const dimensionless = (tempC: number): number => (tempC - AIR_C) / (START_C - AIR_C);

/** One sealed line of constant properties, as the exact series know it. */
export class SolidLine {
  readonly #stepper: Stepper;
  readonly #state: HeatState;
  readonly #around: Exposure;
  readonly #radiusM: number;

  constructor(shape: Shape, biot: number, shells = DEFAULT_SHELLS, radiusM = 0.04) {
    const solid = constantSolid(SOLID.conductivity, SOLID.density, SOLID.heatCapacity);
    const body = singleLine(radialMesh(shells, EXPONENT[shape]), radiusM);
    this.#radiusM = radiusM;
    this.#stepper = new Stepper(body, solid);
    this.#state = uniformState(body, solid, START_C);
    this.#around = allRound(convection(AIR_C, (biot * SOLID.conductivity) / radiusM));
  }

  /** Goes on for a dimensionless time alpha t / R². */
  advance(fourier: number, steps: StepPolicy): this {
    const seconds = (fourier * this.#radiusM ** 2) / DIFFUSIVITY;
    march(this.#stepper, this.#state, this.#around, seconds, steps);
    return this;
  }

  /** Dimensionless temperature at a fraction of the radius: 1 at the start, 0 in balance. */
  theta(fraction: number): number {
    return dimensionless(valueAtRadius(this.#stepper.body.mesh, this.#state.tempC, fraction));
  }

  /** Goes on in steps as a cook takes them until the centre's theta has fallen to `target`; returns the time it took. */
  fourierTo(target: number): number {
    const perSecond = DIFFUSIVITY / this.#radiusM ** 2;
    let { firstS: stepS } = COOK_STEPS;
    let seconds = 0;
    let before = this.theta(0);
    for (;;) {
      march(this.#stepper, this.#state, this.#around, stepS, evenSteps(stepS));
      const now = this.theta(0);
      if (now <= target) {
        const part = Math.log(before / target) / Math.log(before / now);
        return (seconds + part * stepS) * perSecond;
      }
      before = now;
      seconds += stepS;
      stepS = Math.min(COOK_STEPS.longestS, COOK_STEPS.growth * stepS);
    }
  }

  /** Its mean over the volume: the share of the heat still to come. */
  meanTheta(): number {
    const { share } = this.#stepper.body.mesh;
    return dimensionless(share.reduce((sum, s, i) => sum + s * this.#state.tempC[i], 0));
  }
}
