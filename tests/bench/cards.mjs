// Times a day's cards end to end, as a shop makes them: `node tests/bench/cards.mjs [orders] [--profile]`, after `pnpm build`.
// Peak memory and processor time (steadier than seconds on a machine with other work) are read from /proc, on Linux only.

import { spawn } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { availableParallelism, tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { ordersCsv } from './ordersCsv.mjs';

const ENTRY = fileURLToPath(new URL('../../packages/cli/dist/main.js', import.meta.url));
const [, , countText = '500'] = process.argv.filter((arg) => !arg.startsWith('--'));
const TICKS_PER_S = 100; // of the times in /proc; Linux has had it so on every usual machine
const profiled = process.argv.includes('--profile');

/**
 * @param {readonly string[]} args
 * @param {string} cwd
 */
async function timed(args, cwd) {
  const started = performance.now();
  const child = spawn(process.execPath, [...args], {
    cwd,
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  let peakMiB = 0;
  let cpuSeconds = 0;
  const watch = setInterval(async () => {
    const status = await readFile(`/proc/${child.pid}/status`, 'utf8').catch(() => '');
    const kib = Number(/^VmHWM:\s+(\d+) kB/m.exec(status)?.[1] ?? 0);
    peakMiB = Math.max(peakMiB, kib / 1024);
    const fields = (await readFile(`/proc/${child.pid}/stat`, 'utf8').catch(() => '')).split(' ');
    cpuSeconds = Math.max(cpuSeconds, (Number(fields[13]) + Number(fields[14])) / TICKS_PER_S || 0);
  }, 100);
  const code = await new Promise((resolve) => child.on('exit', resolve));
  clearInterval(watch);
  const seconds = (performance.now() - started) / 1000;
  return {
    'exit code': code,
    seconds: Number(seconds.toFixed(1)),
    'processor s': Number(cpuSeconds.toFixed(1)),
    'peak RSS MiB': Math.round(peakMiB),
  };
}

/** Functions a run is made of; what runs within one of them is counted there alone. */
const PARTS = [
  'readOrders',
  'planOrder',
  'cardChart',
  'roastDrawing',
  'sectionDrawing',
  'logoOf',
  'requirePrintable',
  'layoutCard',
  'drawCard',
  'combinePdfs',
  'add',
  'flush',
  'daySheetPdf',
  'placeAll',
  'save',
  'standing',
  '(garbage collector)',
  '(idle)',
  '(program)',
];

/**
 * Time by part over all threads [s], from the profiles Node leaves.
 *
 * @param {string} dir
 */
async function shares(dir) {
  /** @type {Record<string, number>} */
  const seconds = {};
  const files = (await readdir(dir)).filter((file) => file.endsWith('.cpuprofile'));
  for (const file of files) {
    const { nodes, samples, timeDeltas } = JSON.parse(await readFile(path.join(dir, file), 'utf8'));
    const parts = new Map();
    /** @type {Map<number, any>} */
    const byId = new Map(nodes.map((/** @type {any} */ node) => [node.id, node]));
    const walk = (/** @type {any} */ node, /** @type {string} */ part) => {
      const name = node.callFrame.functionName.replace(/\d+$/, '');
      const own = part === 'other' && PARTS.includes(name) ? name : part;
      parts.set(node.id, own);
      for (const id of node.children ?? []) walk(byId.get(id), own);
    };
    walk(nodes[0], 'other');
    for (const [i, id] of samples.entries()) {
      const part = parts.get(id);
      seconds[part] = (seconds[part] ?? 0) + timeDeltas[i] / 1e6;
    }
  }
  return Object.entries(seconds).sort(([, a], [, b]) => b - a);
}

const dir = await mkdtemp(path.join(tmpdir(), 'roastsim-bench-'));
try {
  await writeFile(path.join(dir, 'orders.csv'), ordersCsv(Number(countText)));
  const command = [ENTRY, 'cards', 'orders.csv', '--out', 'cards'];
  const first = await timed(
    [...(profiled ? ['--cpu-prof', '--cpu-prof-dir=profile'] : []), ...command],
    dir,
  );
  const again = await timed(command, dir);
  console.log(`${countText} orders, ${availableParallelism()} cores, Node ${process.version}`);
  console.table({ 'all made': first, 'all kept': again });
  const { size } = await stat(path.join(dir, 'cards', 'all-cards.pdf'));
  console.log(`all-cards.pdf: ${(size / 1024 / 1024).toFixed(1)} MiB`);
  if (profiled) {
    console.table(
      (await shares(path.join(dir, 'profile'))).map(([part, s]) => ({
        part,
        seconds: Number(s.toFixed(2)),
      })),
    );
  }
} finally {
  await rm(dir, { recursive: true, force: true });
}
