import {
  type Bath,
  type CookOptions,
  CookRun,
  type OvenRoast,
  type Point,
  type Roast,
  type Stage,
} from '../cook/index.js';
import { type Carving, carvedAtMinutes } from './guestWays.js';
import { HeatPath } from './heatPath.js';
import { TRIAL_STRIDE } from './peakOver.js';

/** What a pull does to every slice. */
export interface PullSample {
  /** Seconds since the heat stage began. */
  readonly pullS: number;
  /** Axis of the watched point at the pull [°C]. */
  readonly centreC: number;
  /** Slices. */
  readonly slices: number;
  /** Hottest that each slice's axis has become so many whole minutes into the rest [°C], minute by minute; the last is for good. */
  readonly hottestC: Float64Array;
}

/** Everything up to the pull. */
export interface OvenRun {
  readonly roast: Roast;
  readonly before: readonly Stage[];
  readonly heat: OvenRoast | Bath;
}

const CREEP_K_PER_S = 1e-4; // a third of a kelvin an hour: as good as there
const SLIVER_S = 1e-4; // sums of steps are not exact
const PATIENCE_S = 1800; // before that the middle has hardly felt the heat

/** One oven on one mesh, with any number of pulls and of what follows them: the oven is run once. */
export class PullSampler {
  readonly #run: CookRun;
  readonly #path: HeatPath;
  readonly #point: Point;
  readonly #slices: readonly Point[];
  /** What the watched axis became, step by step, times and temperatures apart: [s since the heat stage began], [°C]. */
  readonly #seconds: number[] = [];
  readonly #centresC: number[] = [];

  /**
   * @param middlesMm - middles of the slices [mm]
   * @param point - whose axis tells when to pull
   */
  constructor(
    { roast, before, heat }: OvenRun,
    middlesMm: readonly number[],
    point: Point,
    options: CookOptions,
  ) {
    this.#point = point;
    this.#slices = middlesMm.map((atMm) => ({ atMm }));
    this.#run = new CookRun(roast, { ...options, fields: false });
    for (const stage of before) this.#run.run(stage);
    this.#path = new HeatPath(this.#run, heat, point, Number.NEGATIVE_INFINITY);
  }

  /**
   * When the watched axis reaches `tempC`, or stops rising, or `latestS` has come, whichever is first [s since the heat stage
   * began].
   */
  reaches(tempC: number, latestS: number): number {
    return this.#path.until(tempC, (atS) => {
      const nowC = this.#run.temperatureOf(this.#point);
      const lastS = this.#seconds.at(-1) ?? 0;
      const rate = (nowC - (this.#centresC.at(-1) ?? nowC)) / (atS - lastS);
      if (atS > lastS) {
        this.#seconds.push(atS);
        this.#centresC.push(nowC);
      }
      return atS >= latestS || (atS > PATIENCE_S && rate < CREEP_K_PER_S);
    });
  }

  /** Watched axis at a time that {@link reaches} has passed [°C]. */
  centreAt(atS: number): number {
    return between(this.#seconds, this.#centresC, atS);
  }

  /** When the watched axis had a temperature that {@link reaches} has passed [s since the heat stage began]. */
  timeOf(centreC: number): number {
    return between(this.#centresC, this.#seconds, centreC);
  }

  /** Pulls `pullS` seconds into the heat stage and runs what follows. */
  sample(pullS: number, after: readonly Stage[]): PullSample {
    const run = this.#run;
    this.#path.pullAt(pullS);
    const centreC = run.temperatureOf(this.#point);
    const slices = this.#slices.length;
    const hottestC = Float64Array.from(this.#slices, (slice) => run.temperatureOf(slice));
    const before = hottestC.slice();
    const rows: number[] = [];
    let restFromS: number | undefined;
    let beforeS = 0; // of the rest
    const follow = (): boolean => {
      before.set(hottestC);
      for (let i = 0; i < slices; i++) {
        hottestC[i] = Math.max(hottestC[i], run.temperatureOf(this.#slices[i]));
      }
      if (restFromS === undefined) return false;
      const nowS = run.atS - restFromS;
      for (let minute = rows.length / slices; 60 * minute <= nowS + SLIVER_S; minute++) {
        const part = Math.min(1, Math.max(0, (60 * minute - beforeS) / (nowS - beforeS)));
        for (let i = 0; i < slices; i++) rows.push(before[i] + part * (hottestC[i] - before[i]));
      }
      beforeS = nowS;
      return false;
    };
    for (const stage of after) {
      if (stage.kind === 'rest') restFromS ??= run.atS;
      run.run(stage, { onStep: follow, stride: TRIAL_STRIDE });
    }
    return { pullS, centreC, slices, hottestC: Float64Array.from([...rows, ...hottestC]) };
  }
}

/** Hottest that each slice's axis becomes before it is carved [°C]. */
export function peaksBeforeCarving(
  { slices, hottestC }: PullSample,
  carving: Carving | undefined,
): Float64Array {
  const last = hottestC.length / slices - 1;
  return Float64Array.from(carvedAtMinutes(carving, slices), (minute, i) => {
    return hottestC[Math.min(minute, last) * slices + i];
  });
}

/** Value at `x` on the line through the two known points round it; there are two at least. */
function between(xs: readonly number[], ys: readonly number[], x: number): number {
  const found = xs.findIndex((known) => known >= x);
  const next = found < 0 ? xs.length - 1 : Math.max(1, found);
  const part = (x - xs[next - 1]) / (xs[next] - xs[next - 1]);
  return ys[next - 1] + part * (ys[next] - ys[next - 1]);
}

/**
 * Value at `x` amid known points: the parabola through the three nearest, or the first where there are fewer.
 *
 * @param xs - increasing
 */
export function throughThree(xs: ArrayLike<number>, ys: ArrayLike<number>, x: number): number {
  if (xs.length < 3) return ys[0];
  let a = 0;
  while (a < xs.length - 3 && x > (xs[a + 1] + xs[a + 2]) / 2) a++;
  const [b, c] = [a + 1, a + 2];
  return (
    (ys[a] * (x - xs[b]) * (x - xs[c])) / ((xs[a] - xs[b]) * (xs[a] - xs[c])) +
    (ys[b] * (x - xs[a]) * (x - xs[c])) / ((xs[b] - xs[a]) * (xs[b] - xs[c])) +
    (ys[c] * (x - xs[a]) * (x - xs[b])) / ((xs[c] - xs[a]) * (xs[c] - xs[b]))
  );
}
