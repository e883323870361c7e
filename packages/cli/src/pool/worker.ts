import path from 'node:path';
import { workerData } from 'node:worker_threads';
import { type EnsembleChunk, type EnsembleSetup, ensembleChunk, RoastError } from '@roastsim/core';
import workerpool from 'workerpool';
import { type Order, problemOf } from '../read/orders.js';
import { reserve } from '../wholeFile.js';
import { digestOf } from './fingerprint.js';
import type { Job, Outcome, Shift } from './job.js';
import { makeCard } from './makeCard.js';

const shift: Shift = workerData;

async function card({ order, temporary }: Job): Promise<Outcome> {
  try {
    const { content, paper, line } = await makeCard(order, shift);
    await (await reserve(temporary, '--out', path.dirname(temporary))).fill(content);
    return { kind: 'made', line, bytes: digestOf(content), paper };
  } catch (error) {
    if (!(error instanceof RoastError)) throw error;
    if (error.code === 'unwritable') return { kind: 'unwritable', message: error.message };
    return { kind: 'problem', problem: problemOf(error, order, cellsOf(order)) };
  }
}

/** The texts of an order by the names of their columns. */
function cellsOf({ words, name, pickUp, note }: Order): Record<string, string> {
  const cells = Object.entries({ ...words, name, 'pick up': pickUp, note });
  return Object.fromEntries(
    cells.flatMap(([key, text]) =>
      typeof text === 'string'
        ? [[key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`), text]]
        : [],
    ),
  );
}

const members = (setup: EnsembleSetup, from: number, to: number): EnsembleChunk =>
  ensembleChunk(setup, from, to);

workerpool.worker({ card, members });
