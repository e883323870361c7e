import {
  BEEF_CRUST,
  CookRun,
  centreReaches,
  ensemble,
  fitLog,
  HOUSEHOLD_OVEN,
  INPUTS,
  type OvenModel,
  type PlanRequest,
  pathText,
  planCook,
  priorsFor,
  profileFromDiameters,
  quickInterval,
  rest,
  roastIn,
  type Stage,
  simulate,
  tenderloin,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { errorOf } from '../support/errorOf.js';

// What a caller without a compiler may hand in: each wrong thing is named, none ends in a TypeError or a NaN.

const COARSE = { stations: 6, shells: 8 } as const;
const roast = tenderloin({ massKg: 2.2 });
const until = { minutes: 20 };
const request: PlanRequest = {
  before: [],
  heat: roastIn({ ovenC: 230, until }),
  after: [rest({ minutes: 10 })],
};
const stage = (fields: object): Stage => fields as Stage;
const asked = (fields: object): PlanRequest => fields as PlanRequest;
const cook = (stages: readonly object[], options: object = {}) =>
  simulate(roast, stages as Stage[], { ...COARSE, ...options });
const oven = (fields: object) => cook([roastIn({ ovenC: 230, until })], { oven: fields });
const crust = (fields: object) => cook([roastIn({ ovenC: 230, until })], { crust: fields });
const without = (name: keyof OvenModel): object =>
  Object.fromEntries(Object.entries(HOUSEHOLD_OVEN).filter(([field]) => field !== name));
const plan = planCook(roast, request, COARSE);

test.each<[string, () => unknown, string, string, RegExp]>([
  [
    'a cut',
    () => tenderloin({ massKg: 2, cut: 'foo' as 'whole' }),
    'unknown-name',
    'cut',
    /"foo"; it can be whole, centre, butt, tail$/,
  ],
  [
    'a cut, nearly',
    () => tenderloin({ massKg: 2, cut: 'center' as 'centre' }),
    'unknown-name',
    'cut',
    /did you mean centre\?/,
  ],
  [
    'no ending',
    () => roastIn({ ovenC: 230 } as Parameters<typeof roastIn>[0]),
    'missing',
    'until',
    /ending of a stage is missing/,
  ],
  [
    'a start',
    () => roastIn({ ovenC: 230, until, start: 'colt' as 'cold' }),
    'unknown-name',
    'start',
    /did you mean cold\?/,
  ],
  [
    'no place',
    () => roastIn({ ovenC: 230, until: { reachesC: 50 } as object as typeof until }),
    'missing',
    'until.at',
    /place of the thermometer is missing/,
  ],
  [
    'a place',
    () => centreStage({ atMm: 'coolest' }),
    'unknown-name',
    'until.at.atMm',
    /did you mean coldest\?/,
  ],
  [
    'a place that is none',
    () => centreStage({ atMm: Number.NaN }),
    'not-a-number',
    'until.at.atMm',
    /NaN/,
  ],
  [
    'a stage',
    () => cook([{ kind: 'foo' }]),
    'unknown-name',
    'kind',
    /"foo"; it can be temper, pan-sear/,
  ],
  [
    'a stage, nearly',
    () => cook([{ kind: 'roats' }]),
    'unknown-name',
    'kind',
    /did you mean roast\?/,
  ],
  ['no stage', () => cook([undefined as unknown as object]), 'missing', '', /a stage is missing/],
  [
    'a stage without an ending',
    () => cook([{ kind: 'roast', ovenC: 230, fan: false, start: 'cold' }]),
    'missing',
    'until',
    /ending/,
  ],
  [
    'a stage without heat',
    () => cook([{ kind: 'roast', fan: false, start: 'cold', until }]),
    'not-a-number',
    'ovenC',
    /oven/,
  ],
  [
    'a place beyond the end',
    () => cook([roastIn({ ovenC: 230, until: centreReaches(45, { atMm: 990 }) })]),
    'out-of-range',
    'until.at.atMm',
    /990 mm; it can be 0 to 52\d(\.\d)? mm/,
  ],
  [
    'an empty request',
    () => planCook(roast, asked({})),
    'missing',
    'before',
    /stages before the heat are missing/,
  ],
  [
    'no request',
    () => planCook(roast, undefined as unknown as PlanRequest),
    'missing',
    'request',
    /request is missing/,
  ],
  [
    'no heat',
    () => planCook(roast, asked({ before: [], after: [] })),
    'missing',
    'heat',
    /heat is missing/,
  ],
  [
    'a rest for heat',
    () => planCook(roast, asked({ ...request, heat: rest({ minutes: 5 }) })),
    'unknown-name',
    'heat.kind',
    /roast, bath/,
  ],
  [
    'a slip in the kind of a stage',
    () => planCook(roast, { ...request, before: [stage({ kind: 'tempre' })] }),
    'unknown-name',
    'before[0].kind',
    /^[^(]*"tempre"; it can be [^(]*\(did you mean temper\?\)$/,
  ],
  [
    'a stage of a plan',
    () => planCook(roast, { ...request, before: [stage({ kind: 'temper' })] }),
    'missing',
    'before[0].until',
    /ending/,
  ],
  [
    'a pull beyond the end',
    () => planCook(roast, { ...request, pull: centreReaches(45, { atMm: 990 }) }),
    'out-of-range',
    'pull.at.atMm',
    /990 mm/,
  ],
  [
    'an aim',
    () => planCook(roast, { ...request, aim: { at: 'nowhere' as 'thin' } }),
    'unknown-name',
    'at',
    /"nowhere"; it can be middle, thick, thin/,
  ],
  ['no points', () => profileFromDiameters([]), 'missing', 'points', /two diameters or more/],
  [
    'one point',
    () => profileFromDiameters([[0, 0.08]]),
    'missing',
    'points',
    /two diameters or more/,
  ],
  [
    'points that go back',
    () =>
      profileFromDiameters([
        [0, 0.08],
        [0.2, 0.07],
        [0.1, 0.06],
      ]),
    'contradiction',
    'points[2]',
    /rise from 0/,
  ],
  [
    'a point of NaN',
    () =>
      profileFromDiameters([
        [0, 0.08],
        [0.2, Number.NaN],
      ]),
    'not-a-number',
    'points[1][1]',
    /NaN/,
  ],
  [
    'an oven of NaN',
    () => oven({ ...HOUSEHOLD_OVEN, stillFilm: Number.NaN }),
    'not-a-number',
    'oven.stillFilm',
    /0\.01 to 5000/,
  ],
  [
    'a negative vent',
    () => oven({ ...HOUSEHOLD_OVEN, stillVentKgPerS: -1e-3 }),
    'out-of-range',
    'oven.stillVentKgPerS',
    /-0\.001/,
  ],
  [
    'an oven without walls',
    () => oven(without('wallOffsetK')),
    'missing',
    'oven.wallOffsetK',
    /missing/,
  ],
  ['an oven by name', () => oven('hot' as unknown as object), 'unreadable', 'oven', /"hot"/],
  [
    'a crust of NaN',
    () => crust({ ...BEEF_CRUST, vapourPerDeficit: Number.NaN }),
    'not-a-number',
    'crust.vapourPerDeficit',
    /NaN/,
  ],
  [
    'half a crust',
    () => crust({ removableWater: 700 }),
    'missing',
    'crust.vapourPerDeficit',
    /missing/,
  ],
  [
    'a doubt',
    () => quickInterval(plan, request, { priors: { sise: { spread: 1 } } as object }),
    'unknown-name',
    'priors.sise',
    /did you mean size\?/,
  ],
  [
    'a doubt of NaN',
    () => priorsFor(roast, request.heat, { size: { spread: Number.NaN } }),
    'not-a-number',
    'priors.size.spread',
    /0 to 1/,
  ],
  [
    'a negative doubt',
    () => ensemble(roast, request, { seed: 1, plan, priors: { vent: { spread: -1 } } }),
    'out-of-range',
    'priors.vent.spread',
    /-1/,
  ],
  [
    'a doubt of another form',
    () => priorsFor(roast, request.heat, { size: { form: 'shift', spread: 0.1 } }),
    'contradiction',
    'priors.size.form',
    /factor/,
  ],
  [
    'a bare number for a doubt',
    () => priorsFor(roast, request.heat, { size: 0.02 as unknown as object }),
    'unreadable',
    'priors.size',
    /spread/,
  ],
  [
    'a second thermometer beyond the end',
    () => fitLog(roast, request, [], { plan, second: { atMm: 700 } }),
    'out-of-range',
    'second.atMm',
    /700 mm/,
  ],
])('%s', (_, call, code, path, sentence) => {
  const error = errorOf(call);
  expect(error.code).toBe(code);
  expect(pathText(error.path)).toBe(path);
  expect(error.hint !== undefined).toBe(error.message.includes('did you mean'));
  expect(error.message).toMatch(sentence);
  expect(error.accepted).not.toBe('');
});

function centreStage(at: object): Stage {
  return roastIn({ ovenC: 230, until: { reachesC: 50, at } as unknown as typeof until });
}

describe('at the ends of what is accepted', () => {
  const changes: (readonly [keyof OvenModel, readonly [number, number]])[] = [
    ['stillFilm', [0.01, 5000]],
    ['fanFilm', [0.01, 5000]],
    ['radiationFactor', [0, 1]],
    ['stillVentKgPerS', [1e-9, 10]],
    ['fanVentKgPerS', [1e-9, 10]],
    ['airKg', [0.001, 10]],
    ['roomVapourPa', [0, 10_000]],
    ['offsetK', [-200, 200]],
    ['wallOffsetK', [-200, 200]],
  ];
  const stages = [true, false].map((fan) => roastIn({ ovenC: 230, fan, until: { minutes: 30 } }));
  const finite = (options: object): void => {
    const { axisC, outsideC, frontC, vapourPa, evaporatedKg } = simulate(roast, stages, {
      ...COARSE,
      ...options,
    });
    for (const series of [axisC, outsideC, frontC, vapourPa, evaporatedKg]) {
      expect(series.every(Number.isFinite)).toBe(true);
    }
  };

  test.each(changes)('an oven of %s %o cooks', (field, ends) => {
    for (const value of ends) finite({ oven: { ...HOUSEHOLD_OVEN, [field]: value } });
    for (const value of [ends[0] - 1, 2 * ends[1] + 1]) {
      const call = () => finite({ oven: { ...HOUSEHOLD_OVEN, [field]: value } });
      expect(errorOf(call).code).toBe('out-of-range');
    }
  });

  test.each([
    ['removableWater', [1, 1000]],
    ['vapourPerDeficit', [1e3, 1e12]],
    ['heatPerDeficit', [0, 100]],
  ] as const)('a crust of %s %o cooks', (field, ends) => {
    for (const value of ends) finite({ crust: { ...BEEF_CRUST, [field]: value } });
  });

  test('a place at the very end is one', () => {
    const end = 1000 * (roast.profile.atM.at(-1) ?? 0);
    for (const atMm of [0, end]) {
      const run = new CookRun(roast, COARSE);
      run.run(roastIn({ ovenC: 230, until: centreReaches(45, { atMm }) }));
      expect(run.temperatureOf({ atMm })).toBeCloseTo(45, 5);
    }
  });

  test('the widest doubts of everything still give finite answers', () => {
    const priors = Object.fromEntries(
      INPUTS.map((name) => {
        const { form } = priorsFor(roast, request.heat)[name];
        return [name, { spread: form === 'factor' ? 1 : name === 'start' ? 2 : 30 }];
      }),
    );
    const timed = { ...request, pull: { minutes: 40 } };
    const interval = quickInterval(planCook(roast, timed, COARSE), timed, { priors });
    expect(interval?.lowMinutes).toBeGreaterThan(0);
    expect(interval?.likelyMinutes).toBeGreaterThan(0);
    expect(interval?.highMinutes).toBeGreaterThan(0);
  });
});
