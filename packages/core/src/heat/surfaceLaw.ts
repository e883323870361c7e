import { kelvin, STEFAN_BOLTZMANN, VAPOUR_GAS_CONSTANT } from '../units/index.js';
import { LATENT_AT_0C, LATENT_SLOPE, SATURATION } from './moistAir.js';
import type { Surroundings } from './surroundings.js';

/** Constants of the dry layer ("crust") that grows as the surface loses more water than juice brings. */
export interface Crust {
  /** Water that drying can remove from a volume of meat [kg/m³]. Engineering judgement. */
  readonly removableWater: number;
  /** Resistance to vapour per deficit [Pa·s·m⁴/kg²]: R_v T / (removable water * diffusivity). */
  readonly vapourPerDeficit: number;
  /** Resistance to heat per deficit [m⁴·K/(W·kg)]: 1 / (removable water * conductivity). */
  readonly heatPerDeficit: number;
}

const REMOVABLE_WATER = 700; // kg/m³, engineering judgement
const CRUST_CONDUCTIVITY = 0.2; // W/(m·K), dry porous crust, engineering judgement
const CRUST_DIFFUSIVITY = 1e-5; // m²/s, about a quarter of free air; calibrated on roasting charts, see docs/model.md
/** A front is looked for between these [°C]. */
export const LOWEST_FRONT_C = -60;
export const HIGHEST_FRONT_C = 460;

const COLDEST_GUESS_K = 150; // K, of the outside: colder than any kitchen
const CRUST_ROUNDS = 40; // one to four are used
const HEAT_SETTLED = 1e-4; // of the heat: Newton's error after such a correction is near 1e-9 of it
const FRONT_K = 364; // K, representative front temperature for the gas law

/** Crust of roasting beef. */
export const BEEF_CRUST: Crust = {
  removableWater: REMOVABLE_WATER,
  vapourPerDeficit: (VAPOUR_GAS_CONSTANT * FRONT_K) / (REMOVABLE_WATER * CRUST_DIFFUSIVITY),
  heatPerDeficit: 1 / (REMOVABLE_WATER * CRUST_CONDUCTIVITY),
};

/**
 * The surface balance, solved for one front temperature at a time:
 *
 *     q_in = h (T_air - T_x) + eps F sigma (T_wall⁴ - T_x⁴) = (T_x - T_f)/(r_t W)      heat through the crust
 *     E    = (p_sat(T_f) - p_v) / (1/g + r_v W)                                       evaporation at the front
 *     q_m  = q_in - latent(T_f) E                                                     heat into the meat
 *     W    = base + span (E - S)                                                      deficit, implicit over the step
 *
 * T_f front, T_x outside of the crust, W deficit [kg/m²], S juice reaching the surface. One object is reused for all surfaces:
 * {@link SurfaceLaw.face} sets the surroundings, {@link SurfaceLaw.begin} one surface, {@link SurfaceLaw.at} evaluates.
 */
export class SurfaceLaw {
  readonly #vapourPerDeficit: number;
  readonly #heatPerDeficit: number;
  // NaN, not 0: a field that begins as a whole number changes its representation later, and compiled code with it
  #airC = Number.NaN;
  #film = Number.NaN;
  #radiation = Number.NaN;
  #wall4 = Number.NaN;
  #vapourPa = Number.NaN;
  #resistance = Number.NaN;
  #sealed = false;
  #condenses = true;
  #start = Number.NaN; // deficit if nothing evaporated
  #kept = Number.NaN; // deficit where the surface is sealed
  #juice = Number.NaN;
  #most = Number.NaN; // deficit at which nothing is left to dry
  #span = Number.NaN; // s

  /** Heat through the crust, positive into the roast [W/m²]. */
  heatIn = Number.NaN;
  /** Evaporation [kg/(m²·s)]. */
  evaporation = Number.NaN;
  /** Heat into the meat [W/m²] and its slope with the front's temperature [W/(m²·K)]. */
  heat = Number.NaN;
  heatSlope = Number.NaN;
  evaporationSlope = Number.NaN;
  heatInSlope = Number.NaN;
  /** Deficit at the end of the span [kg/m²]. */
  deficit = Number.NaN;
  deficitSlope = Number.NaN;

  constructor(crust: Crust) {
    this.#vapourPerDeficit = crust.vapourPerDeficit;
    this.#heatPerDeficit = crust.heatPerDeficit;
  }

  /** Says what the surfaces to come see. */
  face(around: Surroundings): void {
    const wallK = kelvin(around.wallC);
    this.#airC = around.airC;
    this.#film = around.filmWPerM2K;
    this.#radiation = around.radiationFactor * STEFAN_BOLTZMANN;
    this.#wall4 = wallK * wallK * wallK * wallK;
    this.#vapourPa = around.vapourPa;
    this.#resistance = around.vapourResistance;
    this.#sealed = around.vapourResistance === Number.POSITIVE_INFINITY;
    this.#condenses = around.condenses;
  }

