// Bundles the command line into dist/: what a start needs of ours in one file beside main.js, lazily loaded chunks, fonts, and the licences
// of what went in. Runs after `tsc -b`, which checks the types and builds @roastsim/core.

import { copyFile, mkdir, readdir, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';
import { brotliPlugin } from './brotliPlugin.mjs';
import { canvasPlugin } from './canvasPlugin.mjs';
import { refuseHeavyStart, startFiles } from './startFiles.mjs';
import { thirdPartyLicences } from './thirdPartyLicences.mjs';

const cliDir = fileURLToPath(new URL('..', import.meta.url));
const distDir = path.join(cliDir, 'dist');
const fontsDir = path.join(distDir, 'fonts');

const fontPackage = path.join(cliDir, 'node_modules/@expo-google-fonts/source-sans-3');
const fontLicence = path.join(fontPackage, 'LICENSE_FONT');
const fontFiles = [
  '400Regular/SourceSans3_400Regular.ttf',
  '600SemiBold/SourceSans3_600SemiBold.ttf',
  '700Bold/SourceSans3_700Bold.ttf',
];

// The same typeface for web pages: cut by script, so that a page embeds only what it shows.
const webFontPackage = path.join(cliDir, 'node_modules/@fontsource/source-sans-3');
const webFontsDir = path.join(fontsDir, 'web');
const webFontFiles = (await readdir(path.join(webFontPackage, 'files')))
  .filter((file) => /-(400|600|700)-normal\.woff2$/.test(file))
  .map((file) => path.join('files', file));

// The bundler puts helpers of its own into dist. They lie in a chunk of their own, which no group can take in.
const bundlerLicence = path.join(cliDir, 'node_modules/rolldown/LICENSE');

// The solver reads its WebAssembly from a file, which lies beside the chunks.
const solverFile = path.join(cliDir, 'node_modules/highs/build/highs.wasm');

// A worker thread is started from a file, so it needs an entry of its own: dist/worker.js, beside dist/main.js.
const main = path.join(cliDir, 'src/main.ts');
const worker = path.join(cliDir, 'src/pool/worker.ts');

const bundle = await rolldown({
  cwd: cliDir,
  input: { main, worker },
  platform: 'node',
  external: ['@napi-rs/canvas'],
  transform: { target: 'node20' },
  plugins: [canvasPlugin, brotliPlugin],
  checks: { pluginTimings: false },
});

/** @type {import('rolldown').OutputOptions} */
const options = {
  dir: distDir,
  format: 'esm',
  entryFileNames: '[name].js',
  chunkFileNames: '[name]-[hash].js', // beside main.js, so that a path relative to import.meta.url holds in every chunk
  sourcemap: true,
  comments: false, // a fifth of what a start reads; the licences stand in THIRD-PARTY-LICENSES.txt
};

// What only charts, cards, clocks, calendars, cutting lists, guests or forecasts need, and no start may load.
const heavyPackages = [
  'chart.js',
  'chartjs-node-canvas',
  '@napi-rs/canvas',
  'pdfkit',
  'fontkit',
  'luxon',
  'ical-generator',
  'highs',
  'ml-matrix',
];

// Every file that a start reads costs a millisecond, and what commands share is cut into dozens: so all of it goes into one.
const { output: cut } = await bundle.generate(options);
const needed = startFiles(cut, 'main.js');
refuseHeavyStart(needed, heavyPackages);
const atStart = new Set(needed.filter((file) => file !== main));

const { output } = await bundle.generate({
  ...options,
  codeSplitting: { groups: [{ name: 'start', test: (id) => atStart.has(id) }] },
});
await bundle.close();
refuseHeavyStart(startFiles(output, 'main.js'), heavyPackages);

const bundledFiles = output.flatMap((file) => (file.type === 'chunk' ? file.moduleIds : []));
const licences = await thirdPartyLicences(bundledFiles, [
  { name: 'Source Sans 3 (dist/fonts)', file: fontLicence },
  { name: 'rolldown (helpers in dist)', file: bundlerLicence },
]);

// Only now: what was refused above has left the last build as it was.
await rm(distDir, { recursive: true, force: true });
await mkdir(webFontsDir, { recursive: true });
await Promise.all([
  ...output.map((file) =>
    writeFile(path.join(distDir, file.fileName), file.type === 'chunk' ? file.code : file.source),
  ),
  ...fontFiles.map((font) =>
    copyFile(path.join(fontPackage, font), path.join(fontsDir, path.basename(font))),
  ),
  ...[...webFontFiles, 'unicode.json'].map((file) =>
    copyFile(path.join(webFontPackage, file), path.join(webFontsDir, path.basename(file))),
  ),
  copyFile(solverFile, path.join(distDir, path.basename(solverFile))),
  copyFile(fontLicence, path.join(fontsDir, 'OFL.txt')),
  writeFile(path.join(distDir, 'THIRD-PARTY-LICENSES.txt'), licences),
]);
