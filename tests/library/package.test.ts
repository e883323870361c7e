import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { checkPackage, createPackageFromTarballData } from '@arethetypeswrong/core';
import { publint } from 'publint';
import { formatMessage } from 'publint/utils';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { bundled } from '../support/bundle.js';

// The library as it is published, from packages/core/dist as `pnpm test` or `pnpm build` leaves it. Needs no network.

const CORE = fileURLToPath(new URL('../../packages/core', import.meta.url));
const README = path.join(CORE, 'README.md');
const PAGE = fileURLToPath(new URL('../../docs/library.md', import.meta.url));

/** Most that a page may have to load for it, minified and gzipped [bytes]: about a fifth more than when it was set. */
const MOST_BYTES = { temperatureText: 250, planCook: 20_000, everything: 100_000 } as const;

let folder: string;
let tarball: Buffer;
let unpacked: string;

beforeAll(async () => {
  const run = promisify(execFile);
  folder = await mkdtemp(path.join(tmpdir(), 'roastsim-core-'));
  // without scripts: building again would pull dist away from under the tests that run beside this one
  const pack = ['pack', '--ignore-scripts', '--offline', '--pack-destination', folder];
  await run('npm', pack, { cwd: CORE });
  const [file] = await readdir(folder);
  if (file === undefined) throw new Error('npm pack left no tarball');
  tarball = await readFile(path.join(folder, file));
  await run('tar', ['-xzf', file], { cwd: folder });
  unpacked = path.join(folder, 'package');
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('the packed library', () => {
  test('holds what its manifest promises, and nothing to complain of', async () => {
    const bytes = new Uint8Array(tarball);
    const { messages, pkg } = await publint({ pack: { tarball: bytes.buffer }, strict: true });
    expect(messages.map((message) => formatMessage(message, pkg ?? {}))).toEqual([]);
    const files = await readdir(path.join(unpacked, 'dist'));
    expect(files).toContain('index.d.ts');
    expect(files).not.toContain('.tsbuildinfo');
  });

  test('brings its licence, whichever program packs it', async () => {
    const licence = await readFile(path.join(CORE, '../../LICENSE'), 'utf8');
    expect(await readFile(path.join(unpacked, 'LICENSE'), 'utf8')).toBe(licence);
    expect(await readFile(path.join(CORE, '../cli/LICENSE'), 'utf8')).toBe(licence);
  });

  test('leads a reader of its README nowhere that does not come with it', async () => {
    const text = await readFile(path.join(unpacked, 'README.md'), 'utf8');
    for (const [, target] of text.matchAll(/\]\(([^)]+)\)/g)) {
      expect(existsSync(path.join(unpacked, target)), target).toBe(true);
    }
    const pages = [...text.matchAll(/`(docs\/\w+\.md)`/g)];
    expect(pages.length).toBeGreaterThan(0);
    for (const [, page] of pages)
      expect(existsSync(path.join(CORE, '../..', page)), page).toBe(true);
  });

  test('has types for whoever imports it', async () => {
    const checked = await checkPackage(createPackageFromTarballData(new Uint8Array(tarball)));
    if (checked.types === false) throw new Error('there are no types');
    // CommonJS gets a module, as it has to of a package that is one: newer Nodes can require it, older ones import() it
    expect(checked.problems.map(({ kind }) => kind)).toEqual(['CJSResolvesToESM']);
  });
});

describe('a bundle of the packed library', () => {
  const importing = (name: string) =>
    bundled(`export { ${name} } from '@roastsim/core';`, unpacked);

  test('with temperatureText holds nothing else', async () => {
    const { bytes, inputs } = await importing('temperatureText');
    expect(bytes).toBeLessThan(MOST_BYTES.temperatureText);
    expect(inputs.length).toBeLessThanOrEqual(2);
  });

  test('with planCook has neither forecasts nor cutting nor the packages they need', async () => {
    const { inputs, gzippedBytes } = await importing('planCook');
    expect(inputs.filter((file) => /node_modules|forecast|cutting|order\//.test(file))).toEqual([]);
    expect(inputs.some((file) => file.endsWith('plan/planCook.js'))).toBe(true);
    expect(gzippedBytes).toBeLessThan(MOST_BYTES.planCook);
  });

  test('is as large as docs/library.md and README.md say', async () => {
    const page = await readFile(PAGE, 'utf8');
    const stated = [...page.matchAll(/^\| `import \{? ?([*\w]+)[ }]*` \| ([\d.]+) kB/gm)];
    expect(stated.map(([, name]) => name)).toEqual([
      'temperatureText',
      'simulate',
      'planCook',
      'quickInterval',
      'planForGuests',
      '*',
    ]);
    const kBOf = Object.fromEntries(stated.map(([, name, kB]) => [name, kB]));
    expect(await readFile(README, 'utf8')).toContain(
      `${kBOf.planCook} kB gzipped for \`planCook\`, ${kBOf['*']} kB for everything`,
    );
    for (const [, name, kB] of stated) {
      const { gzippedBytes } =
        name === '*'
          ? await bundled("export * from '@roastsim/core';", unpacked)
          : await importing(name);
      if (name === '*') expect(gzippedBytes).toBeLessThan(MOST_BYTES.everything);
      expect(Math.abs(gzippedBytes / 1000 - Number(kB)), name).toBeLessThan(
        0.05 * Number(kB) + 0.05,
      );
    }
  }, 60_000);
});
