import { describe, expect, test } from 'vitest';
import pc from '../../packages/cli/node_modules/picocolors/picocolors.js';
import { checkText } from '../../packages/cli/src/check/checkText.js';
import {
  distance,
  gapOf,
  just,
  mustFail,
  type Row,
  type Section,
  share,
  spanOf,
  verdictOf,
} from '../../packages/cli/src/check/row.js';
import { tallyOf } from '../../packages/cli/src/check/tally.js';

const row = (more: Partial<Row> = {}): Row => ({
  what: 'centre cut to 57 °C',
  kind: 'check',
  must: false,
  published: [35, 45],
  model: just(40),
  unit: 'min',
  decimals: 1,
  allow: share(0, 0.1),
  source: 'a chart',
  ...more,
});

describe('the verdict on a row', () => {
  test.each([
    [35, 'pass'],
    [45, 'pass'],
    [45.01, 'near'],
    [49.5, 'near'],
    [49.6, 'off'],
    [31.5, 'near'],
    [31.4, 'off'],
  ] as const)('%f min against 35-45: %s', (minutes, verdict) => {
    expect(verdictOf(row({ model: just(minutes) }))).toBe(verdict);
  });

  test('a temperature that is never reached, and a figure that is none, are off', () => {
    expect(verdictOf(row({ model: undefined }))).toBe('off');
    expect(verdictOf(row({ model: just(Number.NaN), allow: share(1, 9) }))).toBe('off');
    expect(verdictOf(row({ published: just(Number.NaN) }))).toBe('off');
  });

  test('distances count in the unit, on both sides', () => {
    const rise = { published: just(5), allow: distance(1.5, 3) };
    expect(verdictOf(row({ ...rise, model: just(6.5) }))).toBe('pass');
    expect(verdictOf(row({ ...rise, model: just(2) }))).toBe('near');
    expect(verdictOf(row({ ...rise, model: just(8.1) }))).toBe('off');
    expect(gapOf(row({ ...rise, model: just(2) }))).toBeCloseTo(-3, 12);
  });

  test('one side may be allowed nothing', () => {
    const safe = {
      published: just(12),
      allow: { as: 'share', below: [0, 0], above: [0.2, 0.3] },
    } as const;
    expect(verdictOf(row({ ...safe, model: just(11.999) }))).toBe('off');
    expect(verdictOf(row({ ...safe, model: just(12) }))).toBe('pass');
    expect(verdictOf(row({ ...safe, model: just(15) }))).toBe('near');
    expect(verdictOf(row({ ...safe, model: just(16) }))).toBe('off');
  });

  test('of a span the nearer end counts', () => {
    expect(gapOf(row({ model: [30, 50] }))).toBe(0);
    expect(gapOf(row({ model: [50, 60] }))).toBeCloseTo(50 / 45 - 1, 12);
    expect(gapOf(row({ model: [20, 28] }))).toBeCloseTo(28 / 35 - 1, 12);
    expect(spanOf([3, 1, 2])).toEqual([1, 3]);
    expect(spanOf([3, undefined])).toBeUndefined();
  });

  test('only a row that must pass fails the command, and only when it is off', () => {
    const off = just(80);
    expect(mustFail([row({ model: off }), row({ must: true })])).toBe(false);
    expect(mustFail([row({ must: true, model: just(46) })])).toBe(false);
    expect(mustFail([row({ must: true, model: off })])).toBe(true);
    expect(mustFail([row({ must: true, model: undefined })])).toBe(true);
    expect(tallyOf([row({ must: true, model: off }), row()])).toEqual({
      pass: 1,
      near: 0,
      off: 1,
      rows: 2,
      must: 1,
      mustOff: 1,
    });
  });
});

describe('the rows as text', () => {
  const section: Section = {
    id: 'charts',
    title: 'Made up',
    rows: () => [
      row({ must: true, model: just(80) }),
      row({ kind: 'hold-out', model: undefined, what: `${'long '.repeat(20)}${'x'.repeat(90)}` }),
    ],
    page: () => '',
  };

  test('a wrong figure is marked and told at the end; nothing is wider than 80 columns', () => {
    const text = checkText([section], pc.createColors(false));
    expect(text).toMatch(/^off! +check +centre cut to 57 °C +35.0-45.0 +80.0 min$/m);
    expect(text).toContain('OFF: 1 of the 1 rows that must not be off (!).');
    expect(text).toContain('Of these 1 hold-outs, never tuned on: 0 pass, 0 near, 1 off.');
    expect(text).toMatch(/^off +hold-out long/m);
    for (const line of text.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
  });
});
