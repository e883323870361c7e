import { expect, test } from 'vitest';
import { validationReport } from './report.js';

// `pnpm validation` runs this file with vitest's -u, which writes the page instead of comparing it.
test('docs/validation.md is what the library gives today', { timeout: 120_000 }, async () => {
  await expect(validationReport()).toMatchFileSnapshot('../../docs/validation.md');
});
