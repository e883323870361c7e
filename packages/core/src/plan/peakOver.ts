import type { CookRun, Point, Stage } from '../cook/index.js';

/** Runs what follows the pull; returns the point's peak [°C]. "Coldest" is settled at the pull and followed. */
export function peakOver(run: CookRun, after: readonly Stage[], point: Point): number {
  const followed = run.fixed(point);
  let peakC = run.temperatureOf(followed);
  const onStep = (): boolean => {
    peakC = Math.max(peakC, run.temperatureOf(followed));
    return false;
  };
  for (const stage of after) run.run(stage, { onStep });
  return peakC;
}
