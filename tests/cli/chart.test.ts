import {
  type Plan,
  type PlanRequest,
  planCook,
  rest,
  roastIn,
  roundRoast,
  SCALES,
  searInPan,
  temper,
  tenderloin,
  type UnitSystem,
  waterBath,
} from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chartModel, planChart } from '../../packages/cli/src/show/chart.js';
import type { ChartAxis, ChartLine, ChartModel } from '../../packages/cli/src/show/chartModel.js';
import { spread } from '../../packages/cli/src/show/spread.js';

// Drawing needs the fonts in packages/cli/dist, as `pnpm build` or `pnpm test` leaves them; the rest needs no build.

const COARSE = { stations: 10, shells: 12 } as const; // enough for what does not hang on the mesh
const PNG_SIGNATURE = '89504e470d0a1a0a';

const untilPulled = { minutes: 0 };
const whole = tenderloin({ massKg: 2.2 });
const usual: PlanRequest = {
  before: [temper({ minutes: 30 })],
  heat: roastIn({ ovenC: 230, until: untilPulled }),
  after: [rest({ minutes: 20 })],
};
const planOf = (request: Partial<PlanRequest> = {}, roast = whole): Plan =>
  planCook(roast, { ...usual, ...request }, COARSE);

const plain = planCook(whole, usual);
const strict = planCook(whole, { ...usual, atRisk: true, aim: { doneness: 75 } });
const bath = planOf({
  heat: waterBath({ bathC: 58, until: untilPulled }),
  aim: { doneness: 57 },
  after: [],
});
const slow = planOf({
  before: [temper({ minutes: 30 }), searInPan()],
  heat: roastIn({ ovenC: 110, fan: true, start: 'cold', until: untilPulled }),
});
const searedLast = planOf({
  heat: roastIn({ ovenC: 120, until: untilPulled }),
  after: [searInPan(), rest({ minutes: 10, tented: false })],
});
const everyPlan: readonly (readonly [string, Plan])[] = [
  ['a hot oven', plain],
  ['a bath', bath],
  ['a sear and a slow oven', slow],
  ['a sear last', searedLast],
];
const systems: readonly UnitSystem[] = ['metric', 'us'];

const linesOf = ({ meat, around }: ChartModel): ChartLine[] => [
  ...meat.lines,
  ...(around?.lines ?? []),
];
const lineOf = (model: ChartModel, kind: ChartLine['kind']): ChartLine => {
  const line = linesOf(model).find((candidate) => candidate.kind === kind);
  if (line === undefined) throw new Error(`the chart has no line ${kind}`);
  return line;
};