  /**
   * Begins one surface.
   *
   * @param deficit - W before the span [kg/m²]
   * @param juice - S [kg/(m²·s)]
   * @param spanS - time over which W is implicit [s]; 0 freezes it
   * @param guess - heat through the crust to start from [W/m²]
   * @param most - deficit at which the meat below is dry [kg/m²]: from there on only juice evaporates
   */
  begin(deficit: number, juice: number, spanS: number, guess: number, most: number): void {
    this.#kept = deficit;
    this.#juice = juice;
    this.#most = most;
    this.#start = deficit - spanS * juice;
    this.#span = spanS;
    this.heatIn = guess;
  }

  /** Evaluates the balance with the front at `frontC` [°C]; the results stand in the public fields. */
  at(frontC: number): void {
    this.#evaporate(frontC);
    this.#conduct(frontC);
    const latent = LATENT_AT_0C - LATENT_SLOPE * frontC;
    this.heat = this.heatIn - latent * this.evaporation;
    this.heatSlope =
      this.heatInSlope - latent * this.evaporationSlope + LATENT_SLOPE * this.evaporation;
  }

  /** Evaporation and deficit. With W linear in E and E inverse in W, the total resistance solves a quadratic. */
  #evaporate(frontC: number): void {
    if (this.#sealed) {
      this.evaporation = 0;
      this.evaporationSlope = 0;
      this.deficit = this.#kept;
      this.deficitSlope = 0;
      return;
    }
    let drive = SATURATION.at(frontC) - this.#vapourPa;
    let driveSlope = SATURATION.slope;
    if (drive < 0 && !this.#condenses) {
      drive = 0;
      driveSlope = 0;
    }
    const growth = this.#vapourPerDeficit * this.#span;
    const known = this.#resistance + this.#vapourPerDeficit * this.#start;
    const square = known * known + 4 * growth * drive;
    const width = Math.sqrt(Math.max(square, 0));
    const open = (known + width) / 2;
    const openSlope = (growth * driveSlope) / width;
    // at the film's own resistance juice or condensate covers the surface: no crust, what is left over runs off
    const crusted = square > 0 && open > this.#resistance;
    const total = crusted ? open : this.#resistance;
    const totalSlope = crusted ? openSlope : 0;
    this.evaporation = drive / total;
    this.evaporationSlope = (driveSlope - this.evaporation * totalSlope) / total;
    this.deficit = (total - this.#resistance) / this.#vapourPerDeficit;
    this.deficitSlope = totalSlope / this.#vapourPerDeficit;
    if (this.deficit >= this.#most) this.#dryOut();
  }

  /** Dried through: no more evaporates than what is left and what juice brings. */
  #dryOut(): void {
    const supply = this.#span > 0 ? (this.#most - this.#start) / this.#span : this.#juice;
    this.evaporation = Math.min(this.evaporation, Math.max(0, supply));
    this.evaporationSlope = 0;
    this.deficit = this.#start + this.#span * this.evaporation;
    this.deficitSlope = 0;
  }

  /**
   * Heat through the crust: Newton's method on q_in, which stays smooth as the crust vanishes. The balance rises with q and is
   * convex while the outside is above absolute zero, so it converges from any such start; another guess is dropped.
   */
  #conduct(frontC: number): void {
    const resistance = this.#heatPerDeficit * this.deficit;
    let q = kelvin(frontC + resistance * this.heatIn) > COLDEST_GUESS_K ? this.heatIn : 0;
    let stiffness = 0;
    for (let round = 0; round < CRUST_ROUNDS; round++) {
      const outsideK = kelvin(frontC + resistance * q);
      const cubed = this.#radiation * outsideK * outsideK * outsideK;
      stiffness = this.#film + 4 * cubed;
      const excess =
        q -
        this.#film * (this.#airC - frontC - resistance * q) -
        this.#radiation * this.#wall4 +
        cubed * outsideK;
      const change = excess / (1 + resistance * stiffness);
      q -= change;
      if (Math.abs(change) < HEAT_SETTLED * (1 + Math.abs(q))) break;
    }
    this.heatIn = q;
    this.heatInSlope =
      (-stiffness * (1 + q * this.#heatPerDeficit * this.deficitSlope)) /
      (1 + resistance * stiffness);
  }

  /** Temperature outside the crust [°C] over a front at `frontC`, below `deficit` [kg/m²] and `heat` [W/m²]. */
  outsideC(frontC: number, deficit: number, heat: number): number {
    return frontC + this.#heatPerDeficit * deficit * heat;
  }
}
