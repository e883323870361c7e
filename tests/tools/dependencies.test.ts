import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
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

describe('installation', () => {
  const hooks = ['preinstall', 'install', 'postinstall'];

  test('runs nothing of ours, and is allowed nothing else', () => {
    expect(parse(read('pnpm-workspace.yaml'))).not.toHaveProperty('allowBuilds');
    for (const file of [
      'package.json',
      'packages/core/package.json',
      'packages/cli/package.json',
    ]) {
      const { scripts = {} } = JSON.parse(read(file));
      for (const hook of hooks) expect(scripts, file).not.toHaveProperty(hook);
    }
  });

  test('meets no package with a script to run', () => {
    const store = new URL('node_modules/.pnpm/', root);
    const folders = readdirSync(store);
    let seen = 0;
    for (const named of Object.keys(parse(read('pnpm-lock.yaml')).packages)) {
      const name = named.slice(0, named.lastIndexOf('@'));
      const folder = folders.find((each) => each.split('_')[0] === named.replace('/', '+'));
      if (folder === undefined) continue; // for another platform
      const file = new URL(`${folder}/node_modules/${name}/package.json`, store);
      const { scripts = {} } = JSON.parse(readFileSync(file, 'utf8'));
      expect(
        Object.keys(scripts).filter((each) => hooks.includes(each)),
        named,
      ).toEqual([]);
      expect(existsSync(new URL('binding.gyp', file)), named).toBe(false); // npm would build it
      seen++;
    }
    expect(seen).toBeGreaterThan(200);
  });
});
