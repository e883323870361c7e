import fc from 'fast-check';

/** A property may look for a counterexample this long [ms]: code under mutation is several times as slow, and there are many. */
const PATIENCE_MS = 1_000;

fc.configureGlobal({ ...fc.readConfigureGlobal(), interruptAfterTimeLimit: PATIENCE_MS });
