import type { Reporter, TestModule } from 'vitest/node';

/**
 * Ends a run with one plain line: `12 passed, 0 failed, 1 skipped`.
 *
 * What broke outside a test (a file that cannot be loaded, a hook, a stray rejection) counts as failed, one each: a run that
 * fails never says `0 failed`.
 */
export default class Tally implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], strayErrors: readonly unknown[]): void {
    const counts = { passed: 0, failed: strayErrors.length, skipped: 0 };
    for (const testModule of modules) {
      counts.failed += testModule.errors().length;
      for (const suite of testModule.children.allSuites()) counts.failed += suite.errors().length;
      for (const test of testModule.children.allTests()) {
        const { state } = test.result();
        counts[state === 'pending' ? 'failed' : state] += 1; // a test that never ended has not passed
      }
    }
    const skipped = counts.skipped > 0 ? `, ${counts.skipped} skipped` : '';
    process.stdout.write(`${counts.passed} passed, ${counts.failed} failed${skipped}\n`);
  }
}
