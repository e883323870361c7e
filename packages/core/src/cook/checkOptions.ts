import type { Crust } from '../heat/index.js';
import { checkNumber, checkObject } from '../units/index.js';
import type { OvenModel } from './oven.js';

/** Name in a sentence, range and unit of a figure. */
type Limits<T> = Readonly<
  Record<keyof T, readonly [what: string, range: readonly [number, number], unit: string]>
>;

// Far wider than any kitchen, so that drawn deviations stay inside; tests cook at the ends. Judgement
const OVEN: Limits<OvenModel> = {
  stillFilm: ["the still oven's coefficient", [0.01, 5000], 'W/(m²·K)'],
  fanFilm: ["the fan oven's coefficient", [0.01, 5000], 'W/(m²·K)'],
  radiationFactor: ["the oven's radiation factor", [0, 1], ''],
  stillVentKgPerS: ["the still oven's vent flow", [1e-9, 10], 'kg/s'],
  fanVentKgPerS: ["the fan oven's vent flow", [1e-9, 10], 'kg/s'],
  airKg: ["the oven's air", [0.001, 10], 'kg'],
  roomVapourPa: ["the room's vapour pressure", [0, 10_000], 'Pa'],
  offsetK: ["the oven's offset", [-200, 200], 'K'],
  wallOffsetK: ["the walls' offset", [-200, 200], 'K'],
};

const CRUST: Limits<Crust> = {
  removableWater: ['the water that drying can remove', [1, 1000], 'kg/m³'],
  vapourPerDeficit: ["the crust's resistance to vapour", [1e3, 1e12], 'Pa·s·m⁴/kg²'],
  heatPerDeficit: ["the crust's resistance to heat", [0, 100], 'm⁴·K/(W·kg)'],
};

function checkFigures<T extends object>(found: T, limits: Limits<T>, name: string): void {
  const fields = Object.keys(limits) as (keyof T & string)[];
  checkObject(found, [name], `the ${name}`, `an object with ${fields.join(', ')}`);
  for (const field of fields) {
    const [what, range, unit] = limits[field];
    checkNumber(found[field], range, [name, field], what, unit);
  }
}

/** @throws RoastError `missing`, `not-a-number` or `out-of-range`, by the ranges of {@link OvenModel} */
export const checkOven = (oven: OvenModel): void => checkFigures(oven, OVEN, 'oven');

/** @throws RoastError `missing`, `not-a-number` or `out-of-range`, by the ranges of {@link CookOptions.crust} */
export const checkCrust = (crust: Crust): void => checkFigures(crust, CRUST, 'crust');
