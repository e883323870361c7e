// Times the forecasts of the built library: `node tests/bench/ensemble.mjs`. docs/forecast.md holds the figures.

import { availableParallelism } from 'node:os';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { thickened } from '../../packages/core/dist/cook/index.js';
import * as face from '../../packages/core/dist/index.js';
import {
  ensemble,
  ensembleChunk,
  fitLog,
  mergeChunks,
  ProbeTracker,
  planCook,
  prepareEnsemble,
  quickInterval,
  rest,
  roastIn,
  temper,
  tenderloin,
} from '../../packages/core/dist/index.js';
import { mixBits, normalDeviate } from '../../packages/core/dist/numerics/index.js';
import { syntheticLog } from '../support/syntheticLog.mjs';

const library = { ...face, mixBits, normalDeviate, thickened };

const MEMBERS = 1000;

/** @param {readonly number[]} times */
const median = (times) => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)];

/** @param {number} rounds @param {() => unknown} work */
function time(rounds, work) {
  const times = [];
  const before = process.cpuUsage();
  for (let i = 0; i < rounds; i++) {
    const start = performance.now();
    work();
    times.push(performance.now() - start);
  }
  const { user, system } = process.cpuUsage(before);
  return {
    // on a shared machine the processor's time says more than the clock's
    'mean processor ms': (user + system) / 1000 / rounds,
    'first ms': times[0],
    'best ms': Math.min(...times),
    'median ms': median(times),
    'worst ms': Math.max(...times),
  };
}

/** @param {import('../../packages/core/dist/index.js').EnsembleSetup} setup */
async function inWorkers(setup) {
  const count = Math.min(2, availableParallelism());
  const start = performance.now();
  const chunks = await Promise.all(
    Array.from({ length: count }, (_, i) => {
      const from = Math.round((i * MEMBERS) / count);
      const to = Math.round(((i + 1) * MEMBERS) / count);
      const worker = new Worker(new URL(import.meta.url), { workerData: { setup, from, to } });
      return new Promise((resolve, reject) => {
        worker.once('message', resolve);
        worker.once('error', reject);
      });
    }),
  );
  mergeChunks(setup, chunks);
  return performance.now() - start;
}

if (isMainThread) {
  const roast = tenderloin({ massKg: 2.2 });
  const request = {
    before: [temper({ minutes: 30 })],
    heat: roastIn({ ovenC: 230, until: { minutes: 0 } }),
    after: [rest({ minutes: 20 })],
  };
  const plan = planCook(roast, request);
  const setup = prepareEnsemble(roast, request, { seed: 1, members: MEMBERS, plan });
  /** @type {Record<string, object>} */
  const table = {};
  table['quick interval, plan at hand'] = time(60, () => quickInterval(plan, request));
  table[`ensemble of ${MEMBERS}, plan at hand, one thread`] = time(5, () =>
    ensemble(roast, request, { seed: 1, members: MEMBERS, plan }),
  );
  const two = [];
  for (let i = 0; i < 3; i++) two.push(await inWorkers(setup));
  table[`ensemble of ${MEMBERS}, two fresh workers, their start included`] = {
    'first ms': two[0],
    'best ms': Math.min(...two),
    'median ms': median(two),
    'worst ms': Math.max(...two),
  };

  const log = syntheticLog(library, 930_100);
  const half = log.readings.filter(({ minutes }) => minutes < log.pullMinutes / 2);
  table['fit of half a log, cold start'] = time(20, () =>
    fitLog(log.roast, log.request, half, { plan: log.plan }),
  );
  const live = new ProbeTracker(log.roast, log.request, { plan: log.plan });
  let at = 0;
  table['live update, a minute of one-second readings each'] = time(
    Math.floor(log.pullMinutes),
    () => {
      for (let s = 0; s < 60; s++) {
        const minutes = at + s / 60;
        const shown = log.readings[Math.min(log.readings.length - 1, Math.floor(6 * minutes))];
        live.add({ minutes, centreC: shown.centreC });
      }
      at++;
      live.estimate();
    },
  );
  // six hours in a low oven, the longest a log is promised for
  const slow = { ...request, heat: roastIn({ ovenC: 95, until: { minutes: 0 } }) };
  const heavy = tenderloin({ massKg: 3.2, cut: 'whole' });
  const slowPlan = planCook(heavy, slow);
  const long = new ProbeTracker(heavy, slow, { plan: slowPlan });
  let hour = 0;
  const before = process.memoryUsage().heapUsed;
  table['live update after 1 to 6 h of one-second readings, 95 °C'] = time(24, () => {
    for (let s = 0; s < 900; s++) {
      const minutes = hour + s / 60;
      long.add({ minutes, centreC: 5 + 46 * (1 - Math.exp(-minutes / 150)) });
    }
    hour += 15;
    long.estimate();
  });
  console.table(
    Object.fromEntries(
      Object.entries(table).map(([name, row]) => [
        name,
        Object.fromEntries(Object.entries(row).map(([k, v]) => [k, Number(v.toFixed(1))])),
      ]),
    ),
  );
  const grown = (process.memoryUsage().heapUsed - before) / 2 ** 20;
  console.log(`heap after 21,600 readings: ${grown.toFixed(1)} MiB more, before collection`);
} else {
  const { setup, from, to } = workerData;
  parentPort?.postMessage(ensembleChunk(setup, from, to));
}
