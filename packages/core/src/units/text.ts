import { inches, ounces, pounds } from './massLength.js';
import { fahrenheit, fahrenheitRise } from './temperature.js';

/** Units to print in. */
export type UnitSystem = 'metric' | 'us';

const MINUS = '\u2212';
const signed = (value: number, digits: number): string => {
  const text = Math.abs(value).toFixed(digits);
  return value < 0 && Number(text) !== 0 ? MINUS + text : text;
};

/**
 * `54 °C` or `129 °F`.
 *
 * @example
 * temperatureText(54, 'us') // => '129 °F'
 * temperatureText(54.44, 'metric', 1) // => '54.4 °C'
 */
export const temperatureText = (tempC: number, units: UnitSystem, digits = 0): string =>
  units === 'us' ? `${signed(fahrenheit(tempC), digits)} °F` : `${signed(tempC, digits)} °C`;

/**
 * A difference: `9 °C` or `16 °F`.
 *
 * @example
 * riseText(9, 'us') // => '16 °F'
 */
export const riseText = (riseK: number, units: UnitSystem, digits = 0): string =>
  units === 'us' ? `${signed(fahrenheitRise(riseK), digits)} °F` : `${signed(riseK, digits)} °C`;

/**
 * `2.20 kg`, `227 g`, `4 lb 14 oz` or `8 oz`.
 *
 * @example
 * massText(2.2, 'us') // => '4 lb 14 oz'
 */
export function massText(massKg: number, units: UnitSystem): string {
  if (units === 'metric') {
    return massKg < 0.9995 ? `${Math.round(1000 * massKg)} g` : `${massKg.toFixed(2)} kg`;
  }
  const whole = Math.round(ounces(massKg));
  if (whole < 16) return pounds(massKg) < 0.125 ? `${ounces(massKg).toFixed(1)} oz` : `${whole} oz`;
  const rest = whole % 16;
  return rest === 0 ? `${whole / 16} lb` : `${Math.floor(whole / 16)} lb ${rest} oz`;
}

/**
 * `52 cm` or `20.6 in`.
 *
 * @example
 * lengthText(521, 'us') // => '20.5 in'
 */
export const lengthText = (lengthMm: number, units: UnitSystem): string =>
  units === 'us' ? `${inches(lengthMm).toFixed(1)} in` : `${Math.round(lengthMm / 10)} cm`;

/**
 * `81 mm` or `3.2 in`.
 *
 * @example
 * thicknessText(81, 'metric') // => '81 mm'
 */
export const thicknessText = (lengthMm: number, units: UnitSystem): string =>
  units === 'us' ? `${inches(lengthMm).toFixed(1)} in` : `${Math.round(lengthMm)} mm`;

/**
 * `45 min`, `1 h 20 min`, `2 h`.
 *
 * @example
 * durationText(80) // => '80 min'
 * durationText(125) // => '2 h 5 min'
 */
export function durationText(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 100) return `${whole} min`;
  const rest = whole % 60;
  const hours = (whole - rest) / 60;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}
