import type { CookRun, Point, Stage } from '../cook/index.js';

/** Steps of a trial, over the cook's own: a peak moves by some thousandths of a kelvin over the plans of the check. */
export const TRIAL_STRIDE = 3;

/** How roughly a peak may be found. */
export interface Rough {
  /** Steps so many times the cook's own; default 1. */
  readonly stride?: number;
  /** A rest that comes last ends once the point has fallen so far below its peak [K]; default never. */
  readonly pastK?: number;
}

/** Runs what follows the pull; returns the point's peak [°C]. "Coldest" is settled at the pull and followed. */
export function peakOver(
  run: CookRun,
  after: readonly Stage[],
  point: Point,
  { stride = 1, pastK = Number.POSITIVE_INFINITY }: Rough = {},
): number {
  const followed = run.fixed(point);
  let peakC = run.temperatureOf(followed);
  for (const [index, stage] of after.entries()) {
    const mayEnd = stage.kind === 'rest' && index === after.length - 1;
    const onStep = (): boolean => {
      const nowC = run.temperatureOf(followed);
      if (nowC > peakC) peakC = nowC;
      return mayEnd && nowC < peakC - pastK;
    };
    run.run(stage, { onStep, stride });
  }
  return peakC;
}
