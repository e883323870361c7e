// Times the built library and the built command beside earlier figures: `pnpm bench`. docs/performance.md says what was found.
//
//     pnpm bench                    measures and compares with the latest figures of baselines.json
//     pnpm bench --save "what"      and adds today's to that file
//     pnpm bench --core DIR         takes the library from another folder, an older build for instance
//
// Machines differ, and so does one machine from hour to hour. Warm figures are compared as multiples of a yardstick that never changes,
// a plain elimination; cold ones as multiples of `node -e 0`.

import { spawnSync } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { cpus, tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { Bench } from 'tinybench';
import { ordersCsv } from './ordersCsv.mjs';

const here = fileURLToPath(new URL('.', import.meta.url));
const FILE = path.join(here, 'baselines.json');
const COLD_RUNS = 20;
const EMPTY = 'node -e 0';

const { values: asked } = parseArgs({
  options: {
    save: { type: 'string' },
    core: { type: 'string', default: path.join(here, '../../packages/core/dist') },
    command: { type: 'string', default: path.join(here, '../../packages/cli/dist/main.js') },
  },
});

/** @type {typeof import('../../packages/core/dist/index.js')} */
const library = await import(pathToFileURL(path.resolve(asked.core, 'index.js')).href);
const { CookRun, centreReaches, ensemble, planCook, planForGuests, quickInterval } = library;
const { bodyOf, inAir, rest, roastIn, simulate, Stepper, temper, tenderloin, uniformState } =
  library;

/** @param {readonly number[]} times */
const median = (times) => [...times].sort((a, b) => a - b)[times.length >> 1];

/** A tridiagonal system of 1,320 rows, eliminated and solved 400 times. */
function yardstick() {
  const rows = 1320;
  const far = new Float64Array(rows);
  const right = new Float64Array(rows);
  let sum = 0;
  for (let round = 0; round < 400; round++) {
    let kept = 0;
    let carried = 0;
    for (let i = 0; i < rows; i++) {
      const link = 1 + (i % 7) / 10;
      const inverted = 1 / (5 + kept + link);
      carried = (5 * (20 + (i % 11)) + carried) * inverted;
      far[i] = link * inverted;
      right[i] = carried;
      kept = link * (1 - far[i]);
    }
    let next = 100;
    for (let i = rows - 1; i >= 0; i--) {
      next = right[i] + far[i] * next;
      sum += next;
    }
  }
  return sum;
}

const roast = tenderloin({ massKg: 2.2 });
const heat = roastIn({ ovenC: 230, until: centreReaches(49) });
const request = {
  before: [temper({ minutes: 30 })],
  heat: roastIn({ ovenC: 230, until: { minutes: 0 } }),
  after: [rest({ minutes: 20 })],
};
const wishes = ['rare', 'rare', 'rare', 'medium-rare', 'medium-rare', 'medium-rare', 'medium'].map(
  (doneness) => ({ doneness }),
);
const plan = planCook(roast, request);
let sink = 0; // every result is used, so that no work can be left out

/** Milliseconds by task. @type {Record<string, number>} */
const figures = {};
const warm = async (/** @type {Record<string, () => number>} */ tasks) => {
  const bench = new Bench({ throws: true, warmupIterations: 10, iterations: 30, time: 1500 });
  for (const [name, work] of Object.entries(tasks)) {
    bench.add(name, () => {
      sink += work();
    });
  }
  await bench.run();
  for (const { name, result } of bench.tasks) figures[name] = result?.latency.p50 ?? Number.NaN;
};

/** A million node steps of the default body in hot air: 20 s each, state and surroundings made beforehand. */
const { body } = bodyOf(roast);
const nodes = body.stations * (body.mesh.shells + 1);
const stepper = new Stepper(body, roast.meat);
const air = inAir({ airC: 230, wallC: 230, filmWPerM2K: 8, radiationFactor: 0.9, vapourPa: 3000 });
const around = { side: air, ends: air };
function millionNodes() {
  const state = uniformState(body, roast.meat, 5);
  for (let step = 0; step < 1e6 / nodes; step++) stepper.step(state, 20, around, around, around);
  return state.tempC[0];
}

await warm({
  yardstick,
  'step kernel: a million nodes': millionNodes,
  'simulate: oven and rest of the default roast': () =>
    simulate(roast, [heat, rest({ minutes: 20 })]).steps,
  'a single line: oven and rest': () => {
    const run = new CookRun(roast, { stations: 1, axial: false });
    run.run(heat);
    run.run(rest({ minutes: 20 }));
    return run.atS;
  },
  'plan: pull found, put-back rule': () => planCook(roast, request).pull.minutes,
  'range of a plan': () => quickInterval(plan, request)?.highMinutes ?? Number.NaN,
  'ensemble: 64 cooks on one thread': () =>
    ensemble(roast, request, { seed: 1, members: 64, plan }).members,
  'guests: pull for seven wishes': () =>
    planForGuests(roast, { ...request, wishes }).plan.pull.minutes,
});

const many = Array.from({ length: 5 }, () => {
  const start = performance.now();
  sink += ensemble(roast, request, { seed: 1, members: 1024, plan }).members;
  return performance.now() - start;
});
figures['ensemble: 1,024 cooks on one thread'] = median(many);

/** Median wall time of a fresh process [ms]. */
function cold(/** @type {string[]} */ words) {
  const times = Array.from({ length: COLD_RUNS }, () => {
    const start = performance.now();
    const { status } = spawnSync(process.execPath, words);
    if (status !== 0) throw new Error(`node ${words.join(' ')} ends with ${status}`);
    return performance.now() - start;
  });
  return median(times);
}
figures[EMPTY] = cold(['-e', '0']);
figures['command, cold'] = cold([asked.command, '--weight', '2.2kg', '--oven', '230C']);
const folder = await mkdtemp(path.join(tmpdir(), 'roastsim-bench-'));
const card = [
  'card',
  '--weight',
  '2.2kg',
  '--oven',
  '230C',
  '--out',
  path.join(folder, 'card.pdf'),
];
figures['one card as PDF, cold'] = cold([asked.command, ...card]);
await writeFile(path.join(folder, 'orders.csv'), ordersCsv(500));
const start = performance.now();
const day = ['cards', path.join(folder, 'orders.csv'), '--out', path.join(folder, 'cards')];
const { status } = spawnSync(process.execPath, [asked.command, ...day]);
if (status !== 0) throw new Error(`the batch ends with ${status}`);
figures['500 cards, one batch'] = performance.now() - start;
await rm(folder, { recursive: true });

if (!Number.isFinite(sink)) throw new Error('a result is not a number');

/** @type {{ name: string, date: string, node: string, processor: string, ms: Record<string, number> }[]} */
const saved = JSON.parse(await readFile(FILE, 'utf8').catch(() => '[]'));
const base = saved.at(-1);
const relative = (/** @type {Record<string, number>} */ ms, /** @type {string} */ task) =>
  ms[task] / ms[task.endsWith('cold') ? EMPTY : 'yardstick'];
console.log(
  base === undefined
    ? 'nothing saved yet'
    : `beside "${base.name}" of ${base.date}, ${base.processor}`,
);
console.table(
  Object.fromEntries(
    Object.entries(figures).map(([task, ms]) => [
      task,
      {
        ms: Number(ms.toPrecision(4)),
        multiples: Number(relative(figures, task).toPrecision(4)),
        ...(base?.ms[task] === undefined
          ? {}
          : {
              'then, ms': base.ms[task],
              'change, %': Number(
                (100 * (relative(figures, task) / relative(base.ms, task) - 1)).toFixed(1),
              ),
            }),
      },
    ]),
  ),
);

if (asked.save !== undefined) {
  const ms = Object.fromEntries(
    Object.entries(figures).map(([task, value]) => [task, Number(value.toPrecision(4))]),
  );
  saved.push({
    name: asked.save,
    date: new Date().toISOString().slice(0, 10),
    node: process.version,
    processor: cpus()[0]?.model ?? 'unknown',
    ms,
  });
  await writeFile(FILE, `${JSON.stringify(saved, null, 2)}\n`);
}
