/** A function's value and slope at one argument. */
type Node = readonly [value: number, slope: number];

const COEFFICIENTS = 4;

/**
 * A smooth function sampled at equal steps and read back by cubic Hermite interpolation, so that value and slope are both
 * continuous: Newton iterations inside the step loop need the slope, and the loop should call no transcendental function
 * (they are slow, and engines may round them differently).
 *
 * Outside the sampled range the nearest end's value and slope are continued as a straight line.
 */
export class UniformTable {
  readonly #low: number;
  readonly #perStep: number;
  readonly #steps: number;
  /** Of each interval, with u from 0 to 1 over it: value at u = 0, coefficients of u, u² and u³. */
  readonly #cubics: Float64Array;
  /** Value and slope at both ends. */
  readonly #ends: readonly [Node, Node];
  /** Slope at the argument of the latest {@link UniformTable.at} call. */
  slope = Number.NaN;

  /** @param f - function and derivative; `steps` intervals between `low` and `high` */
  constructor(low: number, high: number, steps: number, f: (x: number) => Node) {
    const step = (high - low) / steps;
    this.#low = low;
    this.#perStep = steps / (high - low);
    this.#steps = steps;
    this.#cubics = new Float64Array(COEFFICIENTS * steps);
    const first = f(low);
    let [y0, s0] = first;
    for (let i = 0; i < steps; i++) {
      const [y1, s1] = f(low + (i + 1) * step);
      const [m0, m1] = [s0 * step, s1 * step];
      const rise = y1 - y0;
      const third = m0 + m1 - 2 * rise;
      this.#cubics.set([y0, m0, rise - m0 - third, third], COEFFICIENTS * i);
      [y0, s0] = [y1, s1];
    }
    this.#ends = [first, [y0, s0]];
  }

  /** Value at `x`; leaves the slope in {@link UniformTable.slope}. */
  at(x: number): number {
    const position = (x - this.#low) * this.#perStep;
    if (position <= 0) return this.#beyond(this.#ends[0], position);
    if (position >= this.#steps) return this.#beyond(this.#ends[1], position - this.#steps);
    const i = position | 0;
    const u = position - i;
    const cubics = this.#cubics;
    const at = COEFFICIENTS * i;
    const m0 = cubics[at + 1];
    const c2 = cubics[at + 2];
    const c3 = cubics[at + 3];
    this.slope = (m0 + u * (2 * c2 + 3 * c3 * u)) * this.#perStep;
    return cubics[at] + u * (m0 + u * (c2 + u * c3));
  }

  #beyond([value, slope]: Node, steps: number): number {
    this.slope = slope;
    return value + (slope * steps) / this.#perStep;
  }
}
