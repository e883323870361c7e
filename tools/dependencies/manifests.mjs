import { readFile } from 'node:fs/promises';

/** The manifests of this workspace, and what their dependencies are for. */
const MANIFESTS = /** @type {const} */ ([
  ['Arrives with the library', 'packages/core', 'dependencies'],
  ['Arrives with the command', 'packages/cli', 'optionalDependencies'],
  ['Bundled into the command, or needed to build it', 'packages/cli', 'devDependencies'],
  ['Development', '.', 'devDependencies'],
]);

/**
 * Every dependency that a package.json names, with the folder it is installed from and the part of the page it stands in: once, in the
 * first that it belongs to. With what `arrives`, what it depends on in turn is told too.
 *
 * @param {URL} root - of the repository
 * @returns {Promise<{ title: string, dir: string, names: string[], arrives: boolean }[]>}
 */
export async function manifests(root) {
  const told = new Set();
  const parts = [];
  for (const [title, dir, kind] of MANIFESTS) {
    const manifest = JSON.parse(await readFile(new URL(`${dir}/package.json`, root), 'utf8'));
    const names = Object.keys(manifest[kind] ?? {}).filter((name) => !told.has(name));
    for (const name of names) told.add(name);
    parts.push({ title, dir, names: names.sort(), arrives: kind !== 'devDependencies' });
  }
  return parts;
}
