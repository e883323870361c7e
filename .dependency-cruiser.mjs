// Who may import whom. The floors are drawn in docs/architecture.md; a lower floor never imports a higher one.

const CORE = '^packages/core/src/';

/** Rooms of packages/core/src by floor, lowest first. */
const FLOORS = [
  ['units', 'numerics'],
  ['meat', 'shape'],
  ['heat', 'cutting'],
  ['cook'],
  ['judge'],
  ['plan', 'forecast'],
  ['order', 'advice'],
];

/** @param {readonly string[]} rooms */
const inRooms = (rooms) => `${CORE}(${rooms.join('|')})/`;

const climbing = FLOORS.slice(0, -1).map((rooms, floor) => ({
  name: `floor-${floor + 1}-imports-no-higher-floor`,
  comment: `${rooms.join(' and ')} stand on floor ${floor + 1}: they import the floors below, never those above.`,
  severity: 'error',
  from: { path: inRooms(rooms) },
  to: { path: inRooms(FLOORS.slice(floor + 1).flat()) },
}));

/**
 * @param {string} from
 * @param {string} to
 */
const strangers = (from, to) => ({
  name: `${from}-does-not-import-${to}`,
  comment: `${from} and ${to} share a floor and do not know each other in this direction.`,
  severity: 'error',
  from: { path: inRooms([from]) },
  to: { path: inRooms([to]) },
});

/** @type {import('dependency-cruiser').IConfiguration} */
export default {
  forbidden: [
    ...climbing,
    strangers('units', 'numerics'),
    strangers('numerics', 'units'),
    strangers('meat', 'shape'),
    strangers('shape', 'meat'),
    strangers('heat', 'cutting'),
    strangers('cutting', 'heat'),
    strangers('plan', 'forecast'),
    {
      name: 'core-has-known-rooms',
      comment:
        'A new folder in packages/core/src gets a floor here and in docs/architecture.md first.',
      severity: 'error',
      from: {},
      to: { path: `${CORE}[^/]+/`, pathNot: inRooms(FLOORS.flat()) },
    },
    {
      name: 'rooms-do-not-import-the-public-face',
      comment: 'packages/core/src/index.ts gathers the rooms; a room importing it goes in circles.',
      severity: 'error',
      from: { path: `${CORE}.+` },
      to: { path: `${CORE}index\\.ts$` },
    },
    {
      name: 'core-uses-no-node-api',
      comment: 'The library runs in a browser unchanged.',
      severity: 'error',
      from: { path: CORE },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'core-imports-only-itself-and-its-dependencies',
      comment:
        'Nothing from the command line or the tests, and no package that packages/core/package.json does not name.',
      severity: 'error',
      from: { path: CORE },
      to: {
        pathNot: [CORE],
        dependencyTypesNot: ['core', 'npm'],
      },
    },
    {
      name: 'cli-imports-core-through-its-public-face',
      comment: "Write '@roastsim/core': its index is all that the command line may lean on.",
      severity: 'error',
      from: { path: '^packages/cli/src/' },
      to: { path: '^packages/core/', pathNot: '^packages/core/dist/index\\.(js|d\\.ts)$' },
    },
    {
      name: 'everything-resolves',
      comment: 'A rule cannot judge an import that leads nowhere.',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true },
    },
    {
      name: 'no-circles',
      comment: 'Two files that import each other are one file.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'no-orphans',
      comment: 'A file that nothing imports and that imports nothing is left over.',
      severity: 'error',
      from: { orphan: true },
      to: {},
    },
  ],
  options: {
    tsPreCompilationDeps: true, // an import of a type is an import
    tsConfig: { fileName: 'tsconfig.base.json' },
    doNotFollow: { path: ['node_modules', '^packages/core/dist/'] },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'node', 'default'],
    },
  },
};
