import { CholeskyDecomposition } from 'ml-matrix';
import { type Look, lookAt, normalEquations, predictAt, slopesAt, type Task } from './fitTask.js';

const ROUNDS = 8;
const SETTLED = 0.02; // standard deviations of the priors
const LONGEST_STRIDE = 2;

/**
 * Maximum a posteriori by Levenberg's and Marquardt's method. The priors are residuals like any other, the readings are whitened
 * and reweighted as they go in; fitting packages offer neither, so only their linear algebra is used.
 */
export function mostLikely(task: Task, from: Float64Array): { z: Float64Array; look: Look } {
  let z = from;
  let damping = 1e-3;
  let blur = from.some((x) => x !== 0) ? 1 : 8;
  let prediction = predictAt(task, z, false);
  for (let round = 0; round < ROUNDS; round++) {
    const look = lookAt(task, z, prediction, blur);
    const slopes = slopesAt(task, z, prediction, false);
    const { normal, right } = normalEquations(task, z, look, slopes);
    let stride = Number.POSITIVE_INFINITY;
    for (let tries = 0; tries < 4; tries++) {
      const damped = normal.clone();
      for (let i = 0; i < z.length; i++) damped.set(i, i, damped.get(i, i) * (1 + damping));
      const step = new CholeskyDecomposition(damped).solve(right).to1DArray();
      if (!step.every(Number.isFinite)) break;
      const longest = step.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
      const scale = Math.min(1, LONGEST_STRIDE / longest);
      const next = z.map((x, i) => x + scale * step[i]);
      const there = predictAt(task, next, false);
      if (lookAt(task, next, there, blur).cost <= look.cost * (1 + 1e-9)) {
        z = next;
        prediction = there;
        stride = scale * longest;
        damping /= 5;
        break;
      }
      damping = Math.max(damping * 10, 1e-2);
    }
    const settled = stride < SETTLED || stride === Number.POSITIVE_INFINITY;
    if (settled && blur === 1) break;
    if (settled || stride < 1) blur = Math.max(1, blur / 3);
  }
  return { z, look: lookAt(task, z, prediction, 1) };
}
