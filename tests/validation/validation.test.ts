import { expect, test } from 'vitest';
import { SECTIONS, validationReport } from '../../packages/cli/src/check/report.js';
import { mustFail, verdictOf } from '../../packages/cli/src/check/row.js';

// `pnpm validation` runs this file with vitest's -u, which writes the page instead of comparing it.
test('docs/validation.md is what the library gives today', { timeout: 120_000 }, async () => {
  await expect(validationReport()).toMatchFileSnapshot('../../docs/validation.md');
});

// The rows are computed once and kept, so what follows costs nothing.
test.each(SECTIONS.map((section) => [section.id, section] as const))(
  '%s: no row that must not be off is, and every row names its source',
  { timeout: 60_000 },
  (_, section) => {
    const rows = section.rows();
    const off = rows.filter((row) => row.must && verdictOf(row) === 'off');
    expect(off.map(({ what }) => what)).toEqual([]);
    expect(mustFail(rows)).toBe(false);
    expect(rows.length).toBeGreaterThan(0);
    for (const { source, what } of rows) {
      expect(source, what).not.toBe('');
      expect(what).not.toBe('');
    }
  },
);

test('no two rows of a group have one name', { timeout: 60_000 }, () => {
  for (const section of SECTIONS) {
    const names = section.rows().map(({ what, source }) => `${what} ${source}`);
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  }
});

test('what was fitted is no hold-out, and what must pass is neither a check nor a hold-out', {
  timeout: 60_000,
}, () => {
  const kinds = (id: string): string[] => [
    ...new Set(
      SECTIONS.find((section) => section.id === id)
        ?.rows()
        .map(({ kind }) => kind),
    ),
  ];
  expect(kinds('charts').sort()).toEqual(['check', 'fit']);
  expect(kinds('lethality')).toEqual(['fit']);
  expect(kinds('other-cuts')).toEqual(['hold-out']);
  expect(kinds('ovens')).toEqual(['hold-out']);
  const must = SECTIONS.flatMap((section) => section.rows()).filter((row) => row.must);
  expect([...new Set(must.map(({ kind }) => kind))].sort()).toEqual(['exact', 'fit']);
});
