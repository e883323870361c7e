import { type CookOptions, HOUSEHOLD_OVEN, type Roast } from '../cook/index.js';
import { BEEF_CRUST } from '../heat/index.js';
import { changedMeat } from '../meat/index.js';
import type { Deviations } from './priors.js';

const clamp = (x: number, low: number, high: number): number => Math.min(high, Math.max(low, x));

const LEAST_JUICE = 0.02; // kg/kg: meat that gave up none would never drip
const COLDEST_START_C = -1.5; // it freezes just below

/**
 * A roast and the options of its cook with deviations put in, except for its thickness (see `thickened`), the thermometer and the
 * errors of the model itself, which are not the cook's.
 *
 * @example
 * const other = varied(roast, {}, { ...NO_DEVIATION, ovenOffset: -10 })
 * const cooler = planCook(other.roast, request, other.options)
 * cooler.pull.minutes > plan.pull.minutes // => true
 */
export function varied(
  roast: Roast,
  options: CookOptions,
  by: Deviations,
): { readonly roast: Roast; readonly options: CookOptions } {
  const oven = options.oven ?? HOUSEHOLD_OVEN;
  const crust = options.crust ?? BEEF_CRUST;
  const { holding } = roast.meat;
  return {
    roast: {
      ...roast,
      startC: Math.max(COLDEST_START_C, roast.startC + by.start),
      meat: changedMeat(roast.meat, {
        conductivityFactor: by.conductivity,
        heatCapacityFactor: by.heatCapacity,
        holding: {
          amplitude:
            holding.amplitude > 0 ? Math.max(LEAST_JUICE, holding.amplitude + by.juice) : 0,
          delayS: holding.delayS * by.juiceDelay,
          surfaceShare: clamp(holding.surfaceShare + by.juiceShare, 0, 1),
        },
      }),
    },
    options: {
      ...options,
      oven: {
        ...oven,
        stillFilm: oven.stillFilm * by.film,
        fanFilm: oven.fanFilm * by.film,
        radiationFactor: clamp(oven.radiationFactor + by.emissivity, 0, 1),
        stillVentKgPerS: oven.stillVentKgPerS * by.vent,
        fanVentKgPerS: oven.fanVentKgPerS * by.vent,
        offsetK: oven.offsetK + by.ovenOffset,
        wallOffsetK: oven.wallOffsetK + by.wallOffset,
      },
      crust: {
        removableWater: crust.removableWater,
        vapourPerDeficit: crust.vapourPerDeficit * by.crustVapour,
        heatPerDeficit: crust.heatPerDeficit * by.crustHeat,
      },
    },
  };
}
