/** What is wrong with a reading beside the fitted inputs. */
export interface ReadingError {
  /** Of each sample by itself [K]. */
  readonly noiseK: ArrayLike<number>;
  /** Of what wanders slowly: a model of another structure, a drifting probe [K], and how slowly [min]. */
  readonly driftK: number;
  readonly driftMinutes: number;
}

/** Residuals of one thermometer, made independent and of unit variance, and how that was done. */
export interface Whitened {
  readonly residuals: Float64Array;
  /** The same filter for any other column. */
  readonly apply: (column: ArrayLike<number>) => Float64Array;
  /** Drift after the last sample [K]: its estimate, its variance, and how it answers to a column. */
  readonly driftK: number;
  readonly driftVariance: number;
  readonly driftOf: (column: ArrayLike<number>) => number;
}

const FREEDOM = 4; // of Student's t: a spike of any height counts little, an ordinary reading in full. Judgement

/**
 * Whitens residuals that consist of noise and a slow drift (an Ornstein-Uhlenbeck process) by a scalar Kalman filter: what is left
 * of each is what the earlier ones did not tell. So many readings close together count as the little news they are. A residual
 * that is out of line is given more noise at once, as Student's t would (iteratively reweighted least squares), so that the drift
 * does not follow a spike.
 *
 * @param minutes - rising times of the samples
 * @param residuals - reading minus model [K]; NaN where nothing was read
 */
export function whiten(
  minutes: ArrayLike<number>,
  residuals: ArrayLike<number>,
  { noiseK, driftK, driftMinutes }: ReadingError,
): Whitened {
  const count = residuals.length;
  const gains = new Float64Array(count);
  const decays = new Float64Array(count);
  const scales = new Float64Array(count);
  let variance = driftK * driftK;
  let drift = 0;
  for (let i = 0; i < count; i++) {
    const decay = i > 0 ? Math.exp(-(minutes[i] - minutes[i - 1]) / driftMinutes) : 1;
    decays[i] = decay;
    drift *= decay;
    variance = decay * decay * variance + (1 - decay * decay) * driftK * driftK;
    if (Number.isNaN(residuals[i])) continue;
    const news = residuals[i] - drift;
    const own = noiseK[i] * noiseK[i];
    const usual = (news * news) / (variance + own);
    const noise = own * Math.max(1, (FREEDOM + usual) / (FREEDOM + 1));
    const total = variance + noise;
    scales[i] = 1 / Math.sqrt(total);
    gains[i] = variance / total;
    drift += gains[i] * news;
    variance *= 1 - gains[i];
  }
  const run = (column: ArrayLike<number>): { out: Float64Array; last: number } => {
    const out = new Float64Array(count);
    let state = 0;
    for (let i = 0; i < count; i++) {
      state *= decays[i];
      if (scales[i] === 0) continue;
      const news = column[i] - state;
      out[i] = news * scales[i];
      state += gains[i] * news;
    }
    return { out, last: state };
  };
  return {
    residuals: run(residuals).out,
    apply: (column) => run(column).out,
    driftK: drift,
    driftVariance: variance,
    driftOf: (column) => run(column).last,
  };
}
