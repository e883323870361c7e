import { ASH, type Component, evaluate, FAT, PROTEIN, VALID_C, WATER } from './choiOkos.js';
import { COMPOSITIONS, type Composition, checkComposition } from './composition.js';
import { heldWater, TENDERLOIN_WATER_HOLDING, type WaterHolding } from './waterHolding.js';

/** Steps of the property tables: 0.5 K, at which straight lines between the points are exact to 1e-6 in conductivity and 4e-5 kg/kg in held water. */
const TABLE_STEP_K = 0.5;

/**
 * A material as the heat solver needs it. With `m` the water present [kg per kg of raw meat] and T in °C,
 *
 *     k(T, m) = (m * kWater[T] + kDry[T]) / (m * vWater[T] + vDry[T])      parallel mixing by volume
 *     c(T, m) = m * (w0 + w1 T + w2 T²) + (d0 + d1 T + d2 T²)              per kg of raw meat
 *
 * so the two fields that change during a cook, T and m, are all that has to be looked up.
 */
export interface Meat {
  /** Density of the raw meat at 20 °C [kg/m³]; held constant. */
  readonly densityKgPerM3: number;
  /** Water in the raw meat [kg/kg]. */
  readonly waterFraction: number;
  /** Heat capacity: quadratic per kg of water, then per kg of raw meat for all that is not water [J/(kg·K)]. */
  readonly waterHeat: readonly [number, number, number];
  readonly dryHeat: readonly [number, number, number];
  /** Temperatures of the table below [°C]: `lowC`, then every `1/perK`. */
  readonly lowC: number;
  readonly perK: number;
  readonly rows: number;
  /** `kWater, kDry, vWater, vDry, held` for each row, each followed by its rise to the next row. */
  readonly table: Float64Array;
  readonly holding: WaterHolding;
}

/** Numbers in one row of {@link Meat.table}. */
export const ROW = 10;

/** What may be overridden when making a meat. */
export interface MeatOptions {
  /** Mass fractions; default {@link COMPOSITIONS}`['lean-tenderloin']`. */
  readonly composition?: Composition;
  /** Water-holding curve; default {@link TENDERLOIN_WATER_HOLDING}. */
  readonly holding?: WaterHolding;
  /** Factors on conductivity and heat capacity, for sensitivity studies; default 1. */
  readonly conductivityFactor?: number;
  readonly heatCapacityFactor?: number;
}

/**
 * Meat of a composition: conductivity, heat capacity and density by Choi and Okos with parallel (volume-weighted) mixing.
 *
 * @throws RoastError when the composition is not one
 * @example
 * const rib = meatOf({ composition: COMPOSITIONS['rib-eye-lean'] })
 * rib.densityKgPerM3 // => 1052
 */
export function meatOf(options: MeatOptions = {}): Meat {
  const composition = checkComposition(options.composition ?? COMPOSITIONS['lean-tenderloin']);
  const holding = options.holding ?? TENDERLOIN_WATER_HOLDING;
  const kFactor = options.conductivityFactor ?? 1;
  const cFactor = options.heatCapacityFactor ?? 1;
  const dry: readonly (readonly [Component, number])[] = [
    [PROTEIN, composition.protein],
    [FAT, composition.fat],
    [ASH, composition.ash],
  ];
  const specificVolume = [...dry, [WATER, composition.water] as const].reduce(
    (sum, [component, share]) => sum + share / evaluate(component.density, 20),
    0,
  );
  const [lowC, highC] = VALID_C;
  const perK = 1 / TABLE_STEP_K;
  const rows = Math.round((highC - lowC) * perK) + 1;
  const table = new Float64Array(rows * ROW);
  for (let row = 0; row < rows; row++) {
    const tempC = lowC + row / perK;
    let kDry = 0;
    let vDry = 0;
    for (const [component, share] of dry) {
      const volume = share / evaluate(component.density, tempC);
      vDry += volume;
      kDry += volume * evaluate(component.conductivity, tempC);
    }
    const vWater = 1 / evaluate(WATER.density, tempC);
    const at = row * ROW;
    table[at] = kFactor * vWater * evaluate(WATER.conductivity, tempC);
    table[at + 2] = kFactor * kDry;
    table[at + 4] = vWater;
    table[at + 6] = vDry;
    table[at + 8] = heldWater(holding, composition.water, tempC);
  }
  for (let at = 0; at + ROW < table.length; at += 2) table[at + 1] = table[at + ROW] - table[at];
  const mix = (power: 0 | 1 | 2): number =>
    cFactor *
    dry.reduce((sum, [component, share]) => sum + share * component.heatCapacity[power], 0);
  const [w0, w1, w2] = WATER.heatCapacity;
  return {
    densityKgPerM3: 1 / specificVolume,
    waterFraction: composition.water,
    waterHeat: [cFactor * w0, cFactor * w1, cFactor * w2],
    dryHeat: [mix(0), mix(1), mix(2)],
    lowC,
    perK,
    rows,
    table,
    holding,
  };
}

