import { Matrix, solve } from 'ml-matrix';
import type { Share } from './advice.js';
import { INPUTS } from './priors.js';

/**
 * First-order shares of the variance of log minutes: least squares on the first two Hermite polynomials of every input, which are
 * orthogonal under a normal distribution, so that the squares of their coefficients are the first terms of Sobol's indices.
 * Source: Sudret 2008, Reliab Eng Syst Saf 93:964-979 (from memory).
 *
 * @param points - standard deviations of each member
 * @param minutes - of each member; infinite ones are left out
 */
export function sharesOf(points: readonly Float64Array[], minutes: Float64Array): Share[] {
  const used = points.map((_, i) => i).filter((i) => Number.isFinite(minutes[i]) && minutes[i] > 0);
  const inputs = INPUTS.length;
  const orders = used.length > 4 * inputs ? 2 : 1;
  if (used.length <= 2 * inputs) return INPUTS.map((input) => ({ input, share: 0 }));
  const columns = new Matrix(used.length, 1 + orders * inputs);
  const logs = new Matrix(used.length, 1);
  for (const [row, i] of used.entries()) {
    columns.set(row, 0, 1);
    for (const [d, z] of points[i].entries()) {
      columns.set(row, 1 + d, z);
      if (orders === 2) columns.set(row, 1 + inputs + d, (z * z - 1) / Math.SQRT2);
    }
    logs.set(row, 0, Math.log(minutes[i]));
  }
  const mean = logs.mean();
  const variance = logs.to1DArray().reduce((sum, y) => sum + (y - mean) ** 2, 0) / used.length;
  const fitted = solve(columns, logs).to1DArray();
  const shares = INPUTS.map((input, d) => {
    const second = orders === 2 ? fitted[1 + inputs + d] : 0;
    const share = variance > 0 ? (fitted[1 + d] ** 2 + second ** 2) / variance : 0;
    return { input, share };
  });
  return shares.sort((a, b) => b.share - a.share);
}
