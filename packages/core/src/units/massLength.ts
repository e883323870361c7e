/** International avoirdupois pound [kg], exact (international yard and pound agreement, 1959). */
export const KG_PER_POUND = 0.45359237;

/** International inch [mm], exact (1959 agreement). */
export const MM_PER_INCH = 25.4;

/**
 * `massKg` [kg] in pounds.
 *
 * @example
 * pounds(1) // => 2.2046
 */
export const pounds = (massKg: number): number => massKg / KG_PER_POUND;

/**
 * `massKg` [kg] in avoirdupois ounces.
 *
 * @example
 * ounces(0.227) // => 8.01
 */
export const ounces = (massKg: number): number => (massKg / KG_PER_POUND) * 16;

/**
 * `lengthMm` [mm] in inches.
 *
 * @example
 * inches(254) // => 10
 */
export const inches = (lengthMm: number): number => lengthMm / MM_PER_INCH;
