import {
  bandNamed,
  centreReaches,
  decimalReductionMinutes,
  type History,
  judgeSafety,
  LETHALITY,
  leastLogReduction,
  rest,
  roastIn,
  roundRoast,
  SCALES,
  simulate,
  waterBath,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { DWELL, excessOver, TIMED_ROWS } from '../../packages/cli/src/check/lethality.js';

// Published: USDA FSIS (1999) Appendix A, minimum dwell at a temperature for 6.5 decimal reductions of Salmonella
// (data/published/lethality.json, read in two copies that agree). The model's straight line was fitted to this table.
describe('dwell times of Appendix A', () => {
  test('28 rows have a time, 130 to 157 °F; from 158 °F on the table says "instantly"', () => {
    expect(TIMED_ROWS.map(({ F }) => F)).toEqual(Array.from({ length: 28 }, (_, i) => 130 + i));
    expect(DWELL.rows.length).toBe(31);
  });

  test.each(TIMED_ROWS)('$F °F: not less than the table asks for, at most 15 % more', (row) => {
    expect(excessOver(row)).toBeGreaterThanOrEqual(1);
    expect(excessOver(row)).toBeLessThan(1.15);
  });

  // 7 reductions by the same line; the table's column is rounded to whole minutes, so up to 17 % more.
  test.each(TIMED_ROWS)('$F °F, 7 reductions: on the safe side too', (row) => {
    const excess = excessOver(row) * (row.time_s_6_5_log / row.time_s_7_log) * (7 / 6.5);
    expect(excess).toBeGreaterThanOrEqual(1);
    expect(excess).toBeLessThan(1.17);
  });
});

test('the fit the comment on the constants speaks of: 13.7 % at worst', () => {
  expect(Math.max(...TIMED_ROWS.map(excessOver))).toBeCloseTo(1.137, 3);
  expect(Math.min(...TIMED_ROWS.map(excessOver))).toBeCloseTo(1, 2);
});

describe('what is counted', () => {
  test('nothing below 54.4 °C', () => {
    expect(decimalReductionMinutes(54.399)).toBe(Number.POSITIVE_INFINITY);
    expect(decimalReductionMinutes(54.4)).toBeLessThan(20);
  });

  test('the rate is constant above 70 °C', () => {
    const at70 = decimalReductionMinutes(70);
    for (const tempC of [70.001, 75, 90, 120]) expect(decimalReductionMinutes(tempC)).toBe(at70);
    expect(decimalReductionMinutes(69.9)).toBeGreaterThan(at70);
  });

  test('a tenth of the time for every z kelvins', () => {
    const ratio = decimalReductionMinutes(56) / decimalReductionMinutes(56 + LETHALITY.zK);
    expect(ratio).toBeCloseTo(10, 10);
  });
});

describe('over a cook', () => {
  const roast = roundRoast({ massKg: 0.3, diameters: [{ sizeMm: 40 }] });
  const bath = (minutes: number): History =>
    simulate(roast, [waterBath({ bathC: 60, until: { minutes } })], { stations: 8, shells: 16 });
  const short = bath(120);
  const long = bath(132);
  const logs = (history: History, fromS: number, marginK: number): number =>
    leastLogReduction(history, fromS, marginK);

  // Closed form: after two hours the piece is at the bath's 60 °C within 0.01 K, so twelve minutes more are 12/D60.
  test('twelve minutes more at 60 °C give 12/D60 more', () => {
    const none = Number.POSITIVE_INFINITY;
    const gained = logs(long, none, 0) - logs(short, none, 0);
    expect(gained / (12 / LETHALITY.d60Minutes)).toBeCloseTo(1, 2);
  });

  test('a margin counts everything after its start so many kelvins lower', () => {
    const gained = logs(long, 0, 3) - logs(short, 0, 3);
    expect(gained / (12 / decimalReductionMinutes(57))).toBeCloseTo(1, 2);
    expect(logs(long, 120 * 60, 3)).toBeLessThan(logs(long, Number.POSITIVE_INFINITY, 0));
    expect(logs(long, 0, 6)).toBe(0); // 54 °C: below the lowest row
  });

  const cook = (centreC: number): History =>
    simulate(
      roast,
      [roastIn({ ovenC: 200, until: centreReaches(centreC) }), rest({ minutes: 15 })],
      { stations: 8, shells: 16 },
    );
  const safetyOf = (history: History) => {
    const pullRow = history.stages[0].lastRow;
    return judgeSafety(history, { pullRow, peakRow: pullRow, atRisk: false });
  };

  test('well done: more is reached than is ever claimed', () => {
    const history = cook(bandNamed(SCALES.kitchen, 'well-done').targetC);
    const safety = safetyOf(history);
    expect(safety.logReduction).toBe(LETHALITY.claimedUpTo);
    expect(safety.logReductionCapped).toBe(true);
    expect(logs(history, Number.POSITIVE_INFINITY, 0)).toBeGreaterThan(LETHALITY.claimedUpTo);
  });

  test('pulled at 40 °C: nothing is claimed', () => {
    const safety = safetyOf(cook(40));
    expect(safety.coldestPeakC).toBeLessThan(LETHALITY.fromC + 3);
    expect(safety.logReduction).toBe(0);
    expect(safety.logReductionCapped).toBe(false);
  });
});