describe('what a chart shows', () => {
  test('the roast and the aim in words', () => {
    const { head } = chartModel(plain, 'metric');
    expect(head?.title).toMatch(/tenderloin, 2\.20 kg/i);
    expect(head?.subtitle).toBe('Aimed at medium-rare, 56 °C in the middle slice (scale: kitchen)');
    expect(chartModel(plain, 'us').head?.subtitle).toContain('133 °F');
  });

  test('three centres and the surface below, what surrounds the roast and the crust above', () => {
    const model = chartModel(plain, 'metric');
    expect(model.meat.lines.map(({ kind }) => kind)).toEqual([
      'aimed',
      'thicker',
      'thinner',
      'under-crust',
    ]);
    expect(model.around?.lines.map(({ kind }) => kind)).toEqual(['around', 'outside']);
    const peaks = (kind: ChartLine['kind']): number =>
      Math.max(...lineOf(model, kind).points.map(({ y }) => y));
    expect(peaks('thicker')).toBeLessThan(peaks('aimed'));
    expect(peaks('thinner')).toBeGreaterThan(peaks('aimed'));
    const told = Number(/peak (\d+) °C$/.exec(lineOf(model, 'thinner').label)?.[1]);
    expect(Math.abs(peaks('thinner') - told)).toBeLessThan(0.6); // half a degree is rounding
    expect(peaks('around')).toBeGreaterThan(225);
    expect(peaks('under-crust')).toBeLessThan(peaks('outside'));
  });

  test.each(systems)('pull and peak on the aimed-at line, in %s units', (units) => {
    const model = chartModel(plain, units);
    const [pull, peak] = model.marks;
    const { points } = lineOf(model, 'aimed');
    expect(points[plain.pull.row].x).toBe(pull.x);
    expect(points[plain.pull.row].y).toBeCloseTo(pull.y, 9);
    expect(points[plain.peak.row].x).toBe(peak.x);
    expect(peak.y).toBeCloseTo(Math.max(...points.map(({ y }) => y)), 9);
    const said = units === 'us' ? '133 °F' : '56 °C';
    expect(peak).toMatchObject({ text: `peak ${said}`, more: '20 min after the pull' });
    expect(pull.more).toBe(`${Math.round(plain.pull.minutes)} min in the oven`);
  });

  test('US units are the same chart on another scale', () => {
    const metric = chartModel(plain, 'metric');
    const us = chartModel(plain, 'us');
    expect(us.unit).toBe('°F');
    for (const [i, line] of linesOf(metric).entries()) {
      const other = linesOf(us)[i].points;
      line.points.forEach(({ x, y }, row) => {
        expect(other[row].x).toBe(x);
        expect(other[row].y).toBeCloseTo(32 + 1.8 * y, 9); // definition of the Fahrenheit scale
      });
    }
    expect(us.stripes.map(({ name }) => name)).toEqual(metric.stripes.map(({ name }) => name));
    expect(us.stages.map(({ length }) => length)).toEqual(
      metric.stages.map(({ length }) => length),
    );
  });

  test('stages one after the other, from the refrigerator to the end', () => {
    const { stages, minutes } = chartModel(slow, 'metric');
    expect(stages.map(({ names }) => names[0])).toEqual([
      'counter, 21 °C',
      'pan, 230 °C',
      'oven, 110 °C, fan, from cold',
      'rest under foil',
    ]);
    expect(stages.map(({ names }) => names.at(-1))).toEqual(['counter', 'pan', 'oven', 'rest']);
    expect(stages[0].from).toBe(minutes.from);
    expect(stages.at(-1)?.to).toBeCloseTo(minutes.to, 9);
    for (const [i, stage] of stages.slice(1).entries()) {
      expect(stage.from).toBeCloseTo(stages[i].to, 9);
    }
    expect(chartModel(searedLast, 'metric').stages.map(({ names }) => names.at(-1))).toEqual([
      'counter',
      'oven',
      'pan',
      'rest',
    ]);
  });

  test('bands side by side from the foot of the axis to its top, one of them aimed at', () => {
    const { stripes, meat } = chartModel(plain, 'metric');
    expect(stripes.map(({ name }) => name)).toEqual(SCALES.kitchen.bands.map(({ name }) => name));
    expect(stripes[0].from).toBe(meat.axis.from);
    expect(stripes.at(-1)?.to).toBe(meat.axis.to);
    for (const [i, { from }] of stripes.slice(1).entries()) expect(from).toBe(stripes[i].to);
    expect(stripes.filter(({ aimed }) => aimed)).toEqual([
      { name: 'medium-rare', from: 53, to: 58.5, aimed: true },
    ]);
  });

  test('the notice of a plan below guidance, and none of one that meets it', () => {
    expect(chartModel(plain, 'metric').head?.notice).toMatch(/^Below whole-cut guidance/);
    expect(chartModel(strict, 'metric').head?.notice).toBeUndefined();
  });

  test('a bath in the panel of the meat, whose surface has no crust', () => {
    const model = chartModel(bath, 'metric');
    expect(model.around).toBeUndefined();
    expect(lineOf(model, 'under-crust').label).toBe('surface');
    expect(Math.max(...lineOf(model, 'around').points.map(({ y }) => y))).toBe(58);
    expect(model.marks).toHaveLength(1);
    expect(model.marks[0].more).toMatch(/ in the bath, no further climb$/);
  });

  test('the coldest spot where it is aimed at, without a second line for its slice', () => {
    const model = chartModel(strict, 'metric');
    expect(lineOf(model, 'aimed').label).toBe('coldest spot, aimed at');
    expect(model.meat.lines.map(({ kind }) => kind)).toEqual(['aimed', 'thinner', 'under-crust']);
  });

  test('an end slice beside the aimed-at one in a roast of even thickness', () => {
    const even = roundRoast({ massKg: 1.13, diameters: [{ sizeMm: 88 }] });
    const model = chartModel(planOf({ aim: { scale: SCALES.amsa } }, even), 'metric');
    expect(lineOf(model, 'thinner').label).toMatch(/^end slice, peak /);
    expect(model.meat.lines.map(({ kind }) => kind)).toEqual(['aimed', 'thinner', 'under-crust']);
  });

  describe.each(systems)('in %s units', (units) => {
    test.each(everyPlan)('keeps all of %s inside its axes, and few enough ticks', (_, plan) => {
      const model = chartModel(plan, units);
      const inside = (value: number, { from, to }: ChartAxis): boolean =>
        value >= from && value <= to;
      for (const panel of [model.meat, ...(model.around === undefined ? [] : [model.around])]) {
        for (const { points } of panel.lines) {
          expect(points.every(({ y }) => inside(y, panel.axis))).toBe(true);
          expect(points.every(({ x }) => inside(x, model.minutes))).toBe(true);
        }
        expect(panel.axis.from % panel.axis.step).toBe(0);
        expect(panel.axis.to % panel.axis.step).toBe(0);
        expect((panel.axis.to - panel.axis.from) / panel.axis.step).toBeLessThanOrEqual(13);
      }
      expect(model.minutes.to / model.minutes.step).toBeLessThanOrEqual(12);
    });
  });
});

