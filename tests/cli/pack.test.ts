import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

// The command as a stranger gets it: packed, installed by npm outside the workspace, started by its name.
// Needs the npm registry, and packages/cli/dist as `pnpm test` or `pnpm build` leaves it.

const run = promisify(execFile);
const cliDir = fileURLToPath(new URL('../../packages/cli', import.meta.url));
const PNG_SIGNATURE = '89504e470d0a1a0a';
const SLOW_MS = 180_000;

let workDir: string;
let installedDir: string;
let command: string;

beforeAll(async () => {
  workDir = await mkdtemp(path.join(tmpdir(), 'roastsim-pack-'));
  const packDir = path.join(workDir, 'pack');
  const prefix = path.join(workDir, 'prefix');
  await mkdir(packDir);

  // Without scripts: packing would build again and pull dist away from under the tests that run beside this one.
  const pack = ['--yes', 'pnpm@12', 'pack', '--config.ignore-scripts=true'];
  await run('npx', [...pack, '--pack-destination', packDir], { cwd: cliDir });
  const [tarball] = await readdir(packDir);
  if (tarball === undefined) throw new Error('pnpm pack left no tarball');

  const install = ['install', '--global', '--prefix', prefix, path.join(packDir, tarball)];
  await run('npm', install, { cwd: workDir });
  installedDir = path.join(prefix, 'lib', 'node_modules', 'roastsim');
  command = path.join(prefix, 'bin', 'roastsim');
}, SLOW_MS);

afterAll(async () => {
  await rm(workDir, { recursive: true, force: true });
});

describe('the packed command', () => {
  test('brings its licences and leans on nothing from the workspace', async () => {
    const manifest = JSON.parse(await readFile(path.join(installedDir, 'package.json'), 'utf8'));
    expect(manifest.dependencies ?? {}).toEqual({});
    expect(Object.keys(manifest.optionalDependencies)).toEqual(['@napi-rs/canvas']);

    const licences = ['LICENSE', 'dist/THIRD-PARTY-LICENSES.txt', 'dist/fonts/OFL.txt'];
    for (const file of licences) {
      expect((await stat(path.join(installedDir, file))).size, file).toBeGreaterThan(0);
    }
    const bundled = await readFile(path.join(installedDir, licences[1]), 'utf8');
    const headings = [...bundled.matchAll(/^-{80}\n(.+)\n-{80}$/gm)].map(([, name]) => name);
    expect(headings.length).toBeGreaterThan(30);
    expect(headings).toContain('rolldown (helpers in dist)');
    for (const heading of headings) {
      expect(heading).toMatch(/ \((MIT|ISC|0BSD|Apache-2\.0|.*\bdist\b.*)\)$/);
    }
  });

  test(
    'plans a roast',
    async () => {
      const args = ['--weight', '2.2kg', '--oven', '230C'];
      const { stdout } = await run(command, args, { cwd: workDir }); // rejects on any exit code but 0
      expect(stdout).toMatch(/pull/i);
    },
    SLOW_MS,
  );

  test(
    'draws a chart',
    async () => {
      const args = ['--weight', '2.2kg', '--oven', '230C', '--chart', 'out.png'];
      await run(command, args, { cwd: workDir });
      const png = await readFile(path.join(workDir, 'out.png'));
      expect(png.subarray(0, 8).toString('hex')).toBe(PNG_SIGNATURE);
      expect(png.readUInt32BE(16), 'width in the header').toBeGreaterThan(0);
      expect(png.readUInt32BE(20), 'height in the header').toBeGreaterThan(0);
    },
    SLOW_MS,
  );

  test(
    'finds its solver and allots orders',
    async () => {
      await writeFile(path.join(workDir, 'orders.csv'), 'cut,weight\ncentre,900g\n');
      const args = ['order', '--orders', 'orders.csv', '--stock', '2.4kg', '--out', 'sheet.pdf'];
      const { stdout } = await run(command, args, { cwd: workDir });
      expect(stdout).toContain('1 order served');
      expect((await readFile(path.join(workDir, 'sheet.pdf'))).toString('latin1', 0, 5)).toBe(
        '%PDF-',
      );
    },
    SLOW_MS,
  );
});
