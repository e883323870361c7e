import { isHeat, type Point } from '../cook/index.js';
import { RoastError } from '../errors.js';
import type { Deviations } from './priors.js';
import { afterPull, linesRun, type StandIn } from './standIn.js';

/** What a trial of the inputs predicts. */
export interface Prediction {
  /** Readings at the asked-for minutes [°C]. */
  readonly centreC: Float64Array;
  readonly secondC: Float64Array;
  /** When the thermometer shows the pull temperature [min]; Infinity if never. */
  readonly pullMinutes: number;
  /** How fast it rises then [K/min]. */
  readonly pullSlope: number;
  /** Axis at its peak after the pull [°C]; NaN where it was not asked for. */
  readonly peakC: number;
}

/** What to predict. */
export interface Query {
  /** Rising, since the first oven or bath stage began. */
  readonly minutes: Float64Array;
  /** Where the second thermometer is, and how far off the axis [of the radius]. */
  readonly second?: { readonly point: Point; readonly offAxis: number };
  /** When the roast was taken out, once that is known. */
  readonly pulledAtMinutes?: number;
  /** Follow the meat to its peak. */
  readonly peak: boolean;
}

const SLOPE_STEPS = 3;

/** A curve of readings over model time. */
class Curve {
  readonly seconds: number[] = [];
  readonly centreC: number[] = [];
  readonly secondC: number[] = [];

  /** Slope over the last few steps [K/s]. */
  endSlope(): number {
    const { seconds, centreC } = this;
    const end = seconds.length - 1;
    const back = Math.max(0, end - SLOPE_STEPS);
    return (centreC[end] - centreC[back]) / (seconds[end] - seconds[back]);
  }

  /** Forgets all but the first rows. */
  cutTo(rows: number): void {
    for (const series of [this.seconds, this.centreC, this.secondC]) series.length = rows;
  }

  /** Values of `of` at rising model times [s], by straight lines; the ends are kept beyond them. */
  at(times: Float64Array, of: 'centreC' | 'secondC'): Float64Array {
    const values = this[of];
    const { seconds } = this;
    let row = 1;
    return times.map((s) => {
      while (row < seconds.length - 1 && seconds[row] < s) row++;
      const span = seconds[row] - seconds[row - 1];
      const part = span > 0 ? Math.min(1, Math.max(0, (s - seconds[row - 1]) / span)) : 1;
      return values[row - 1] + part * (values[row] - values[row - 1]);
    });
  }
}

/**
 * Cooks the stand-in with deviations and reads it as the thermometers would. Model time is stretched by the whole roast's time
 * over the lines' and by the model's own error.
 */
export function predict(standIn: StandIn, by: Deviations, query: Query): Prediction {
  const { request, aimMm, whole, lines, pullC, earlierMinutes } = standIn;
  const { pulledAtMinutes } = query;
  const centre: Point = { atMm: aimMm, offAxis: Math.min(1, by.probe) };
  const second: Point | undefined = query.second && {
    ...query.second.point,
    offAxis: Math.min(1, query.second.offAxis),
  };
  const run = linesRun(standIn, by);
  const curve = new Curve();
  const note = (): false => {
    curve.seconds.push(run.atS);
    curve.centreC.push(run.temperatureOf(centre));
    if (second !== undefined) curve.secondC.push(run.temperatureOf(second));
    return false;
  };
  note();
  let zeroS = Number.NaN;
  for (const stage of request.before) {
    if (Number.isNaN(zeroS) && isHeat(stage)) zeroS = run.atS;
    run.run(stage, { onStep: note });
  }
  const heatS = run.atS;
  if (Number.isNaN(zeroS)) zeroS = heatS;

  const stretch =
    (by.modelTime * (earlierMinutes + whole.heatMinutes)) / (earlierMinutes + lines.heatMinutes);
  const toModelS = (minutes: number): number =>
    zeroS + (minutes > 0 ? (60 * minutes) / stretch : 60 * minutes);
  const lastS = toModelS(pulledAtMinutes ?? query.minutes.at(-1) ?? Number.NEGATIVE_INFINITY);
  const beginning = run.save();
  let pullS = Number.POSITIVE_INFINITY;
  let pullSlope = Number.NaN;
  if (pulledAtMinutes === undefined) {
    const rows = curve.seconds.length;
    const until = { reachesC: pullC, at: centre };
    try {
      run.run({ ...request.heat, until }, { onStep: note });
      note();
      pullS = run.atS;
      pullSlope = (60 * curve.endSlope()) / stretch;
    } catch (error) {
      if (!(error instanceof RoastError && error.code === 'unreachable')) throw error;
    }
    if (pullS < lastS) {
      run.restore(beginning);
      curve.cutTo(rows);
    }
  }
  if (pulledAtMinutes !== undefined || pullS < lastS) {
    run.run(
      { ...request.heat, until: { minutes: Math.max(0, lastS - heatS) / 60 } },
      { onStep: note },
    );
  }
  let peakC = Number.NaN;
  if (pulledAtMinutes !== undefined || (query.peak && pullS < Number.POSITIVE_INFINITY)) {
    const after = afterPull(run, standIn, note);
    const riseK = (after.peakC - after.pullCentreC) * by.modelRise;
    peakC = after.pullCentreC + riseK + whole.peakC - lines.peakC;
  }
  const times = query.minutes.map(toModelS);
  return {
    centreC: curve.at(times, 'centreC'),
    secondC: second === undefined ? new Float64Array(0) : curve.at(times, 'secondC'),
    pullMinutes: pulledAtMinutes ?? (stretch * (pullS - zeroS)) / 60,
    pullSlope,
    peakC,
  };
}
