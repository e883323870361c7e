/**
 * Fraction of a step after which the first stage ends: 1 - 1/sqrt(2) makes the two-stage diagonally implicit Runge-Kutta
 * method L-stable and of second order. Source: Alexander 1977, SIAM J Numer Anal 14:1006-1021 (from memory).
 */
export const STAGE_ONE = 1 - Math.SQRT1_2;

/** The second stage begins at the step's first temperatures, moved on by so much of what the first stage changed. */
export const ONWARD = (1 - STAGE_ONE) / STAGE_ONE;

/**
 * A tridiagonal system, capacity * (new - old) = what flows in over a stage, eliminated once for any number of old temperatures:
 * forward new = own * old + near * new of the row before; backward new += far * new of the row after.
 */
export interface Elimination {
  readonly own: Float64Array;
  readonly near: Float64Array;
  readonly far: Float64Array;
}

export const elimination = (rows: number): Elimination => ({
  own: new Float64Array(rows),
  near: new Float64Array(rows),
  far: new Float64Array(rows),
});
