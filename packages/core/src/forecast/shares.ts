import { Matrix, solve } from 'ml-matrix';
import { INPUTS, type InputName, type Priors } from './priors.js';

/** How much of the variance of log time an input brings in by itself. */
export interface Share {
  readonly input: InputName;
  /** 0 to 1; all shares together fall short of 1 by what inputs do jointly and by noise. */
  readonly share: number;
}

/** What a cook could measure to narrow the interval. */
export type Advice = 'measure-girth' | 'oven-thermometer';

const WORTH_SAYING = 0.03; // of the variance: knowing it would narrow the interval by 1.5 %. Judgement

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

/** What would be worth measuring, the most useful first. */
export function adviceFrom(
  shares: readonly Share[],
  priors: Priors,
  sizeKnownBy: 'tape' | 'length' | 'weight',
): Advice[] {
  const measured: Partial<Record<InputName, Advice>> = {
    ...(sizeKnownBy === 'tape' ? {} : { size: 'measure-girth' as const }),
    ovenOffset: 'oven-thermometer',
  };
  return shares.flatMap(({ input, share }) => {
    const advice = measured[input];
    return advice !== undefined && share >= WORTH_SAYING && priors[input].spread > 0
      ? [advice]
      : [];
  });
}
