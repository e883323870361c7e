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
  readonly #step: number;
  readonly #last: number;
  readonly #values: Float64Array;
  readonly #slopes: Float64Array;
  /** Slope at the argument of the latest {@link UniformTable.at} call. */
  slope = Number.NaN;

  /** @param f - function and derivative; `steps` intervals between `low` and `high` */
  constructor(
    low: number,
    high: number,
    steps: number,
    f: (x: number) => readonly [value: number, slope: number],
  ) {
    this.#low = low;
    this.#step = (high - low) / steps;
    this.#perStep = steps / (high - low);
    this.#last = steps - 1;
    this.#values = new Float64Array(steps + 1);
    this.#slopes = new Float64Array(steps + 1);
    for (let i = 0; i <= steps; i++) {
      const [value, slope] = f(low + i * this.#step);
      this.#values[i] = value;
      this.#slopes[i] = slope;
    }
  }

  /** Value at `x`; leaves the slope in {@link UniformTable.slope}. */
  at(x: number): number {
    const position = (x - this.#low) * this.#perStep;
    if (position <= 0) return this.#beyond(0, x - this.#low);
    if (position >= this.#last + 1) {
      return this.#beyond(this.#last + 1, (position - this.#last - 1) * this.#step);
    }
    const i = position > this.#last ? this.#last : position | 0;
    const u = position - i;
    const y0 = this.#values[i];
    const y1 = this.#values[i + 1];
    const m0 = this.#slopes[i] * this.#step;
    const m1 = this.#slopes[i + 1] * this.#step;
    // y0 + m0 u + c2 u² + c3 u³
    const rise = y1 - y0;
    const c3 = m0 + m1 - 2 * rise;
    const c2 = rise - m0 - c3;
    this.slope = (m0 + u * (2 * c2 + 3 * c3 * u)) * this.#perStep;
    return y0 + u * (m0 + u * (c2 + u * c3));
  }

  #beyond(index: number, distance: number): number {
    this.slope = this.#slopes[index];
    return this.#values[index] + this.slope * distance;
  }
}
