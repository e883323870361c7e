import { readFileSync } from 'node:fs';
import {
  cookedRequest,
  donenessScale,
  type History,
  inAir,
  inSurroundings,
  type Plan,
  planCook,
  planForGuests,
  profileFromDiameters,
  type Roast,
  rest,
  roastIn,
  roastOfProfile,
  roundRoast,
  SCALES,
  type Scale,
  type Stage,
  type Surroundings,
  sayWarning,
  searInPan,
  simulate,
  stepsOf,
  temper,
  tenderloin,
  timetable,
  waterBath,
} from '@roastsim/core';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chartModel } from '../../packages/cli/src/show/chartModel.js';
import { planDocument } from '../../packages/cli/src/show/planDocument.js';
import { planReport } from '../../packages/cli/src/show/text.js';
import { decimal } from '../support/anyCook.js';
import { errorOf } from '../support/errorOf.js';
import { intervalOf } from '../support/intervalOf.js';

// What a caller brings along instead of forking: surroundings, a profile, a scale.

const COARSE = { stations: 6, shells: 10, longestStepS: 60 } as const;
const roast = tenderloin({ massKg: 2.2 });
const untilPulled = { minutes: 0 }; // replaced by the pull

/** The room of `temper` and of an open rest, from docs/model.md, section 7. */
const room = (airC: number, filmWPerM2K: number, vapourPa: number): Surroundings =>
  inAir({ airC, wallC: airC, filmWPerM2K, radiationFactor: 0.9, vapourPa });
const bath = (waterC: number): Surroundings => ({
  airC: waterC,
  wallC: waterC,
  filmWPerM2K: 500,
  radiationFactor: 0,
  vapourPa: 0,
  vapourResistance: Number.POSITIVE_INFINITY,
  condenses: false,
});
const held = (around: Surroundings, minutes: number): Stage =>
  inSurroundings({ at: () => around, until: { minutes } });

/** Air that swings round 200 °C as a thermostat's does. */
const swinging = (seconds: number): Surroundings =>
  room(200 + 15 * Math.sin(seconds / 120), 8, 4000);

/** All numbers of a history but the time they took to make. */
const figures = ({ roast: _, body: __, stages, ...series }: History): unknown => ({
  ...series,
  stages: stages.map(({ stage: ___, ...times }) => times),
});

