import { readFile, realpath } from 'node:fs/promises';
import path from 'node:path';

/**
 * A package that arrives, with the folder it is installed in here.
 *
 * @typedef {{ name: string, folder: string, through: string[] }} Arriving - `through`: who asks for it; nobody for a direct dependency
 */

/**
 * Everything that arrives with packages that are depended on: they and what they depend on in turn, each once, in order of name. Of
 * optional ones that depend on the platform only that of this machine is there.
 *
 * @param {string} dir - `node_modules` the first of them are found in
 * @param {readonly string[]} names
 * @returns {Promise<Arriving[]>}
 * @throws when a dependency that is not optional is not installed, or when one name arrives in two versions: then the page has to tell them
 * apart
 */
export async function arriving(dir, names) {
  /** @type {Map<string, Arriving>} */
  const found = new Map();
  /** @type {(name: string, from: string, by: string | undefined, optional: boolean) => Promise<void>} */
  const visit = async (name, from, by, optional) => {
    const folder = await realpath(path.join(from, name)).catch(() => undefined);
    if (folder === undefined) {
      if (optional) return;
      throw new Error(`${name} is not installed`);
    }
    const known = found.get(name);
    if (known !== undefined && known.folder !== folder) throw new Error(`${name} arrives twice`);
    if (by !== undefined) known?.through.push(by);
    if (known !== undefined) return;
    found.set(name, { name, folder, through: by === undefined ? [] : [by] });
    const { dependencies = {}, optionalDependencies = {} } = JSON.parse(
      await readFile(path.join(folder, 'package.json'), 'utf8'),
    );
    const beside = folder.slice(0, -name.length);
    for (const each of Object.keys({ ...dependencies, ...optionalDependencies })) {
      await visit(each, beside, name, each in optionalDependencies);
    }
  };
  for (const name of names) await visit(name, dir, undefined, false);
  return [...found.values()]
    .map((each) => ({ ...each, through: each.through.sort() }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}
