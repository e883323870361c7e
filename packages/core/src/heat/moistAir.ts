import { UniformTable } from '../numerics/index.js';
import { STANDARD_ATMOSPHERE_PA, VAPOUR_AIR_MOLAR_RATIO } from '../units/index.js';

/**
 * Saturation vapour pressure over water [Pa] and its slope [Pa/K] at `tempC` [°C].
 *
 * Source: Buck 1981 (J Appl Meteorol 20:1527-1532), with the coefficients of Buck 1996 (from memory). Used above 100 °C as it
 * stands: there is no separate law for boiling.
 *
 * @example
 * const [pressurePa] = saturation(100)
 * pressurePa // => 101308
 * const humid = 0.6 * saturation(22)[0] // vapour pressure of a room at 60 % relative humidity [Pa]
 */
export function saturation(tempC: number): readonly [pressurePa: number, slopePaPerK: number] {
  const below = 257.14 + tempC;
  const exponent = ((18.678 - tempC / 234.5) * tempC) / below;
  const pressure = 611.21 * Math.exp(exponent);
  return [pressure, (pressure * (18.678 - (2 * tempC) / 234.5 - exponent)) / below];
}

/** {@link saturation} tabulated every kelvin over all temperatures a front may be tried at. */
export const SATURATION = new UniformTable(-60, 460, 520, saturation);

/**
 * Latent heat of vaporisation [J/kg] at `tempC` in °C: straight line through the steam tables, 0.3 % from 0 to 100 °C, 0.6 % at 120 °C.
 *
 * @example
 * latentHeat(100) / 1000 // => 2263
 */
export const latentHeat = (tempC: number): number => LATENT_AT_0C - LATENT_SLOPE * tempC;
export const LATENT_AT_0C = 2.501e6;
export const LATENT_SLOPE = 2381;

const AIR_HEAT_CAPACITY = 1020; // J/(kg·K), air near 150 °C, from memory
const LEWIS_POWER = 0.897; // Le^(2/3) with Le = 0.85, from memory: Incropera et al. give 0.85 to 0.90

/**
 * Mass transfer coefficient of vapour [kg/(m²·s·Pa)] for an air film of `filmWPerM2K`, by the Lewis relation:
 * g = 0.622 h / (c_p Le^(2/3) P).
 *
 * @example
 * 1 / airFilmToVapour(8) // Pa·m²·s/kg, the resistance `inAir` gives to a film of 8 W/(m²·K)
 */
export const airFilmToVapour = (filmWPerM2K: number): number =>
  (VAPOUR_AIR_MOLAR_RATIO * filmWPerM2K) /
  (AIR_HEAT_CAPACITY * LEWIS_POWER * STANDARD_ATMOSPHERE_PA);