/** How a meat is to differ from another: for studies of what a doubt about meat does to a cook. */
export interface MeatChange {
  /** Factors on conductivity and heat capacity; default 1. */
  readonly conductivityFactor?: number;
  readonly heatCapacityFactor?: number;
  /** Replaces what it names of the water holding, except its temperatures. */
  readonly holding?: Partial<Pick<WaterHolding, 'amplitude' | 'delayS' | 'surfaceShare'>>;
}

/**
 * The same meat with some properties changed: cheaper than {@link meatOf}, because the tables are only rescaled.
 *
 * @example
 * const drier = changedMeat(roast.meat, { holding: { amplitude: 0.26 } })
 * const cooked = simulate({ ...roast, meat: drier }, [roastIn({ ovenC: 150, until: { minutes: 30 } })])
 */
export function changedMeat(meat: Meat, change: MeatChange): Meat {
  const kFactor = change.conductivityFactor ?? 1;
  const cFactor = change.heatCapacityFactor ?? 1;
  const { amplitude, middleC, widthK, delayS, surfaceShare } = {
    ...meat.holding,
    ...change.holding,
  };
  // written out, here and below, not spread: objects of one layout keep the compiled step loop valid
  const holding: WaterHolding = { amplitude, middleC, widthK, delayS, surfaceShare };
  const { densityKgPerM3, waterFraction, lowC, perK, rows } = meat;
  const release = meat.holding.amplitude > 0 ? amplitude / meat.holding.amplitude : 1;
  const table = meat.table.slice();
  for (let at = 0; at < table.length; at += ROW) {
    for (let k = at; k < at + 4; k++) table[k] *= kFactor;
    table[at + 8] = waterFraction - (waterFraction - table[at + 8]) * release;
    table[at + 9] *= release;
  }
  const [w0, w1, w2] = meat.waterHeat;
  const [d0, d1, d2] = meat.dryHeat;
  return {
    densityKgPerM3,
    waterFraction,
    waterHeat: [cFactor * w0, cFactor * w1, cFactor * w2],
    dryHeat: [cFactor * d0, cFactor * d1, cFactor * d2],
    lowC,
    perK,
    rows,
    table,
    holding,
  };
}

/**
 * A solid whose properties do not change and which holds its water: what the exact series and handbook examples assume.
 *
 * @param conductivityWPerMK - [W/(m·K)]
 * @param densityKgPerM3 - [kg/m³]
 * @param heatCapacityJPerKgK - [J/(kg·K)]
 * @example
 * const clay = constantSolid(0.5, 1100, 3500)
 * conductivity(clay, 60) // => 0.5
 */
export function constantSolid(
  conductivityWPerMK: number,
  densityKgPerM3: number,
  heatCapacityJPerKgK: number,
): Meat {
  const table = new Float64Array(2 * ROW);
  for (const at of [0, ROW]) {
    table[at + 2] = conductivityWPerMK;
    table[at + 6] = 1;
  }
  return {
    densityKgPerM3,
    waterFraction: 0,
    waterHeat: [0, 0, 0],
    dryHeat: [heatCapacityJPerKgK, 0, 0],
    lowC: 0,
    perK: 1,
    rows: 2,
    table,
    holding: { ...TENDERLOIN_WATER_HOLDING, amplitude: 0 },
  };
}

/**
 * Conductivity [W/(m·K)] at `tempC` [°C] with `water` [kg per kg of raw meat] left; the raw meat's by default.
 *
 * @example
 * conductivity(roast.meat, 20) // => 0.507
 */
export function conductivity(meat: Meat, tempC: number, water = meat.waterFraction): number {
  const position = Math.min(Math.max((tempC - meat.lowC) * meat.perK, 0), meat.rows - 1);
  const row = Math.min(Math.floor(position), meat.rows - 2);
  const part = position - row;
  const mix = (property: number): number => {
    const at = row * ROW + 2 * property;
    return meat.table[at] + part * meat.table[at + 1];
  };
  return (water * mix(0) + mix(1)) / (water * mix(2) + mix(3));
}

/**
 * Heat capacity [J/K per kg of RAW meat] at `tempC` [°C] with `water` [kg per kg of raw meat] left.
 *
 * @example
 * heatCapacity(roast.meat, 20) // => 3566
 */
export function heatCapacity(meat: Meat, tempC: number, water = meat.waterFraction): number {
  return water * evaluate(meat.waterHeat, tempC) + evaluate(meat.dryHeat, tempC);
}

/**
 * Heat content above 0 °C [J per kg of raw meat]: the integral of {@link heatCapacity} at constant water.
 *
 * @example
 * // heat that a kilogram takes from the refrigerator to 56 °C [kJ]
 * (heatContent(roast.meat, 56) - heatContent(roast.meat, 4)) / 1000 // => 186
 */
export function heatContent(meat: Meat, tempC: number, water = meat.waterFraction): number {
  const integral = ([a, b, c]: readonly [number, number, number]): number =>
    tempC * (a + tempC * (b / 2 + (tempC * c) / 3));
  return water * integral(meat.waterHeat) + integral(meat.dryHeat);
}
