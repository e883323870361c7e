import base from '../../vitest.config.js';

/**
 * The usual settings, for the tests of one room and without the closing line of a whole run. A suite gathers its tests in one
 * file, so that the library is loaded once for each mutant and not once for each file of tests.
 */
export default {
  ...base,
  test: {
    ...base.test,
    isolate: true, // a mutant must not meet what another left
    include: [`tools/mutation/${process.env.MUTATED_ROOM}.suite.ts`],
    setupFiles: ['tests/setup.ts', 'tools/mutation/setup.ts'],
    testTimeout: 60_000,
    reporters: ['default', './tools/mutation/unloadable.ts'],
  },
};
