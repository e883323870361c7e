// Times cutting lists end to end, as a shop makes them: `node tests/bench/cutting.mjs [orders] [tenderloins]`, after `pnpm build`.
// The orders are made up from seeds, so that every run does the same work: some more meat is ordered than there is, about as
// much, and less. How good the answers are stands beside the seconds.

import { spawnSync } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { randomFrom } from './randomFrom.mjs';

const ENTRY = fileURLToPath(new URL('../../packages/cli/dist/main.js', import.meta.url));
const [, , ordersText = '60', stockText = '15'] = process.argv;
const COMMAND = ['order'];

/**
 * @param {number} seed
 * @param {number} count
 * @param {number} stock
 */
function dayAt(seed, count, stock) {
  const random = randomFrom(seed);
  /** @type {<T>(list: readonly T[]) => T} */
  const one = (list) => list[Math.floor(random() * list.length)];
  const between = (/** @type {readonly [number, number]} */ [low, high]) =>
    `${(low + random() * (high - low)).toFixed(2)}kg`;
  const rows = Array.from({ length: count }, () => {
    const kind = one([
      'centre',
      'centre',
      'centre',
      'butt',
      'tail',
      'steak',
      'steak',
      'tips',
      'whole',
      'slab',
    ]);
    if (kind === 'slab') return ['steak', '', one([2, 2, 4, 6]), one(['2.5cm', '3cm', '4cm'])];
    if (kind === 'steak')
      return [kind, one(['150g', '180g', '200g', '8oz']), one([2, 2, 4, 6]), ''];
    const usual = {
      centre: /** @type {const} */ ([0.5, 1.2]),
      butt: /** @type {const} */ ([0.5, 1]),
      tail: /** @type {const} */ ([0.3, 0.5]),
      tips: /** @type {const} */ ([0.2, 0.6]),
      whole: /** @type {const} */ ([1.8, 2.6]),
    };
    return [kind, between(usual[/** @type {keyof typeof usual} */ (kind)]), 1, ''];
  });
  return {
    csv: [['cut', 'weight', 'pieces', 'thickness'], ...rows].map((row) => row.join(',')).join('\n'),
    stock: Array.from({ length: stock }, () => between([2, 2.8])).join(', '),
  };
}

const dir = await mkdtemp(path.join(tmpdir(), 'roastsim-bench-'));
try {
  const results = [];
  const [orders, stock] = [Number(ordersText), Number(stockText)];
  for (const share of [1, 0.75, 0.5]) {
    for (const seed of [1, 2, 3, 4]) {
      const count = Math.round(share * orders);
      const day = dayAt(seed, count, stock);
      const file = path.join(dir, 'orders.csv');
      await writeFile(file, day.csv);
      const started = performance.now();
      const args = [ENTRY, ...COMMAND, '--orders', file, '--stock', day.stock, '--json'];
      const { stdout, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
      const seconds = (performance.now() - started) / 1000;
      if (stdout === '') throw new Error(stderr);
      const list = JSON.parse(stdout);
      const served = list.orders.filter((/** @type {{ served: boolean }} */ o) => o.served).length;
      results.push({
        orders: count,
        tenderloins: stock,
        seconds: Number(seconds.toFixed(1)),
        served,
        'at most': list.proof.servedAtMost,
        'value gap %': Number((100 * list.proof.valueGap).toFixed(2)),
        'waste %': Number((100 * list.totals.wasteShare).toFixed(1)),
      });
    }
  }
  console.table(results);
} finally {
  await rm(dir, { recursive: true, force: true });
}