describe('own surroundings', () => {
  test('with the figures of the stages that come along give their histories, bit by bit', () => {
    const own = [held(room(21, 5, 1250), 30), held(bath(60), 90), held(room(22, 6, 1300), 15)];
    const known = [
      temper({ minutes: 30 }),
      waterBath({ bathC: 60, until: { minutes: 90 } }),
      rest({ minutes: 15, tented: false }),
    ];
    expect(figures(simulate(roast, own, COARSE))).toEqual(figures(simulate(roast, known, COARSE)));
  });

  test('that change make a difference, and what the roast saw is in the history', () => {
    const stage = inSurroundings({ at: swinging, until: { minutes: 30 } });
    const { airC, seconds, rows } = simulate(roast, [stage], COARSE);
    for (let row = 0; row < rows; row++) {
      expect(airC[row]).toBeCloseTo(200 + 15 * Math.sin(seconds[row] / 120), 9);
    }
    expect(Math.max(...airC)).toBeGreaterThan(213);
  });

  test('may stand still for hours before they heat: a stage does not give up on them', () => {
    const at = (seconds: number): Surroundings => room(seconds < 4 * 3600 ? 4 : 180, 10, 1300);
    const until = { reachesC: 40, at: { atMm: 'coldest' } } as const;
    const cook = simulate(roast, [inSurroundings({ at, until })], COARSE);
    expect(cook.stages[0].endS).toBeGreaterThan(4 * 3600);
    // the same wait as a stage of the library is refused
    const wait = { ...temper({ minutes: 0, roomC: 5 }), until };
    expect(errorOf(() => simulate(roast, [wait], COARSE)).code).toBe('unreachable');
  });

  test.each([
    ['airC', Number.NaN, 'not-a-number'],
    ['airC', 401, 'out-of-range'],
    ['wallC', -300, 'out-of-range'],
    ['filmWPerM2K', -1, 'out-of-range'],
    ['radiationFactor', 1.1, 'out-of-range'],
    ['vapourPa', 2e5, 'out-of-range'],
    ['vapourResistance', 0, 'out-of-range'],
    ['vapourResistance', undefined, 'not-a-number'],
  ] as const)('are refused with a %s of %s', (field, value, code) => {
    const around = { ...room(100, 8, 1300), [field]: value };
    const error = errorOf(() => simulate(roast, [held(around, 5)], COARSE));
    expect([error.code, error.path]).toEqual([code, ['at', field]]);
    expect(error.message).toMatch(/0 s into their stage; accepted is/);
  });

  test('of every kind that is accepted give finite numbers', () => {
    const anyAround = fc.record({
      airC: decimal(-40, 400),
      wallC: decimal(-40, 1000),
      filmWPerM2K: decimal(0, 5000),
      radiationFactor: decimal(0, 1),
      vapourPa: decimal(0, 101_325),
      vapourResistance: fc.constantFrom(1e4, 1e6, 1e9, Number.POSITIVE_INFINITY),
      condenses: fc.boolean(),
    });
    fc.assert(
      fc.property(anyAround, anyAround, (one, other) => {
        const piece = roundRoast({ massKg: 0.5, diameters: [{ sizeMm: 60 }] });
        const cook = simulate(piece, [held(one, 40), held(other, 40)], COARSE);
        for (const series of [cook.axisC, cook.frontC, cook.outsideC, cook.hottestC, cook.water]) {
          expect(series.every(Number.isFinite)).toBe(true);
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe('a plan with heat of its own', () => {
  const heat = inSurroundings({ at: swinging, until: untilPulled });
  const plan = planCook(
    roast,
    { before: [temper({ minutes: 30 })], heat, after: [rest({ minutes: 20 })] },
    COARSE,
  );

  test('finds the pull and says what stands behind it', () => {
    expect(plan.peak.centreC).toBeCloseTo(56, 1);
    expect(plan.pull.minutes).toBeCloseTo(plan.pull.heatMinutes, 12);
    const codes = plan.warnings.map(({ code }) => code);
    expect(codes).toContain('own-surroundings');
    expect(sayWarning({ code: 'own-surroundings' }, 'us')).toMatch(/40 °F to 130 °F/);
    expect(stepsOf(plan).map(({ kind }) => kind)).toContain('begin');
    expect(timetable(plan, COARSE).steps.length).toBe(stepsOf(plan).length);
  });

  test('is none that a forecast knows', () => {
    expect(errorOf(() => cookedRequest(plan)).code).toBe('contradiction');
  });

  test('is near the oven it imitates', () => {
    const oven = planCook(
      roast,
      {
        before: [temper({ minutes: 30 })],
        heat: roastIn({ ovenC: 200, until: untilPulled }),
        after: [rest({ minutes: 20 })],
      },
      COARSE,
    );
    expect(plan.pull.minutes / oven.pull.minutes).toBeGreaterThan(0.85);
    expect(plan.pull.minutes / oven.pull.minutes).toBeLessThan(1.15);
  });

  test('can be reported: JSON by its schema, text of 80 columns, chart', () => {
    const schema = JSON.parse(
      readFileSync(new URL('../../docs/plan.schema.json', import.meta.url), 'utf8'),
    );
    const validate = new Ajv2020({ strict: true, allErrors: true }).compile(schema);
    const document = JSON.parse(
      JSON.stringify(planDocument(plan, { version: '1.2.3', units: 'metric' })),
    );
    validate(document);
    expect(validate.errors ?? []).toEqual([]);
    expect(document.stages[1]).toEqual({
      kind: 'surroundings',
      startMinutes: 30,
      endMinutes: expect.any(Number),
    });
    expect(document.stageLine).toMatch(
      /^counter 30min, own surroundings [\d.]+(min|h|s).*, rest 20min foil$/,
    );
    const colourless = new Proxy({}, { get: () => String });
    const report = planReport(plan, {
      units: 'metric',
      assumed: ['nothing'],
      colors: colourless as Parameters<typeof planReport>[1]['colors'],
    });
    expect(report).toMatch(/PULL at .* of heat/);
    expect(report).toMatch(/Into its own surroundings/);
    expect(Math.max(...report.split('\n').map((line) => [...line].length))).toBeLessThanOrEqual(80);
    const chart = chartModel(plan, 'metric');
    expect(chart.stages.some(({ names }) => names.includes('own surroundings'))).toBe(true);
  });
});

test('before the heat, forecasts and searches for guests take own surroundings too', () => {
  const request = {
    before: [held(room(15, 5, 1200), 30)],
    heat: roastIn({ ovenC: 200, until: untilPulled }),
    after: [rest({ minutes: 15 })],
  };
  const plan = planCook(roast, request, COARSE);
  const { lowMinutes, highMinutes } = intervalOf(plan, request, COARSE);
  expect(lowMinutes).toBeLessThan(plan.pull.minutes);
  expect(highMinutes).toBeGreaterThan(plan.pull.minutes);
  const wishes = [{ doneness: 'rare' }, { doneness: 'medium' }];
  const { best } = planForGuests(roast, { ...request, wishes }, COARSE);
  expect(best.seating.places).toHaveLength(2);
  // the one thing that cannot be handed to a worker
  expect(() => structuredClone(request)).toThrow();
  expect(structuredClone({ ...request, before: [] })).toEqual({ ...request, before: [] });
});

describe('safety of own surroundings', () => {
  const judged = (before: Stage[], after: Stage[], pullC = 64): Plan['safety'] =>
    planCook(
      roast,
      {
        before,
        heat: roastIn({ ovenC: 180, until: untilPulled }),
        after,
        aim: { at: 'thick' },
        pull: { centreC: pullC },
      },
      COARSE,
    ).safety;

  test('air that neither keeps cold nor cooks is a room, and a hot one halves the limit', () => {
    const resting = [rest({ minutes: 10 })];
    const bare = judged([], resting);
    const cool = judged([held(room(4, 8, 500), 60)], resting);
    const mild = judged([held(room(15, 8, 500), 60)], resting);
    const hot = judged([held(room(40, 8, 500), 60)], resting);
    expect(cool.roomBeforeMinutes).toBe(bare.roomBeforeMinutes);
    expect(mild.roomBeforeMinutes).toBeCloseTo(60, 9);
    expect([mild.roomLimitMinutes, hot.roomLimitMinutes]).toEqual([120, 60]);
  });

  test('after the pull they leave the guidance unmet, however hot the roast was', () => {
    const resting = rest({ minutes: 10 });
    expect(judged([], [resting], 72).meetsWholeCutGuidance).toBe(true);
    const chilled = judged([], [held(room(2, 20, 500), 10), resting], 72);
    expect(chilled.meetsWholeCutGuidance).toBe(false);
  });

  test('people at risk are refused such a cook', () => {
    const plan = (): Plan =>
      planCook(
        roast,
        {
          before: [],
          heat: roastIn({ ovenC: 180, until: untilPulled }),
          after: [held(room(2, 20, 500), 10)],
          atRisk: true,
        },
        COARSE,
      );
    expect(errorOf(plan).code).toBe('unsafe');
  });
});

describe('an own profile', () => {
  test('that is the profile of a tenderloin cooks as the tenderloin', () => {
    const known = tenderloin({ massKg: 1.1, cut: 'centre' });
    const own = roastOfProfile(known.profile, { cut: 'centre', aspect: known.aspect });
    expect(own.massKg).toBeCloseTo(known.massKg, 12);
    const stages = [searInPan(), roastIn({ ovenC: 150, until: { minutes: 40 } })];
    expect(figures(simulate(own, stages, COARSE))).toEqual(
      figures(simulate(known, stages, COARSE)),
    );
  });

  test('is scaled to a weight at its length', () => {
    const profile = profileFromDiameters([
      [0, 0.06],
      [0.3, 0.09],
    ]);
    const plain = roastOfProfile(profile);
    const light = roastOfProfile(profile, { massKg: plain.massKg / 4 });
    expect(light.profile.atM).toEqual(profile.atM);
    expect(light.profile.areaM2[0] / profile.areaM2[0]).toBeCloseTo(0.25, 12);
  });

  const straight = (atM: number[], areaM2: number[]): (() => Roast) => {
    const profile = { atM: Float64Array.from(atM), areaM2: Float64Array.from(areaM2) };
    return () => roastOfProfile(profile);
  };
  test.each([
    ['one place', straight([0], [0.005]), 'contradiction'],
    ['arrays of two lengths', straight([0, 0.2], [0.005]), 'contradiction'],
    ['a late beginning', straight([0.1, 0.3], [0.005, 0.005]), 'contradiction'],
    ['places that go back', straight([0, 0.3, 0.2], [0.005, 0.005, 0.005]), 'contradiction'],
    ['a place that is no number', straight([0, Number.NaN], [0.005, 0.005]), 'not-a-number'],
    ['a negative area', straight([0, 0.2], [0.005, -0.005]), 'not-a-number'],
    ['a tip of nothing', straight([0, 0.2], [0.005, 0]), 'out-of-range'],
    ['a metre and a half', straight([0, 1.5], [0.005, 0.005]), 'out-of-range'],
    ['a thread', straight([0, 0.2], [0.0001, 0.0001]), 'out-of-range'],
    ['a tree', straight([0, 1], [0.04, 0.04]), 'out-of-range'],
  ])('is refused with %s', (_name, make, code) => {
    expect(errorOf(make).code).toBe(code);
  });
});

describe('an own scale', () => {
  const band = (name: string, fromC: number, targetC: number) => ({ name, fromC, targetC });
  const bands = [band('soft', Number.NEGATIVE_INFINITY, 50), band('firm', 55, 60)];
  const house: Scale = { name: 'house', source: 'this test', bands, doneThrough: 'firm' };

  test('is what slices are judged by and aims are read from', () => {
    const plan = planCook(
      roast,
      {
        before: [],
        heat: roastIn({ ovenC: 150, until: untilPulled }),
        after: [rest({ minutes: 15 })],
        aim: { scale: donenessScale(house), doneness: 'Firm' },
      },
      COARSE,
    );
    expect(plan.aim.targetC).toBe(60);
    expect(new Set(plan.slices.map((slice) => slice.band))).toEqual(new Set(['firm']));
  });

  test('those that come along pass', () => {
    for (const scale of Object.values(SCALES)) expect(donenessScale(scale)).toBe(scale);
  });

  test.each<[string, Partial<Scale>, string]>([
    ['no bands', { bands: [] }, 'missing'],
    ['no name', { name: '' }, 'missing'],
    ['a first edge', { bands: [band('soft', 40, 50), bands[1]] }, 'contradiction'],
    ['edges that fall', { bands: [...bands, band('hard', 54, 54.5)] }, 'contradiction'],
    ['a target outside', { bands: [band('soft', -Infinity, 56), bands[1]] }, 'contradiction'],
    ['a name twice', { bands: [...bands, band('Fi-rm', 70, 72)] }, 'contradiction'],
    ['an unknown last word', { doneThrough: 'hard' }, 'unknown-name'],
  ])('is refused with %s', (_name, change, code) => {
    expect(errorOf(() => donenessScale({ ...house, ...change })).code).toBe(code);
  });
});
