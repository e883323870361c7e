/**
 * An endless bar of elliptic cross-section that meets surroundings through a constant film, in two dimensions: polynomials in x²
 * and y² (Ritz and Galerkin), then an implicit march. No mesh and no code in common with the library. Lengths are in units of
 * the radius of the circle of the same area, so time comes out as the Fourier number for that radius.
 */
const DEGREE = 5; // of the polynomials in x² and y²: 21 of them; 6 moves times by 1e-5
const ANGLES = 256; // equally spaced: exact for the powers of sine and cosine in here
const STEP = 0.001;
const STAGE = 1 - Math.SQRT1_2;

type Power = readonly [x: number, y: number];
const POWERS: readonly Power[] = Array.from({ length: DEGREE + 1 }, (_, sum) =>
  Array.from({ length: sum + 1 }, (_, x): Power => [2 * x, 2 * (sum - x)]),
).flat();

const angles = Array.from({ length: ANGLES }, (_, i) => (2 * Math.PI * (i + 0.5)) / ANGLES);

/** Integral of x^p y^q over the unit disc. */
function moment(p: number, q: number): number {
  const around = angles.reduce((sum, a) => sum + Math.cos(a) ** p * Math.sin(a) ** q, 0);
  return (around * 2 * Math.PI) / ANGLES / (p + q + 2);
}

/** Symmetric matrix over all pairs of basis functions. */
const matrix = (entry: (a: Power, b: Power) => number): number[][] =>
  POWERS.map((a) => POWERS.map((b) => entry(a, b)));

/** Solver of a symmetric positive definite system, by Cholesky's factors. */
function solver(of: readonly (readonly number[])[]): (right: readonly number[]) => number[] {
  const n = of.length;
  const low = of.map((row) => [...row]);
  for (let j = 0; j < n; j++) {
    for (let k = 0; k < j; k++) {
      for (let i = j; i < n; i++) low[i][j] -= low[i][k] * low[j][k];
    }
    const root = Math.sqrt(low[j][j]);
    for (let i = j; i < n; i++) low[i][j] /= root;
  }
  return (right) => {
    const x = [...right];
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < i; k++) x[i] -= low[i][k] * x[k];
      x[i] /= low[i][i];
    }
    for (let i = n - 1; i >= 0; i--) {
      for (let k = i + 1; k < n; k++) x[i] -= low[k][i] * x[k];
      x[i] /= low[i][i];
    }
    return x;
  };
}

/**
 * Fourier number at which the middle of the bar has `target` of its temperature excess left.
 *
 * @param aspect - height over width, 0 to 1
 * @param biot - h times the radius of the circle of the same area, over k
 */
export function ellipseFourier(aspect: number, biot: number, target: number): number {
  const halfWidth = 1 / Math.sqrt(aspect);
  const halfHeight = Math.sqrt(aspect); // the area is that of the unit circle
  const stored = matrix(([i, j], [k, l]) => moment(i + k, j + l));
  const conducted = matrix(([i, j], [k, l]) => {
    const alongX = i * k === 0 ? 0 : (i * k * moment(i + k - 2, j + l)) / halfWidth ** 2;
    const alongY = j * l === 0 ? 0 : (j * l * moment(i + k, j + l - 2)) / halfHeight ** 2;
    const passed = angles.reduce((sum, a) => {
      const edge = Math.hypot(halfWidth * Math.sin(a), halfHeight * Math.cos(a));
      return sum + edge * Math.cos(a) ** (i + k) * Math.sin(a) ** (j + l);
    }, 0);
    return alongX + alongY + (biot * passed * 2 * Math.PI) / ANGLES;
  });
  const implicit = solver(
    stored.map((row, a) => row.map((m, b) => m + STAGE * STEP * conducted[a][b])),
  );
  const heat = (c: readonly number[]): number[] =>
    stored.map((row) => row.reduce((sum, m, i) => sum + m * c[i], 0));
  const onward = (1 - STAGE) / STAGE;
  let c: number[] = POWERS.map(([i, j]) => (i + j === 0 ? 1 : 0));
  for (let fourier = 0; ; fourier += STEP) {
    const before = c[0]; // at the middle only the constant counts
    const one = implicit(heat(c));
    const from = c;
    c = implicit(heat(from.map((value, i) => value + onward * (one[i] - value))));
    if (c[0] <= target)
      return fourier + (STEP * Math.log(before / target)) / Math.log(before / c[0]);
  }
}
