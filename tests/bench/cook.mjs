// Times the built library, as others use it: `pnpm bench`. docs/performance.md holds the figures and how they were taken.

import { Bench } from 'tinybench';
import {
  CookRun,
  centreReaches,
  planCook,
  rest,
  roastIn,
  simulate,
  temper,
  tenderloin,
} from '../../packages/core/dist/index.js';

const roast = tenderloin({ massKg: 2.2 });
const heat = roastIn({ ovenC: 230, until: centreReaches(49) });
let sink = 0; // every result is used, so that no work can be left out

const bench = new Bench({ warmupIterations: 20, iterations: 60, time: 2000 });
bench
  .add('simulate: whole default roast, oven and rest, 40 stations, 32 shells', () => {
    sink += simulate(roast, [heat, rest({ minutes: 20 })]).steps;
  })
  .add('simulate: a single line, oven and rest, 32 shells', () => {
    const run = new CookRun(roast, { stations: 1, axial: false });
    run.run(heat);
    run.run(rest({ minutes: 20 }));
    sink += run.atS;
  })
  .add('plan: default, with pull search', () => {
    sink += planCook(roast, {
      before: [temper({ minutes: 30 })],
      heat,
      after: [rest({ minutes: 20 })],
    }).pull.minutes;
  });
await bench.run();

console.table(
  bench.tasks.map(({ name, result }) => ({
    task: name,
    'median ms': Number(result?.latency.p50?.toFixed(2)),
    'mean ms': Number(result?.latency.mean.toFixed(2)),
    '± %': Number(result?.latency.rme.toFixed(1)),
  })),
);
if (!Number.isFinite(sink)) throw new Error('a result is not a number');
