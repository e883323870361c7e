/**
 * Why each package is there, for docs/dependencies.md. A package without a line here cannot be added: the test and the script ask
 * for one.
 *
 * @type {Readonly<Record<string, string>>}
 */
export const REASONS = {
  // the library
  'linear-sum-assignment': 'guests at slices with the least misfit: shortest augmenting paths',
  'ml-matrix': 'least squares and Cholesky factors of the fit to a log',

  // the command
  '@napi-rs/canvas': 'draws charts and PNG cards; native, prebuilt, installed beside the command',
  '@cantoo/pdf-lib':
    'reads and writes PDF objects: one file out of many cards; opens PDFs in tests',
  '@expo-google-fonts/source-sans-3': 'the typeface of cards and charts as TrueType files',
  '@fontsource/source-sans-3': 'the same typeface cut by script, for HTML cards',
  '@roastsim/core': 'the library, from this workspace',
  '@sindresorhus/slugify': 'file names from names of people in any script',
  '@types/cli-progress': 'types',
  '@types/fontkit': 'types',
  '@types/luxon': 'types',
  '@types/pdfkit': 'types',
  'chart.js': 'axes, scales and lines of the charts',
  'chartjs-node-canvas': 'charts without a browser',
  'cli-progress': 'the bar of a long batch',
  commander: 'options, commands and their help',
  convert: 'exact factors of units',
  'csv-parse': 'orders and logs in CSV, as spreadsheets write them',
  'csv-stringify': 'day sheets, problems and probe logs in CSV',
  'fastest-levenshtein': 'the nearest right spelling in an error',
  fontkit: 'widths and glyphs of the typeface, for the layout of a card',
  highs: 'solver of integer programmes, for the cutting list (WebAssembly)',
  'ical-generator': 'calendar files with alarms',
  luxon: 'clocks, days and time zones',
  pdfkit: 'writes PDFs: cards and sheets',
  picocolors: 'colour on a terminal',
  workerpool: 'a batch on all cores',
  yaml: 'settings and price lists',
  zod: 'what a settings file may hold, and what is wrong with one',

  // development
  '@arethetypeswrong/core': 'whether types of the packed library resolve, in tests',
  '@biomejs/biome': 'format and lint rules',
  '@stryker-mutator/core': 'mutation tests, docs/mutation.md',
  '@stryker-mutator/vitest-runner': 'the same, with the tests of this project',
  '@types/node': 'types of Node 20, the oldest that is supported',
  ajv: 'validates JSON output against its published schema, in tests',
  'axe-core': 'rules of accessibility for HTML cards, in tests',
  'dependency-cruiser': 'who may import whom',
  'fast-check': 'laws for all inputs, and fuzzing',
  'ical.js': 'reads calendar files back, in tests',
  'playwright-core': 'drives the browser that HTML cards are tested in; brings none',
  publint: 'what is wrong with the manifest of the packed library, in tests',
  rolldown: 'bundles the command, and the library in tests',
  tinybench: 'benchmarks',
  typedoc: 'pages of the library, from its comments',
  typescript: 'the language',
  vitest: 'runs the tests',
};
