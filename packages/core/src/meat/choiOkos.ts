/** Quadratic in temperature, lowest power first; argument in °C. */
export type Quadratic = readonly [constant: number, linear: number, quadratic: number];

/** A pure component of food and how its properties depend on temperature. */
export interface Component {
  readonly conductivity: Quadratic; // W/(m·K)
  readonly density: Quadratic; // kg/m³
  readonly heatCapacity: Quadratic; // J/(kg·K)
}

/** Temperatures the component equations were fitted for [°C]; outside, the nearest end is used. */
export const VALID_C: readonly [low: number, high: number] = [-40, 150];

/**
 * Component equations of Choi and Okos.
 *
 * Source: Choi Y, Okos MR (1986) Effects of temperature and composition on the thermal properties of foods, in Food
 * Engineering and Process Applications 1:93-101; reprinted in the ASHRAE Handbook Refrigeration, Thermal Properties of Foods.
 * Two misprints circulate and are avoided here: 4128.9 for the heat capacity of water (real water has 4.18 kJ/(kg·K) at
 * 20 °C, which 4176.2 meets) and -2.7604e-3 for the slope of fat's conductivity (it would give 0.015 W/(m·K) at 60 °C).
 */
export const WATER: Component = {
  conductivity: [0.57109, 1.7625e-3, -6.7036e-6],
  density: [997.18, 3.1439e-3, -3.7574e-3],
  heatCapacity: [4176.2, -0.090864, 5.4731e-3],
};

/** Protein, after Choi and Okos (see {@link WATER}). */
export const PROTEIN: Component = {
  conductivity: [0.17881, 1.1958e-3, -2.7178e-6],
  density: [1329.9, -0.5184, 0],
  heatCapacity: [2008.2, 1.2089, -1.3129e-3],
};

/** Fat, after Choi and Okos (see {@link WATER}). */
export const FAT: Component = {
  conductivity: [0.18071, -2.7604e-4, -1.7749e-7],
  density: [925.59, -0.41757, 0],
  heatCapacity: [1984.2, 1.4733, -4.8008e-3],
};

/** Ash, after Choi and Okos (see {@link WATER}). */
export const ASH: Component = {
  conductivity: [0.32962, 1.4011e-3, -2.9069e-6],
  density: [2423.8, -0.28063, 0],
  heatCapacity: [1092.6, 1.8896, -3.6817e-3],
};

/** Value of a quadratic at `tempC` [°C]. */
export const evaluate = ([a, b, c]: Quadratic, tempC: number): number =>
  a + tempC * (b + tempC * c);
