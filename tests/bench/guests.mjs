// How long the search for guests takes: `node tests/bench/guests.mjs`, after a build.

import { performance } from 'node:perf_hooks';
import {
  FREEDOMS,
  planForGuests,
  rest,
  roastIn,
  temper,
  tenderloin,
} from '../../packages/core/dist/index.js';

const roast = tenderloin({ massKg: 2.2 });
const wish = (/** @type {string} */ doneness, /** @type {number} */ count) =>
  Array.from({ length: count }, () => ({ doneness }));
const request = {
  before: [temper({ minutes: 30 })],
  heat: roastIn({ ovenC: 230, until: { minutes: 0 } }),
  after: [rest({ minutes: 20 })],
  wishes: [...wish('rare', 3), ...wish('medium-rare', 4), ...wish('medium-well', 1)],
  otherFold: tenderloin({ massKg: 2.2, folded: false }),
};
const RUNS = 7;

/** @type {[string, readonly import('@roastsim/core').Freedom[]][]} */
const cases = [
  ['pull alone, with remedies', []],
  ['pull and fold', ['fold']],
  ['pull and oven', ['oven']],
  ['pull, oven, sear, fold, carving', FREEDOMS],
];
for (const [what, vary] of cases) {
  const times = Array.from({ length: RUNS }, () => {
    const started = performance.now();
    planForGuests(roast, { ...request, vary });
    return performance.now() - started;
  });
  const [first] = times;
  const median = [...times].sort((a, b) => a - b)[(RUNS - 1) / 2];
  console.log(`${what}: ${median.toFixed(0)} ms (the first ${first.toFixed(0)})`);
}
