// Writes the tables of docs/dependencies.md from what is installed and what the registry says: `pnpm dependencies`.

import { execFile } from 'node:child_process';
import { readdir, readFile, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { arriving } from './arriving.mjs';
import { manifests } from './manifests.mjs';
import { REASONS } from './reasons.mjs';

const root = new URL('../../', import.meta.url);
const page = new URL('docs/dependencies.md', root);
const BEGIN = '<!-- tables: written by `pnpm dependencies` -->\n';
const END = '<!-- end of tables -->\n';

/**
 * Bytes of all files of a package, without those of its own dependencies.
 *
 * @param {string} dir
 * @returns {Promise<number>}
 */
async function bytesIn(dir) {
  const entries = await readdir(dir, { withFileTypes: true });
  const sizes = entries
    .filter((entry) => entry.name !== 'node_modules')
    .map(async (entry) => {
      const at = path.join(dir, entry.name);
      if (entry.isDirectory()) return bytesIn(at);
      return entry.isFile() ? (await stat(at)).size : 0;
    });
  return (await Promise.all(sizes)).reduce((sum, size) => sum + size, 0);
}

/**
 * What the registry says, by its own client.
 *
 * @param {string} name
 * @returns {Promise<{ version: string, time: Record<string, string>, deprecated?: string }>}
 */
async function published(name) {
  const { stdout } = await promisify(execFile)(
    'npm',
    ['view', name, 'version', 'time', 'deprecated', '--json'],
    { maxBuffer: 64 * 1024 * 1024 },
  );
  return JSON.parse(stdout);
}

/**
 * One line of a table, and what it weighs.
 *
 * @param {import('./arriving.mjs').Arriving} dependency
 * @returns {Promise<{ line: string, kB: number }>}
 */
async function row({ name, folder, through }) {
  const why = REASONS[name] ?? (through.length > 0 ? `through ${through.join(', ')}` : undefined);
  if (why === undefined) throw new Error(`say in reasons.mjs why ${name} is there`);
  const { version, license } = JSON.parse(
    await readFile(path.join(folder, 'package.json'), 'utf8'),
  );
  if (name.startsWith('@roastsim/')) {
    return { line: `| ${name} | | ${license} | | | ${why} |`, kB: 0 };
  }
  const { version: latest, time, deprecated } = await published(name);
  const kB = Math.max(1, Math.round((await bytesIn(folder)) / 1000));
  const last = `${latest}, ${time[latest].slice(0, 10)}`;
  const remark = deprecated === undefined ? '' : ' (deprecated)';
  const line = `| ${name} | ${version} | ${license} | ${kB} | ${last}${remark} | ${why} |`;
  return { line, kB };
}

const parts = [];
for (const { title, dir, names, arrives } of await manifests(root)) {
  const modules = fileURLToPath(new URL(`${dir}/node_modules`, root));
  const dependencies = arrives
    ? await arriving(modules, names)
    : names.map((name) => ({ name, folder: path.join(modules, name), through: [] }));
  const rows = [];
  for (const dependency of dependencies) {
    rows.push(await row(dependency)); // one after the other: the registry is a guest house
  }
  parts.push(
    `### ${title}\n`,
    '| package | installed | licence | kB | latest release | why |',
    '| --- | --- | --- | --: | --- | --- |',
    ...rows.map(({ line }) => line),
    '',
  );
  if (arrives) {
    const kB = rows.reduce((sum, each) => sum + each.kB, 0);
    parts.push(`${rows.length} packages, ${kB} kB.\n`);
  }
}
const text = await readFile(page, 'utf8');
const [before, rest] = text.split(BEGIN);
const after = rest?.split(END)[1];
if (after === undefined)
  throw new Error('the marks of the tables are missing in docs/dependencies.md');
const asOf = `As of ${new Date().toISOString().slice(0, 10)}.\n`;
await writeFile(page, `${before}${BEGIN}\n${asOf}\n${parts.join('\n')}\n${END}${after}`);
