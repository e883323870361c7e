// Bundles the command line into dist/: one start-up file, lazily loaded chunks, fonts, and the licences of what went in.
// Runs after `tsc -b`, which checks the types and builds @roastsim/core.

import { existsSync } from 'node:fs';
import { copyFile, mkdir, readdir, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { brotliPlugin } from './brotliPlugin.mjs';
import { canvasPlugin } from './canvasPlugin.mjs';
import { refuseHeavyStart } from './refuseHeavyStart.mjs';
import { thirdPartyLicences } from './thirdPartyLicences.mjs';
import { withRequire } from './withRequire.mjs';

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

// The solver reads its WebAssembly from a file, which lies beside the chunks.
const solverFile = path.join(cliDir, 'node_modules/highs/build/highs.wasm');

// A worker thread is started from a file, so it needs an entry of its own: dist/worker.js, beside dist/main.js.
const entries = ['src/main.ts', 'src/pool/worker.ts'].filter((entry) =>
  existsSync(path.join(cliDir, entry)),
);

const { metafile, outputFiles } = await build({
  absWorkingDir: cliDir,
  entryPoints: entries,
  entryNames: '[name]',
  chunkNames: '[name]-[hash]', // beside main.js, so that a path relative to import.meta.url holds in every chunk
  outdir: 'dist',
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  sourcemap: 'linked',
  legalComments: 'none', // the licences stand in THIRD-PARTY-LICENSES.txt
  external: ['@napi-rs/canvas'],
  plugins: [canvasPlugin, brotliPlugin],
  metafile: true,
  write: false,
  logLevel: 'warning',
});

refuseHeavyStart(metafile, 'dist/main.js', [
  'chart.js',
  'chartjs-node-canvas',
  '@napi-rs/canvas',
  'pdfkit',
  'fontkit',
  'luxon',
  'ical-generator',
  'highs',
]);

const bundledFiles = Object.keys(metafile.inputs).map((file) => path.join(cliDir, file));
const licences = await thirdPartyLicences(bundledFiles, [
  { name: 'Source Sans 3 (dist/fonts)', file: fontLicence },
]);

await rm(distDir, { recursive: true, force: true });
await mkdir(webFontsDir, { recursive: true });
await Promise.all([
  ...withRequire(outputFiles).map(({ file, text }) => writeFile(file, text)),
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
