import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { RoastError } from '@roastsim/core';
import workerpool from 'workerpool';
import type { Job, Outcome, Shift } from './job.js';

/**
 * Makes cards in worker threads, one for each core.
 *
 * @param take - called for each job as it ends; what it returns is waited for before the end
 * @throws RoastError `unwritable` as soon as a card cannot be written
 */
export async function makeCards<J extends Job>(
  jobs: readonly J[],
  shift: Shift,
  take: (job: J, outcome: Outcome) => Promise<void>,
): Promise<void> {
  const pool = workerpool.pool(fileURLToPath(new URL('./worker.js', import.meta.url)), {
    workerType: 'thread',
    maxWorkers: Math.min(jobs.length, availableParallelism()),
    workerThreadOpts: { workerData: shift },
  });
  try {
    await Promise.all(
      jobs.map(async (job) => {
        const outcome: Outcome = await pool
          .exec('card', [{ order: job.order, temporary: job.temporary } satisfies Job])
          .then((value: Outcome) => value)
          .catch((error: unknown) => broken(job, error));
        if (outcome.kind === 'unwritable') refuse(outcome.message);
        await take(job, outcome);
      }),
    );
  } finally {
    await pool.terminate(true);
  }
}

/** A fault of the program spoils one card, not the day. */
function broken({ order: { row, line } }: Job, error: unknown): Outcome {
  const what = error instanceof Error ? error.message : String(error);
  const message = `this is a fault of the program, not yours: ${what}`;
  return { kind: 'problem', problem: { row, line, field: 'card', found: '', message } };
}

function refuse(message: string): never {
  throw new RoastError(message, {
    code: 'unwritable',
    path: ['--out'],
    found: undefined,
    accepted: 'a folder with room for the cards',
  });
}
