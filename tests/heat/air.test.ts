import { describe, expect, test } from 'vitest';
import {
  airFilmToVapour,
  humidityOf,
  inAir,
  latentHeat,
  saturation,
  vapourPressureOf,
} from '../../packages/core/src/heat/index.js';

describe('moist air', () => {
  // Steam tables, from memory: 0.6113, 2.339, 12.35, 47.4, 101.3, 198.5 kPa.
  test.each([
    [0, 611],
    [20, 2339],
    [50, 12_350],
    [80, 47_400],
    [100, 101_300],
    [120, 198_500],
  ])('saturation at %i °C is %i Pa, within 0.5 %', (tempC, pascal) => {
    const [pressure] = saturation(tempC);
    expect(Math.abs(pressure / pascal - 1)).toBeLessThan(0.005);
  });

  test('its slope is that of the pressure', () => {
    for (let tempC = -20; tempC <= 200; tempC += 7) {
      const [, slope] = saturation(tempC);
      const rise = (saturation(tempC + 1e-4)[0] - saturation(tempC - 1e-4)[0]) / 2e-4;
      expect(Math.abs(slope / rise - 1)).toBeLessThan(1e-6);
    }
  });

  // Steam tables, from memory: 2501, 2382, 2257 kJ/kg.
  test.each([
    [0, 2.501e6],
    [50, 2.382e6],
    [100, 2.257e6],
  ])('latent heat at %i °C, within 0.4 %', (tempC, joule) => {
    expect(Math.abs(latentHeat(tempC) / joule - 1)).toBeLessThan(0.004);
  });

  test('humidity and vapour pressure are each other’s inverse; 1 kg/kg is 0.617 of an atmosphere', () => {
    for (const humidity of [0, 0.01, 0.1, 0.5, 1, 3]) {
      expect(humidityOf(vapourPressureOf(humidity))).toBeCloseTo(humidity, 12);
    }
    expect(vapourPressureOf(1) / 101_325).toBeCloseTo(1 / (1 + 0.622), 3);
    expect(vapourPressureOf(0)).toBe(0);
  });

  test('vapour leaves by the Lewis relation: 0.622 h / (c_p Le^(2/3) P)', () => {
    const expected = (0.622 * 20) / (1020 * 0.85 ** (2 / 3) * 101_325);
    expect(airFilmToVapour(20) / expected).toBeCloseTo(1, 3);
    expect(airFilmToVapour(40) / airFilmToVapour(20)).toBeCloseTo(2, 12);
  });

  test('air is what was said of it, and vapour may condense out of it', () => {
    const said = {
      airC: 200,
      wallC: 190,
      filmWPerM2K: 12,
      radiationFactor: 0.7,
      vapourPa: 4000,
    };
    expect(inAir(said)).toEqual({
      ...said,
      vapourResistance: 1 / airFilmToVapour(12),
      condenses: true,
    });
  });
});
