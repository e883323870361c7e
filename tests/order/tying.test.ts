import {
  diameterVariation,
  FOLD_AT,
  KNOT_MM,
  tenderloin,
  tyingReport,
  USUAL_COOK,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';

const way = (report: ReturnType<typeof tyingReport>, how: string) => {
  const found = report.ways.find((each) => each.how === how);
  if (found === undefined) throw new Error(`no ${how}`);
  return found;
};

describe('folding and tying a whole tenderloin', () => {
  const report = tyingReport('whole', 2.2, USUAL_COOK);

  test('names three places to fold, the best of them the evenest', () => {
    const { fold } = report;
    expect(fold?.usual.foldAt).toBe(FOLD_AT);
    expect(fold?.practice.foldAt).toBe(0.9);
    expect(fold?.best.variation).toBeLessThan(fold?.usual.variation ?? 0);
    expect(fold?.usual.variation).toBeLessThan(fold?.practice.variation ?? 0);
  });

  test('says how even it is on the way', () => {
    expect(report.ways.map(({ how }) => how)).toEqual(['as-cut', 'tied', 'folded', 'folded-tied']);
    expect(way(report, 'folded').variation).toBeCloseTo(report.fold?.usual.variation ?? 0, 9);
    expect(way(report, 'as-cut').variation).toBeGreaterThan(way(report, 'tied').variation);
    expect(way(report, 'folded').aspect).toBeLessThan(way(report, 'folded-tied').aspect);
  });

  test('both make the slices alike, and folding takes longer than tying alone', () => {
    const spread = (how: string): number => way(report, how).spreadK;
    expect(spread('as-cut') - spread('folded')).toBeGreaterThan(8);
    expect(spread('as-cut') - spread('tied')).toBeGreaterThan(6);
    expect(way(report, 'folded-tied').ovenMinutes).toBeGreaterThan(way(report, 'tied').ovenMinutes);
  });

  test('the twine goes round once at each tie, and a knot on top', () => {
    const { twine } = report;
    const { profile } = tenderloin({ massKg: 2.2 });
    const girths = twine.lengthMm - KNOT_MM * twine.atMm.length;
    const around = Math.PI * 1000 * 2 * Math.sqrt(Math.max(...profile.areaM2) / Math.PI);
    expect(girths).toBeGreaterThan(0.5 * around * twine.atMm.length);
    expect(girths).toBeLessThan(around * twine.atMm.length);
    expect(twine.spacingMm).toBeGreaterThan(30);
    expect(twine.spacingMm).toBeLessThan(50);
  });
});

test('a cut without a tail is only tied', () => {
  const report = tyingReport('centre', 1.2, USUAL_COOK);
  expect(report.fold).toBeUndefined();
  expect(report.ways.map(({ how }) => how)).toEqual(['as-cut', 'tied']);
  expect(way(report, 'tied').variation).toBeCloseTo(
    diameterVariation(tenderloin({ cut: 'centre', massKg: 1.2 }).profile),
    12,
  );
});
