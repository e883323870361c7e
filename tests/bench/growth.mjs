// How the cost of a step grows: `node tests/bench/growth.mjs`, after `tsc -b`. docs/performance.md holds the table.

import {
  ensemble,
  planCook,
  rest,
  roastIn,
  simulate,
  temper,
  tenderloin,
} from '../../packages/core/dist/index.js';

const roast = tenderloin({ massKg: 2.2 });
const stages = [roastIn({ ovenC: 230, until: { minutes: 40 } }), rest({ minutes: 20 })];
const request = {
  before: [temper({ minutes: 30 })],
  heat: roastIn({ ovenC: 230, until: { minutes: 0 } }),
  after: [rest({ minutes: 20 })],
};
const plan = planCook(roast, request);

/** Shortest of several rounds [ms]: what the work takes when nothing else runs. @param {() => unknown} work */
function shortest(work, rounds = 12) {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < rounds; i++) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

const meshes = [
  ...[10, 20, 40, 80, 160, 320].map((stations) => [stations, 32]),
  ...[8, 16, 32, 64, 128, 256].map((shells) => [40, shells]),
];
console.table(
  meshes.map(([stations, shells]) => {
    let steps = 0;
    const ms = shortest(() => {
      steps = simulate(roast, stages, { stations, shells }).steps;
    });
    return {
      stations,
      shells,
      'ms a cook': Number(ms.toFixed(2)),
      'ns a step and node': Number(((1e6 * ms) / (steps * stations * (shells + 1))).toFixed(1)),
    };
  }),
);
console.table(
  [64, 128, 256, 512, 1024].map((members) => {
    const ms = shortest(() => ensemble(roast, request, { seed: 1, members, plan }), 3);
    return { members, ms: Number(ms.toFixed(0)), 'ms a member': Number((ms / members).toFixed(3)) };
  }),
);
