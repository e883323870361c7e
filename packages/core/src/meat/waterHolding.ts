/**
 * How much water muscle can hold at a temperature, and how fast it gives up the rest.
 *
 * Form: `held(T) = waterFraction - amplitude / (1 + exp(-(T - middleC)/widthK))`, approached at the rate
 * `(present - held)/delayS` and never regained. The sigmoid follows van der Sman 2007 (AIChE J 53; parameters there are for
 * other muscles, from memory), first-order kinetics follow Oillic et al. 2011 and Kondjoyan et al. 2013.
 */
export interface WaterHolding {
  /** Water given up far above the middle temperature [kg per kg of raw meat]. */
  readonly amplitude: number;
  /** Temperature at which half of it is given up [°C]. */
  readonly middleC: number;
  /** Width of the sigmoid [K]. */
  readonly widthK: number;
  /** Time constant of the release [s]. */
  readonly delayS: number;
  /** Share of the released juice that reaches the surface instead of dripping unseen, 0 to 1. */
  readonly surfaceShare: number;
}

/**
 * Defaults for tenderloin. `amplitude` 0.22 is engineering judgement: long water baths give 0.30 to 0.38 for other muscles,
 * and tenderloin loses least of twelve cuts (Korean J Food Sci An 2016, PMC4973944). `delayS` and `surfaceShare` are
 * engineering judgement.
 */
export const TENDERLOIN_WATER_HOLDING: WaterHolding = {
  amplitude: 0.22,
  middleC: 65.6,
  widthK: 4,
  delayS: 1200,
  surfaceShare: 0.8,
};

/**
 * Water held at equilibrium at `tempC` [°C], as kg per kg of raw meat.
 *
 * @example
 * heldWater(TENDERLOIN_WATER_HOLDING, 0.72, 65.6) // => 0.61
 */
export function heldWater(holding: WaterHolding, waterFraction: number, tempC: number): number {
  return (
    waterFraction - holding.amplitude / (1 + Math.exp(-(tempC - holding.middleC) / holding.widthK))
  );
}
