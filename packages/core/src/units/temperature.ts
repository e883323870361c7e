const ICE_POINT_K = 273.15; // exact by definition of the Celsius scale; stands here and nowhere else

/**
 * Absolute temperature [K] of `tempC` [°C].
 *
 * @example
 * kelvin(0) // => 273.15
 */
export const kelvin = (tempC: number): number => tempC + ICE_POINT_K;

/**
 * `tempC` [°C] in °F: scale and offset.
 *
 * @example
 * fahrenheit(54.4) // => 129.9
 */
export const fahrenheit = (tempC: number): number => tempC * 1.8 + 32;

/**
 * `tempF` [°F] in °C.
 *
 * @example
 * celsius(145) // => 62.8
 */
export const celsius = (tempF: number): number => (tempF - 32) / 1.8;

/**
 * A rise of `riseK` [K] in °F: scale only, so a carryover of 5 °C is 9 °F and not 41 °F.
 *
 * @example
 * fahrenheitRise(5) // => 9
 */
export const fahrenheitRise = (riseK: number): number => riseK * 1.8;
