/**
 * How an oven treats what stands in it. Accepted: coefficients 0.01 to 5000 W/(m²·K), radiation factor 0 to 1, vent flows 1e-9 to 10
 * kg/s, air 0.001 to 10 kg, vapour pressure 0 to 10 000 Pa, offsets -200 to 200 K.
 */
export interface OvenModel {
  /**
   * Coefficient between air and roast [W/(m²·K)]. Still: Churchill and Chu 1975 give 7.0 for an 8 cm cylinder at 218 °C, 8 allows
   * for the pan; fan: engineering judgement, 12 to 40 are reported.
   */
  readonly stillFilm: number;
  readonly fanFilm: number;
  /** Emissivity of meat times view of the walls [-]. Moist food 0.9 to 0.98 in handbooks (from memory). */
  readonly radiationFactor: number;
  /** Dry air leaving through the vent [kg/s]. Engineering judgement, calibrated together with the crust. */
  readonly stillVentKgPerS: number;
  readonly fanVentKgPerS: number;
  /** Air in the oven [kg]: about 60 litres, hot. */
  readonly airKg: number;
  /** Vapour pressure of the room's air [Pa]: 22 °C at half humidity. */
  readonly roomVapourPa: number;
  /** True minus set temperature of air and walls [K], and walls minus air; 0 unless measured. */
  readonly offsetK: number;
  readonly wallOffsetK: number;
}

/** A household oven. See docs/model.md for what the calibration rests on. */
export const HOUSEHOLD_OVEN: OvenModel = {
  stillFilm: 8,
  fanFilm: 18,
  radiationFactor: 0.9,
  stillVentKgPerS: 7e-4,
  fanVentKgPerS: 1.05e-3,
  airKg: 0.04,
  roomVapourPa: 1300,
  offsetK: 0,
  wallOffsetK: 0,
};
