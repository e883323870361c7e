import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { manifests } from '../../tools/dependencies/manifests.mjs';
import { REASONS } from '../../tools/dependencies/reasons.mjs';

const root = new URL('../../', import.meta.url);
const read = (file: string): string => readFileSync(new URL(file, root), 'utf8');

/** The cells of the tables under a heading of the page. */
function rowsUnder(title: string): string[][] {
  const [, part = ''] = read('docs/dependencies.md').split(`### ${title}\n`);
  return part
    .split('\n###')[0]
    .split('\n')
    .filter((line) => /^\| (?!package|---)/.test(line))
    .map((line) =>
      line
        .split('|')
        .slice(1, -1)
        .map((cell) => cell.trim()),
    );
}

describe('docs/dependencies.md', async () => {
  const parts = await manifests(root);

  test.each(parts)('lists what is named under "$title", and nothing else', ({ title, names }) => {
    expect(names.length).toBeGreaterThan(0);
    expect(rowsUnder(title).map(([name]) => name)).toEqual(names);
  });

  test('says of each why it is there, and under which licence', () => {
    for (const { title } of parts) {
      for (const [name, , licence, , , why] of rowsUnder(title)) {
        expect(why, name).toBe(REASONS[name]);
        expect(licence, name).toMatch(/MIT|ISC|Apache-2\.0|OFL-1\.1|MPL-2\.0/);
      }
    }
  });

  test('has no reason for a package that is gone', () => {
    const used = new Set(parts.flatMap(({ names }) => names));
    expect(Object.keys(REASONS).filter((name) => !used.has(name))).toEqual([]);
  });
});

test('nothing is allowed to run on installation', () => {
  const [, builds = ''] = read('pnpm-workspace.yaml').split('\nallowBuilds:\n');
  const allowed = builds.split('\n\n')[0].trim().split('\n');
  expect(allowed.map((line) => line.trim())).toEqual(['esbuild: false']);
  for (const file of ['package.json', 'packages/core/package.json', 'packages/cli/package.json']) {
    const { scripts = {} } = JSON.parse(read(file));
    for (const hook of ['preinstall', 'install', 'postinstall']) {
      expect(scripts, file).not.toHaveProperty(hook);
    }
  }
});
