/** How a bracketed search ended: the root, the last function value there and the calls it took. */
export interface Root {
  readonly x: number;
  readonly residual: number;
  readonly calls: number;
}

/**
 * Root of `f` between `a` and `b` by regula falsi with the Illinois modification: keeps a bracket, never uses a slope, and
 * converges superlinearly when `f` is smooth. Source: Dowell and Jarratt 1971, BIT 11:168-174 (from memory).
 *
 * @param fa - value of `f` at `a`; must differ in sign from `fb` (zero counts as either)
 * @param tolerance - stop when |f| is at most this
 * @param maxCalls - calls of `f` allowed; the best point so far is returned when they are used up
 * @example
 * bracketedRoot((x) => x * x - 2, 1, -1, 2, 2, 1e-9, 50).x // => 1.41421
 */
export function bracketedRoot(
  f: (x: number) => number,
  a: number,
  fa: number,
  b: number,
  fb: number,
  tolerance: number,
  maxCalls: number,
): Root {
  let best: Root =
    Math.abs(fa) < Math.abs(fb)
      ? { x: a, residual: fa, calls: 0 }
      : { x: b, residual: fb, calls: 0 };
  let [lowX, lowF, highX, highF] = [a, fa, b, fb];
  let side = 0;
  for (let calls = 1; calls <= maxCalls && Math.abs(best.residual) > tolerance; calls++) {
    const x = (lowX * highF - highX * lowF) / (highF - lowF);
    const value = f(x);
    if (Math.abs(value) <= Math.abs(best.residual)) best = { x, residual: value, calls };
    if (value > 0 === highF > 0) {
      highX = x;
      highF = value;
      if (side === 1) lowF /= 2;
      side = 1;
    } else {
      lowX = x;
      lowF = value;
      if (side === -1) highF /= 2;
      side = -1;
    }
  }
  return best;
}
