import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';

/** Licences whose text everybody knows: a package that names one but forgot the file may be shipped. */
const NAMED_SUFFICES = new Set(['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause']);

/** How a licence text begins that says which one it is. */
const HEADING = /^\s*(?:The )?(MIT|ISC) License\b/i;

const LICENCE_NAME = /^(licen[cs]e|notice|copying)/i;

/**
 * Licence texts of everything that was bundled, one section for each package, in order of name.
 *
 * @param {readonly string[]} bundledFiles - absolute paths of all source files in the bundle
 * @param {readonly { name: string, file: string }[]} extra - licence files of things shipped beside the bundle
 * @returns {Promise<string>}
 * @throws when a bundled package neither carries a licence text nor names a well-known licence, or when neither its manifest nor its
 * text says which licence it is under: it must not be shipped then
 */
export async function thirdPartyLicences(bundledFiles, extra) {
  const packageDirs = new Set(
    bundledFiles.filter((file) => file.includes('node_modules')).map(packageDirOf),
  );
  const sections = await Promise.all([...packageDirs].map(packageSection));
  for (const { name, file } of extra) sections.push({ name, text: await readFile(file, 'utf8') });
  sections.sort((a, b) => (a.name < b.name ? -1 : 1));
  const rule = '-'.repeat(80);
  return [
    'The roastsim command contains the following software and fonts, each under its own licence.\n',
    ...sections.map(({ name, text }) => `${rule}\n${name}\n${rule}\n\n${text.trim()}\n`),
  ].join('\n');
}

/** @param {string} file - `.../node_modules/name/lib/x.js` or `.../node_modules/@scope/name/lib/x.js` */
function packageDirOf(file) {
  const match = /^.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+/.exec(file);
  if (match === null) throw new Error(`${file} is in no package`);
  return match[0];
}

/** @param {string} dir */
async function packageSection(dir) {
  const { name, version, license, author } = JSON.parse(
    await readFile(path.join(dir, 'package.json'), 'utf8'),
  );
  const files = (await readdir(dir)).filter((file) => LICENCE_NAME.test(file)).sort();
  if (files.length === 0) {
    if (!NAMED_SUFFICES.has(license)) throw new Error(`${name} ${version} carries no licence text`);
    const by = typeof author === 'object' ? author?.name : author;
    return {
      name: `${name} ${version} (${license})`,
      text: `The package names the ${license} licence and carries no text of it. Author: ${by ?? 'not named'}.`,
    };
  }
  const texts = await Promise.all(files.map((file) => readFile(path.join(dir, file), 'utf8')));
  const text = texts.map((each) => each.trim()).join('\n\n');
  const stated = license ?? HEADING.exec(text)?.[1].toUpperCase();
  if (typeof stated !== 'string') throw new Error(`${name} ${version} does not say its licence`);
  return { name: `${name} ${version} (${stated})`, text };
}
