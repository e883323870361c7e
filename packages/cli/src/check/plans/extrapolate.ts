/** A figure free of its mesh, and how far it may be off. */
export interface Extrapolated {
  readonly value: number;
  readonly uncertainty: number;
}

/** The order the scheme is built for, in space and in time. */
const ORDER = 2;
const LOWEST_ORDER = 0.5;
const SAFETY = 1.25;
const ERRATIC_SAFETY = 3;

/**
 * Richardson's extrapolation from three solutions, each refined twice as far as the one before. Where they close in on a value
 * the observed order is used, at most the scheme's own two, and the uncertainty is 1.25 times the step still to go; where they
 * do not, the finest stands and the uncertainty is three times the last change (Roache's grid convergence index, its factors
 * from memory).
 */
export function extrapolated(coarse: number, middle: number, fine: number): Extrapolated {
  const first = middle - coarse;
  const second = fine - middle;
  const observed = Math.log2(first / second);
  if (!(observed >= LOWEST_ORDER)) {
    return { value: fine, uncertainty: ERRATIC_SAFETY * Math.abs(second) };
  }
  const toGo = second / (2 ** Math.min(observed, ORDER) - 1);
  return { value: fine + toGo, uncertainty: SAFETY * Math.abs(toGo) };
}
