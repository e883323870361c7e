import { Matrix } from 'ml-matrix';
import type { Point } from '../cook/index.js';
import { type Prediction, predict } from './lineModel.js';
import {
  type Deviations,
  deviationOf,
  deviationsOf,
  INPUTS,
  type InputName,
  type Priors,
} from './priors.js';
import type { Sample } from './readings.js';
import type { StandIn } from './standIn.js';
import { type ReadingError, type Whitened, whiten } from './whiten.js';

// Judgement, developed on synthetic cooks of other structure (docs/forecast.md).
export const METER = {
  readingK: 0.4, // of one reading
  sampleK: 0.15, // of a sample of ever so many
  driftK: 0.25,
  driftMinutes: 15,
} as const;
const OVEN_METER_K = 5; // an oven thermometer stands where it stands
const SLOPE_STEP = 0.3; // of a finite difference [standard deviations]: well above rounding, well below bending

/** One fit: what does not change from round to round. */
export interface Task {
  readonly standIn: StandIn;
  readonly searched: boolean;
  readonly priors: Priors;
  readonly samples: readonly Sample[];
  readonly minutes: Float64Array;
  readonly second: Point | undefined;
  readonly pulledAtMinutes: number | undefined;
  /** Oven's true minus set temperature by an oven thermometer [K]. */
  readonly ovenOffsetK: number | undefined;
  readonly names: readonly (InputName | 'secondProbe')[];
}

/** Residuals, made independent, at one point. */
export interface Look {
  readonly prediction: Prediction;
  readonly centre: Whitened;
  readonly second: Whitened | undefined;
  readonly oven: number;
  readonly cost: number;
}

/** What the fit's numbers mean. */
export const deviationsAt = (task: Task, z: Float64Array): Deviations => {
  const all = new Float64Array(INPUTS.length);
  for (const [i, name] of task.names.entries()) {
    if (name !== 'secondProbe') all[INPUTS.indexOf(name)] = z[i];
  }
  return deviationsOf(task.priors, all);
};

/** What the model says the log shows; with the peak, where that is asked for. */
export function predictAt(task: Task, z: Float64Array, peak: boolean): Prediction {
  const { standIn, minutes, second, pulledAtMinutes, priors, names } = task;
  return predict(standIn, deviationsAt(task, z), {
    minutes,
    peak,
    ...(second === undefined
      ? {}
      : {
          second: {
            point: second,
            offAxis: deviationOf(priors.probe, z[names.indexOf('secondProbe')]),
          },
        }),
    ...(pulledAtMinutes === undefined ? {} : { pulledAtMinutes }),
  });
}

/** Compares a prediction with the samples; `blur` makes the meters coarser while the fit is far off. */
export function lookAt(task: Task, z: Float64Array, prediction: Prediction, blur: number): Look {
  const { samples, minutes, ovenOffsetK, priors, names } = task;
  const meter: ReadingError = {
    ...METER,
    noiseK: samples.map(
      ({ count }) => blur * Math.hypot(METER.sampleK, METER.readingK / Math.sqrt(count)),
    ),
  };
  const centre = whiten(
    minutes,
    samples.map((sample, i) => sample.centreC - prediction.centreC[i]),
    meter,
  );
  const second =
    task.second &&
    whiten(
      minutes,
      samples.map((sample, i) => sample.secondC - prediction.secondC[i]),
      meter,
    );
  const oven =
    ovenOffsetK === undefined
      ? 0
      : (ovenOffsetK - priors.ovenOffset.spread * z[names.indexOf('ovenOffset')]) / OVEN_METER_K;
  const squares = (of: Float64Array | undefined): number =>
    of?.reduce((sum, x) => sum + x * x, 0) ?? 0;
  const cost = squares(centre.residuals) + squares(second?.residuals) + oven * oven + squares(z);
  return { prediction, centre, second, oven, cost };
}

/** Slopes of everything a prediction says, by finite differences. */
export function slopesAt(task: Task, z: Float64Array, base: Prediction, peak: boolean) {
  const moved = z.slice();
  return task.names.map((_, i) => {
    // towards the middle of the prior, where no input meets its limit
    const step = z[i] > 0 ? -SLOPE_STEP : SLOPE_STEP;
    moved[i] = z[i] + step;
    const there = predictAt(task, moved, peak);
    moved[i] = z[i];
    return {
      centre: there.centreC.map((x, k) => (x - base.centreC[k]) / step),
      second: there.secondC.map((x, k) => (x - base.secondC[k]) / step),
      logPull: Math.log(there.pullMinutes / base.pullMinutes) / step,
      peak: (there.peakC - base.peakC) / step,
    };
  });
}

export type Slopes = ReturnType<typeof slopesAt>;

/** Normal equations of the residuals' least squares with the priors: JᵀJ + I and Jᵀr - z. */
export function normalEquations(task: Task, z: Float64Array, look: Look, slopes: Slopes) {
  const count = z.length;
  const ovenAt = task.names.indexOf('ovenOffset');
  const columns = slopes.map(({ centre, second }, i) => [
    ...look.centre.apply(centre),
    ...(look.second?.apply(second) ?? []),
    task.ovenOffsetK !== undefined && i === ovenAt
      ? task.priors.ovenOffset.spread / OVEN_METER_K
      : 0,
  ]);
  const residuals = [...look.centre.residuals, ...(look.second?.residuals ?? []), look.oven];
  const jacobian = new Matrix(columns);
  const normal = jacobian.mmul(jacobian.transpose());
  const right = jacobian.mmul(Matrix.columnVector(residuals));
  for (let i = 0; i < count; i++) {
    normal.set(i, i, normal.get(i, i) + 1);
    right.set(i, 0, right.get(i, 0) - z[i]);
  }
  return { normal, right };
}
