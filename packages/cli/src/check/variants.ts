import {
  BEEF_CRUST,
  type CookOptions,
  HOUSEHOLD_OVEN,
  lengthOf,
  type Meat,
  meatOf,
  type Roast,
  TENDERLOIN_WATER_HOLDING,
  tenderloin,
} from '@roastsim/core';
import { COARSE } from './cook.js';

/** A change to the model: its meat, its oven, its crust. */
export interface Variant {
  readonly name: string;
  readonly meat?: Meat;
  readonly options: CookOptions;
}

interface Change {
  readonly amplitude?: number;
  readonly delayS?: number;
  readonly conductivity?: number;
  readonly heatCapacity?: number;
  readonly ventKgPerS?: number;
  /** Factors on the crust's resistances to vapour and to heat. */
  readonly vapour?: number;
  readonly heat?: number;
}

/** The model with some of its constants changed, on the coarse mesh. */
export function variant(name: string, change: Change = {}): Variant {
  const holding = { ...TENDERLOIN_WATER_HOLDING };
  if (change.amplitude !== undefined) Object.assign(holding, { amplitude: change.amplitude });
  if (change.delayS !== undefined) Object.assign(holding, { delayS: change.delayS });
  return {
    name,
    meat: meatOf({
      holding,
      conductivityFactor: change.conductivity ?? 1,
      heatCapacityFactor: change.heatCapacity ?? 1,
    }),
    options: {
      ...COARSE,
      oven: {
        ...HOUSEHOLD_OVEN,
        stillVentKgPerS: change.ventKgPerS ?? HOUSEHOLD_OVEN.stillVentKgPerS,
      },
      crust: {
        ...BEEF_CRUST,
        vapourPerDeficit: (change.vapour ?? 1) * BEEF_CRUST.vapourPerDeficit,
        heatPerDeficit: (change.heat ?? 1) * BEEF_CRUST.heatPerDeficit,
      },
    },
  };
}

/** The roast with a variant's meat. */
export const made = (roast: Roast, { meat = roast.meat }: Variant): Roast => ({ ...roast, meat });

/** A tenderloin of the same weight whose every diameter is `factor` times the usual one. */
export function thicker(
  options: { readonly massKg: number; readonly cut: 'whole' | 'centre'; readonly startC?: number },
  factor: number,
): Roast {
  const usual = tenderloin(options);
  return tenderloin({ ...options, lengthMm: (1000 * lengthOf(usual.profile)) / factor ** 2 });
}
