import { type Dirent, existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { arriving } from '../../tools/dependencies/arriving.mjs';
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

interface Locked {
  readonly packages: Readonly<Record<string, { os?: string[]; cpu?: string[]; libc?: string[] }>>;
  /** Its keys are those of `packages`, with the peers in brackets that were found for them. */
  readonly snapshots: Readonly<
    Record<string, { optional?: true } & Record<string, Record<string, string>>>
  >;
  readonly importers: Readonly<Record<string, Record<string, Record<string, { version: string }>>>>;
}
const locked: Locked = parse(read('pnpm-lock.yaml'));

/** Whether a package comes only to some machines. */
const forSome = (named: string): boolean => {
  const { os, cpu, libc } = locked.packages[named];
  return (os ?? cpu ?? libc) !== undefined;
};

/** By the lock file, all that comes with packages of a manifest: `name@version`. */
function comesWith(dir: string, kind: string): string[] {
  const all = new Set(
    Object.entries(locked.importers[dir][kind]).map(([name, { version }]) => `${name}@${version}`),
  );
  for (const named of all) {
    const { dependencies = {}, optionalDependencies = {} } = locked.snapshots[named];
    for (const [name, version] of Object.entries({ ...dependencies, ...optionalDependencies })) {
      all.add(`${name}@${version}`);
    }
  }
  return [...all].sort();
}

describe('docs/dependencies.md', async () => {
  const parts = await manifests(root);

  test.each(parts.filter(({ arrives }) => !arrives))(
    'lists what is named under "$title", and nothing else',
    ({ title, names }) => {
      expect(names.length).toBeGreaterThan(0);
      expect(rowsUnder(title).map(([name]) => name)).toEqual(names);
    },
  );

  test.each([
    ['Arrives with the library', 'packages/core', 'dependencies', 11],
    ['Arrives with the command', 'packages/cli', 'optionalDependencies', 2],
  ])(
    'lists under "%s" all that the lock file knows, in the same versions',
    (title, dir, kind, count) => {
      const rows = rowsUnder(title);
      const listed = rows.map(([name, version]) => `${name}@${version}`);
      const all = comesWith(dir, kind);
      expect(listed).toHaveLength(count);
      expect(listed.filter((named) => !all.includes(named))).toEqual([]);
      expect(all.filter((named) => !listed.includes(named) && !forSome(named))).toEqual([]);
      if (all.some(forSome)) expect(listed.filter(forSome)).toHaveLength(1);
      const kB = rows.reduce((sum, [, , , each]) => sum + Number(each), 0);
      expect(read('docs/dependencies.md')).toContain(`\n${count} packages, ${kB} kB.\n`);
    },
  );

  test('says of each why it is there, and under which licence; none is listed twice', () => {
    const seen = new Set<string>();
    for (const { title, names } of parts) {
      for (const [name, , licence, , , why] of rowsUnder(title)) {
        if (names.includes(name)) expect(why, name).toBe(REASONS[name]);
        else expect(why, name).toMatch(/^through \S+/);
        expect(licence, name).toMatch(/MIT|ISC|Apache-2\.0|OFL-1\.1|MPL-2\.0|CC0-1\.0/);
        expect(seen, name).not.toContain(name);
        seen.add(name);
      }
    }
  });

  test('has no reason for a package that is gone', () => {
    const used = new Set(parts.flatMap(({ names }) => names));
    expect(Object.keys(REASONS).filter((name) => !used.has(name))).toEqual([]);
  });
});

describe('what arrives', () => {
  const core = fileURLToPath(new URL('packages/core/node_modules', root));

  test('names who asks for a package, and nobody for one that was asked for', async () => {
    const found = await arriving(core, ['linear-sum-assignment']);
    const through = Object.fromEntries(found.map((each) => [each.name, each.through]));
    expect(through['linear-sum-assignment']).toEqual([]);
    expect(through['fft.js']).toEqual(['ml-spectra-processing']);
    expect(through['ml-matrix']).toEqual(['linear-sum-assignment', 'ml-spectra-processing']);
  });

  test('is not known of a package that is not there', async () => {
    await expect(arriving(core, ['no-such-package'])).rejects.toThrow(
      'no-such-package is not installed',
    );
  });
});

/** Every installed package, `name@version`, with its folders: read from the packages, since pnpm shortens long names of folders. */
function installed(): Map<string, URL[]> {
  const found = new Map<string, URL[]>();
  const foldersIn = (dir: URL): Dirent[] =>
    readdirSync(dir, { withFileTypes: true }).filter(
      (entry) => entry.isDirectory() && entry.name !== '.bin',
    );
  const store = new URL('node_modules/.pnpm/', root);
  for (const { name: folder } of foldersIn(store)) {
    if (folder === 'node_modules') continue; // links alone
    const modules = new URL(`${folder}/node_modules/`, store);
    if (!existsSync(modules)) continue;
    for (const entry of foldersIn(modules)) {
      const names = entry.name.startsWith('@')
        ? foldersIn(new URL(`${entry.name}/`, modules)).map(({ name }) => `${entry.name}/${name}`)
        : [entry.name];
      for (const each of names) {
        const at = new URL(`${each}/`, modules);
        const { name, version } = JSON.parse(readFileSync(new URL('package.json', at), 'utf8'));
        found.set(`${name}@${version}`, [...(found.get(`${name}@${version}`) ?? []), at]);
      }
    }
  }
  return found;
}

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
    const here = installed();
    let seen = 0;
    for (const named of Object.keys(locked.packages)) {
      const folders = here.get(named) ?? [];
      for (const folder of folders) {
        const manifest = readFileSync(new URL('package.json', folder), 'utf8');
        const { scripts = {} } = JSON.parse(manifest);
        expect(
          Object.keys(scripts).filter((each) => hooks.includes(each)),
          named,
        ).toEqual([]);
        expect(existsSync(new URL('binding.gyp', folder)), named).toBe(false); // npm would build it
        seen++;
      }
      if (folders.length === 0) {
        const uses = Object.keys(locked.snapshots).filter((key) => key.split('(')[0] === named);
        const optional = uses.every((key) => locked.snapshots[key].optional === true);
        expect(forSome(named) || optional, `${named} is not installed`).toBe(true);
      }
    }
    expect(seen).toBeGreaterThan(200);
  });

  test('knows packages whose folder is named with their peers, also where that is shortened', () => {
    const folders = [...installed().values()].flat().map(({ pathname }) => pathname);
    expect(folders.some((folder) => /\.pnpm\/[^/]+@[\d.]+_[^/]+@/.test(folder))).toBe(true);
    expect(folders.some((folder) => /\.pnpm\/[^/]{80,}_[\da-f]{32}\//.test(folder))).toBe(true);
  });
});