describe('words that must not overlap', () => {
  test('stay where they wish when there is room', () => {
    expect(
      spread(
        [
          { at: 50, length: 10 },
          { at: 20, length: 10 },
        ],
        0,
        100,
      ),
    ).toEqual([50, 20]);
  });

  test('share the way when they wish for one place', () => {
    const three = [50, 50, 50].map((at) => ({ at, length: 10 }));
    expect(spread(three, 0, 100)).toEqual([40, 50, 60]);
  });

  test('move as a whole at an end', () => {
    expect(
      spread(
        [
          { at: 2, length: 10 },
          { at: 6, length: 10 },
          { at: 22, length: 10 },
        ],
        0,
        100,
      ),
    ).toEqual([5, 15, 25]);
    expect(
      spread(
        [
          { at: 97, length: 10 },
          { at: 99, length: 10 },
        ],
        0,
        100,
      ),
    ).toEqual([85, 95]);
  });

  test('never overlap, keep their order and stay between the ends, whatever they wish', () => {
    const wishes = fc.array(
      fc.record({
        at: fc.double({ min: -50, max: 150, noNaN: true }),
        length: fc.integer({ min: 1, max: 12 }),
      }),
      { minLength: 1, maxLength: 8 }, // 8 of at most 12 fit into 100
    );
    fc.assert(
      fc.property(wishes, (wanted) => {
        const middles = spread(wanted, 0, 100);
        const placed = wanted
          .map(({ at, length }, i) => ({
            at,
            from: middles[i] - length / 2,
            to: middles[i] + length / 2,
          }))
          .sort((a, b) => a.from - b.from);
        expect(placed[0].from).toBeGreaterThanOrEqual(-1e-9);
        expect(placed[placed.length - 1].to).toBeLessThanOrEqual(100 + 1e-9);
        for (const [i, { from, at }] of placed.slice(1).entries()) {
          expect(from).toBeGreaterThanOrEqual(placed[i].to - 1e-9);
          expect(at).toBeGreaterThanOrEqual(placed[i].at);
        }
      }),
    );
  });
});

test('draws a PNG picture of the promised size, the same every time, other in other units', async () => {
  const png = await planChart(plain, 'metric');
  expect(png.subarray(0, 8).toString('hex')).toBe(PNG_SIGNATURE);
  expect(png.readUInt32BE(16), 'width in the header').toBe(1920);
  expect(png.readUInt32BE(20), 'height in the header').toBe(1200);
  expect(png.equals(await planChart(plain, 'metric'))).toBe(true);
  expect(png.equals(await planChart(plain, 'us'))).toBe(false);
});
