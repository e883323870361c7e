import type { Reporter, TestModule, Vitest } from 'vitest/node';

/**
 * Tells Stryker of tests that could not even be loaded. Its runner looks at single tests only: a mutant that makes code beside the
 * tests throw leaves none, and would count as survived.
 */
export default class Unloadable implements Reporter {
  #vitest: Vitest | undefined;

  onInit(vitest: Vitest): void {
    this.#vitest = vitest;
  }

  onTestModuleEnd(testModule: TestModule): void {
    for (const error of testModule.errors()) this.#vitest?.state.errorsSet.add(error);
  }
}
