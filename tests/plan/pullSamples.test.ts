import { CookRun, type Point, rest, roastIn, temper, tenderloin } from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { PullSampler, peaksBeforeCarving } from '../../packages/core/src/plan/pullSamples.js';

const roast = tenderloin({ massKg: 2.2 });
const before = [temper({ minutes: 30 })];
const heat = roastIn({ ovenC: 230, until: { minutes: 0 } });
const MIDDLES_MM = [40, 150, 300, 480];
const POINT: Point = { atMm: 200 };
const PULL_S = 36 * 60;
const MESH = { stations: 20, shells: 16 };

describe('a sampled pull', () => {
  const sampler = new PullSampler({ roast, before, heat }, MIDDLES_MM, POINT, MESH);
  const sample = sampler.sample(PULL_S, [rest({ minutes: 20 })]);

  /** Hottest of each slice so many minutes into the rest, by steps of two seconds. */
  const fine = ((): number[][] => {
    const run = new CookRun(roast, MESH);
    for (const stage of before) run.run(stage);
    run.run({ ...heat, until: { minutes: PULL_S / 60 } });
    const hottest = MIDDLES_MM.map((atMm) => run.temperatureOf({ atMm }));
    const rows = [[...hottest]];
    for (let minute = 1; minute <= 20; minute++) {
      run.run(rest({ minutes: 1 }), {
        onStep: () => {
          for (const [i, atMm] of MIDDLES_MM.entries()) {
            hottest[i] = Math.max(hottest[i], run.temperatureOf({ atMm }));
          }
          return false;
        },
      });
      rows.push([...hottest]);
    }
    return rows;
  })();

  // other program: the rest cut into minutes, each beginning with steps of a second
  test('has every whole minute of the rest, within 0.05 °C', () => {
    expect(sample.hottestC).toHaveLength(MIDDLES_MM.length * 22); // minutes 0 to 20, and for good
    let worst = 0;
    for (const [minute, row] of fine.entries()) {
      for (const [i, hottestC] of row.entries()) {
        const found = sample.hottestC[minute * MIDDLES_MM.length + i];
        worst = Math.max(worst, Math.abs(found - hottestC));
      }
    }
    expect(worst).toBeGreaterThan(0);
    expect(worst).toBeLessThan(0.05);
  });

  test('slices carved later are hotter, and never hotter than for good', () => {
    const forGood = peaksBeforeCarving(sample, undefined);
    const early = peaksBeforeCarving(sample, { startMinutes: 2, from: 'first-end' });
    const late = peaksBeforeCarving(sample, { startMinutes: 8, from: 'first-end' });
    for (const i of MIDDLES_MM.keys()) {
      expect(early[i]).toBeLessThanOrEqual(late[i]);
      expect(late[i]).toBeLessThanOrEqual(forGood[i]);
    }
    expect(early[1]).toBeLessThan(forGood[1] - 0.5);
  });

  test('a rest that never begins leaves what the pull left', () => {
    const none = sampler.sample(PULL_S, []);
    expect([...none.hottestC].every(Number.isFinite)).toBe(true);
    expect(none.hottestC).toHaveLength(MIDDLES_MM.length);
    const ended = sampler.sample(PULL_S, [rest({ minutes: 0 })]);
    expect([...ended.hottestC].every(Number.isFinite)).toBe(true);
  });
});

describe('a cook in a hurry', () => {
  const hurried = (options: object, stride: number): number => {
    const run = new CookRun(roast, { ...MESH, ...options });
    let longestS = 0;
    let lastS = 0;
    run.run(rest({ minutes: 20 }), {
      stride,
      onStep: () => {
        longestS = Math.max(longestS, run.atS - lastS);
        lastS = run.atS;
        return false;
      },
    });
    return longestS;
  };

  test('takes longer steps, but none beyond a minute that it would not take anyway', () => {
    expect(hurried({}, 1)).toBeCloseTo(20, 6);
    expect(hurried({}, 2)).toBeCloseTo(40, 6);
    expect(hurried({}, 6)).toBeCloseTo(60, 6);
    expect(hurried({ longestStepS: 90, firstStepS: 5 }, 3)).toBeCloseTo(90, 6);
  });
});
