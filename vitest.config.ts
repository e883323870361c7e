import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  resolve: {
    alias: {
      // Tests read the library's sources, so that they need no build and point at the right lines.
      '@roastsim/core': fileURLToPath(new URL('packages/core/src/index.ts', import.meta.url)),
    },
  },
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/setup.ts'],
    reporters: ['default', './tests/tally.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    isolate: false, // files share what they import and change nothing of it: an eighth of the time
    maxWorkers: '100%', // half of the cores is the default, and a test often waits for a process
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
  },
});
