import { readFile } from 'node:fs/promises';

/** The manifests of this workspace, and what their dependencies are for. */
const MANIFESTS = /** @type {const} */ ([
  ['The library', 'packages/core', 'dependencies'],
  ['Installed with the command', 'packages/cli', 'optionalDependencies'],
  ['Bundled into the command, or needed to build it', 'packages/cli', 'devDependencies'],
  ['Development', '.', 'devDependencies'],
]);

/**
 * Every dependency that a package.json names, with the folder it is installed from and the part of the page it stands in.
 *
 * @param {URL} root - of the repository
 * @returns {Promise<{ title: string, dir: string, names: string[] }[]>}
 */
export async function manifests(root) {
  return Promise.all(
    MANIFESTS.map(async ([title, dir, kind]) => {
      const manifest = JSON.parse(await readFile(new URL(`${dir}/package.json`, root), 'utf8'));
      return { title, dir, names: Object.keys(manifest[kind] ?? {}).sort() };
    }),
  );
}
