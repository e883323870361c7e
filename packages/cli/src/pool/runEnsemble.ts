import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import {
  type Ensemble,
  type EnsembleChunk,
  type EnsembleSetup,
  ensembleChunk,
  mergeChunks,
} from '@roastsim/core';
import workerpool from 'workerpool';
import { progress } from './progress.js';

const CHUNK = 64; // members a worker cooks at a time: about a tenth of a second

/** Cooks an ensemble in worker threads, one for each core; on a single core in this one. The answer is the same. */
export async function runEnsemble(setup: EnsembleSetup): Promise<Ensemble> {
  const workers = availableParallelism();
  if (workers < 2) return mergeChunks(setup, [ensembleChunk(setup, 0, setup.members)]);
  const starts = Array.from(
    { length: Math.ceil(setup.members / CHUNK) },
    (_, chunk) => chunk * CHUNK,
  );
  const pool = workerpool.pool(fileURLToPath(new URL('./worker.js', import.meta.url)), {
    workerType: 'thread',
    maxWorkers: Math.min(starts.length, workers),
  });
  const bar = progress(starts.length, 'parts');
  try {
    const chunks = await Promise.all(
      starts.map(async (from): Promise<EnsembleChunk> => {
        const chunk = await pool.exec('members', [
          setup,
          from,
          Math.min(from + CHUNK, setup.members),
        ]);
        bar.done();
        return chunk;
      }),
    );
    return mergeChunks(setup, chunks);
  } finally {
    bar.stop();
    await pool.terminate(true);
  }
}
