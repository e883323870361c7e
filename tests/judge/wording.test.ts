import {
  CUT_NAMES,
  cautions,
  cuttingCautions,
  sayBath,
  sayWarning,
  type UnitSystem,
  type Warning,
} from '@roastsim/core';
import { expect, test } from 'vitest';

// Words on safety do not change by the way: whoever changes them changes tests/judge/wording-*.txt too (vitest -u) and reads it.

const WARNINGS: readonly Warning[] = [
  { code: 'below-guidance', coldestC: 50, peakC: 56 },
  { code: 'fold-below-guidance', foldC: 51 },
  { code: 'strict-rules', intact: false, atRisk: false },
  { code: 'strict-rules', intact: true, atRisk: true },
  { code: 'strict-rules', intact: false, atRisk: true },
  { code: 'room-time', minutes: 150, limitMinutes: 120 },
  { code: 'heating-time', minutes: 400, limitMinutes: 360, reached: true },
  { code: 'heating-time', minutes: 400, limitMinutes: 360, reached: false },
  { code: 'cool-oven', ovenC: 90 },
  { code: 'slow-oven', ovenC: 120 },
  { code: 'hot-oven', ovenC: 280 },
  { code: 'cool-bath', bathC: 50 },
  { code: 'early-pull', pullC: 30 },
  { code: 'late-pull', pullC: 75 },
  { code: 'thin-piece', diameterMm: 40 },
  { code: 'thick-piece', diameterMm: 120 },
  { code: 'not-tenderloin' },
  { code: 'unusual-weight', massKg: 4, cut: 'whole', lowKg: 1.2, highKg: 3.2 },
  { code: 'unusual-weight', massKg: 4, cut: 'a cut of one’s own', lowKg: 1.2, highKg: 3.2 },
  { code: 'tape-disagrees', massKg: 2.2, tapeKg: 1.8 },
  { code: 'length-disagrees', lengthMm: 600, usualMm: 480 },
  { code: 'still-rising', peakC: 57, restMinutes: 20 },
  { code: 'warm-start', startC: 10 },
  { code: 'own-surroundings' },
];

const BATHS = [
  { logReduction: 0, logReductionCapped: false, killingMinutes: 0.99 },
  { logReduction: 0.04, logReductionCapped: false, killingMinutes: 1 },
  { logReduction: 3.25, logReductionCapped: false, killingMinutes: 45 },
  { logReduction: 6.5, logReductionCapped: true, killingMinutes: 130 },
];

test.each<UnitSystem>(['metric', 'us'])('all sentences, %s', async (units) => {
  const text = [
    ...WARNINGS.map((warning) => `${warning.code}: ${sayWarning(warning, units)}`),
    ...cautions(units).map(({ code, text }) => `caution ${code}: ${text}`),
    ...cautions(units, ['below-guidance'])
      .filter(({ code }) => code === 'guidance')
      .map(({ text }) => `caution guidance beside the warning: ${text}`),
    ...cuttingCautions(units).map(({ text }) => `cutting: ${text}`),
    ...BATHS.map((bath) => `bath: ${sayBath(bath, units)}`),
    ...Object.entries(CUT_NAMES).map(([cut, name]) => `cut ${cut}: ${name}`),
  ].join('\n');
  await expect(`${text}\n`).toMatchFileSnapshot(`./wording-${units}.txt`);
});

test('a sentence is whole: a capital, a full stop, no gap, nothing left open', () => {
  for (const units of ['metric', 'us'] as const) {
    for (const warning of WARNINGS) {
      const said = sayWarning(warning, units);
      expect(said).toMatch(/^[A-Z0-9].*[.]$/);
      expect(said).not.toMatch(/ {2}|undefined|NaN|\$\{/);
    }
  }
});
