import { readFileSync } from 'node:fs';
import {
  DEFAULT_SHELLS,
  DEFAULT_STATIONS,
  inAir,
  inSurroundings,
  type Plan,
  type PlanRequest,
  planCook,
  type Roast,
  RoastError,
  rest,
  roastIn,
  roundRoast,
  SCALES,
  searInOven,
  searInPan,
  temper,
  tenderloin,
  type UnitSystem,
  waterBath,
} from '@roastsim/core';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  aimedPlaceMm,
  type DocumentContext,
  planDocument,
} from '../../packages/cli/src/show/planDocument.js';

const COARSE = { stations: 8, shells: 12 } as const; // the document's form does not depend on the mesh

const schema = JSON.parse(
  readFileSync(new URL('../../docs/plan.schema.json', import.meta.url), 'utf8'),
);
const ajv = new Ajv2020({ strict: true, allErrors: true });
const validate = ajv.compile(schema);

/** What the schema has against a document, after it went through JSON. */
function complaints(document: unknown): string[] {
  validate(JSON.parse(JSON.stringify(document)));
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}

const cellar = { airC: 15, wallC: 15, filmWPerM2K: 5, radiationFactor: 0.9, vapourPa: 1200 };
const untilPulled = { minutes: 0 }; // replaced by the pull
const oven = (ovenC: number): PlanRequest['heat'] => roastIn({ ovenC, until: untilPulled });
const resting = [rest({ minutes: 20 })];
const usual: PlanRequest = {
  before: [temper({ minutes: 30 })],
  heat: oven(230),
  after: resting,
};
const whole = tenderloin({ massKg: 2.2 });
const metric: DocumentContext = { version: '1.2.3', units: 'metric' };

interface Case {
  readonly name: string;
  readonly roast?: Roast;
  readonly request?: Partial<PlanRequest>;
  readonly context?: Partial<DocumentContext>;
}

const cases: readonly Case[] = [
  { name: 'the default' },
  { name: 'US units', context: { units: 'us' } },
  { name: 'a serving time', context: { clock: (minutes) => `${Math.round(minutes)} past` } },
  { name: 'assumptions', context: { assumed: ['tied', 'no fan'] } },
  {
    name: 'a water bath',
    request: {
      heat: waterBath({ bathC: 58, until: untilPulled }),
      aim: { doneness: 57.5 },
      after: [searInPan(), rest({ minutes: 5, tented: false })],
    },
  },
  {
    name: 'a cool bath',
    request: { heat: waterBath({ bathC: 52, until: untilPulled }), aim: { doneness: 50 } },
  },
  {
    name: 'a sear first and a fan',
    request: {
      before: [temper({ minutes: 60 }), searInPan()],
      heat: roastIn({ ovenC: 120, fan: true, start: 'cold', until: untilPulled }),
    },
  },
  { name: 'an oven sear', request: { before: [searInOven()], heat: oven(90) } },
  { name: 'a sear last', request: { heat: oven(110), after: [searInPan(), ...resting] } },
  {
    name: 'strict rules',
    roast: tenderloin({ massKg: 2.2, intact: false }),
    request: { atRisk: true },
  },
  {
    name: 'an unusual weight and a warm start',
    roast: tenderloin({ massKg: 4.5, startC: 10 }),
    request: { heat: oven(280) },
  },
  {
    name: 'a tape and a length that disagree',
    roast: tenderloin({
      massKg: 1.2,
      cut: 'centre',
      lengthMm: 360,
      diameters: [{ sizeMm: 80, atMm: 100 }],
    }),
  },
  { name: 'a length alone', roast: tenderloin({ massKg: 1.2, cut: 'centre', lengthMm: 450 }) },
  {
    name: 'another cut on another scale',
    roast: roundRoast({ massKg: 1.13, diameters: [{ sizeMm: 88 }] }),
    request: { aim: { scale: SCALES.amsa, at: 'thin', doneness: 'rare' } },
  },
  {
    name: 'a thin piece',
    roast: roundRoast({ massKg: 0.3, diameters: [{ sizeMm: 36 }] }),
    request: { heat: oven(150) },
  },
  { name: 'a pull that is given', request: { pull: { centreC: 75 } } },
  { name: 'a pull far too early', request: { pull: { centreC: 30 } } },
  { name: 'a time that is given', request: { pull: { minutes: 30 }, aim: { at: 'thick' } } },
  {
    name: 'surroundings that a program gave',
    request: {
      before: [
        inSurroundings({
          at: () => inAir(cellar),
          until: { minutes: 20 },
        }),
      ],
    },
  },
  { name: 'no rest', request: { before: [], after: [] } },
  {
    name: 'a long day at room temperature',
    request: { before: [temper({ minutes: 180 })], pull: { minutes: 480 }, heat: oven(60) },
  },
];

/** Coarse throughout: the mesh changes figures, not the form. */
const planOf = ({ roast = whole, request = {} }: Omit<Case, 'name'>): Plan =>
  planCook(roast, { ...usual, ...request }, COARSE);

describe('the schema', () => {
  test.each(cases)('accepts a plan with $name', ({ context = {}, ...of }) => {
    expect(complaints(planDocument(planOf(of), { ...metric, ...context }))).toEqual([]);
  });

  test('knows every warning the cases above bring, and they bring all', () => {
    const brought = new Set(
      cases.flatMap((of) => planOf(of).warnings.map(({ code }): string => code)),
    );
    const known: string[] = schema.$defs.warning.oneOf.flatMap(
      ({ properties: { code } }: { properties: { code: { const?: string; enum?: string[] } } }) =>
        code.enum ?? [code.const],
    );
    expect(new Set(known).size).toBe(known.length);
    expect(known).toEqual(expect.arrayContaining([...brought]));
    expect(known.filter((code) => !brought.has(code))).toEqual([]);
  });

  const accepted = planDocument(planOf({}), metric);
  test.each<[string, unknown, string]>([
    ['an unknown field', { ...accepted, extra: 1 }, 'must NOT have additional properties'],
    ['a missing field', { ...accepted, aim: undefined }, "must have required property 'aim'"],
    [
      'a number that is none',
      { ...accepted, pull: { ...accepted.pull, centreC: Number.NaN } },
      'must be number',
    ],
    [
      'a stage of no known kind',
      { ...accepted, stages: [{ ...accepted.stages[0], kind: 'grill' }] },
      'must match exactly one schema in oneOf',
    ],
    [
      'a warning with a figure of another one',
      { ...accepted, warnings: [{ ...accepted.warnings[0], ovenC: 1 }] },
      'must NOT have unevaluated properties',
    ],
    [
      'a slice counted from nowhere',
      { ...accepted, aim: { ...accepted.aim, slice: -1 } },
      'must be >= 0',
    ],
  ])('refuses %s', (_, document, reason) => {
    expect(complaints(document).join('\n')).toContain(reason);
  });
});

describe('the document', () => {
  const plan = planCook(whole, usual);
  const clock = (minutes: number): string => `at ${minutes.toFixed(3)}`;
  const document = planDocument(plan, { ...metric, clock, assumed: ['tied'] });

  test('says what the plan says, rounded', () => {
    expect(document.roast.massKg).toBe(2.2);
    expect(document.model).toEqual({
      version: '1.2.3',
      stations: DEFAULT_STATIONS,
      shells: DEFAULT_SHELLS,
      steps: plan.history.steps,
    });
    expect(document.pull.minutes).toBeCloseTo(plan.pull.minutes, 2);
    expect(document.pull.atMinutes - document.pull.minutes).toBeCloseTo(30, 1);
    expect(document.peak.minutes).toBeCloseTo(plan.peak.atMinutes, 2);
    expect(document.stages.map(({ kind }) => kind)).toEqual(['temper', 'roast', 'rest']);
    expect(document.stages[1]).toMatchObject({
      ovenC: 230,
      fan: false,
      start: 'preheated',
      startMinutes: 30,
    });
    expect(document.aim).toMatchObject({
      scale: 'kitchen',
      band: 'medium-rare',
      targetC: 56,
      at: 'middle',
      slice: 4,
    });
    expect(document.slices).toHaveLength(plan.slices.length);
    expect(document.safety.notes.join(' ')).toContain('63 °C');
    expect(document.warnings[0]).toMatchObject({
      code: 'below-guidance',
      text: expect.stringContaining('°C'),
    });
    expect(document.assumed).toEqual(['tied']);
  });

  test('gives the time of day of everything that happens at a moment, and none without a serving time', () => {
    const { stages, pull, peak, firstLook, afterPull } = document;
    const moments = [pull, peak, firstLook, ...afterPull, ...stages];
    expect(moments.map((moment) => moment.clock)).toEqual(
      [
        plan.pull.atMinutes,
        plan.peak.atMinutes,
        plan.firstLook.atMinutes,
        ...plan.afterPull.map(({ atMinutes }) => atMinutes),
        ...plan.history.stages.map(({ startS }) => startS / 60),
      ].map(clock),
    );
    expect(JSON.stringify(planDocument(plan, metric))).not.toContain('"clock"');
  });

  test('carries a history that meets the pull and the peak', () => {
    const { history, pull, peak } = document;
    expect(history.minutes).toHaveLength(plan.history.rows);
    for (const series of [history.ovenC, history.wallC, history.centreC, history.surfaceC]) {
      expect(series).toHaveLength(history.minutes.length);
    }
    expect(history.centreC[plan.pull.row]).toBe(pull.centreC);
    expect(history.minutes[plan.pull.row]).toBe(pull.atMinutes);
    expect(Math.max(...history.centreC)).toBe(peak.centreC);
    expect(history.stations).toHaveLength(10);
    expect(history.stations[0].atMm).toBe(document.roast.stations[0].atMm);
    expect(history.stations[9].atMm).toBe(document.roast.stations[DEFAULT_STATIONS - 1].atMm);
  });

  test('has oven temperatures exactly while the roast is in the oven', () => {
    const { minutes, ovenC } = document.history;
    const inOven = minutes.filter((_, i) => ovenC[i] !== null);
    expect(Math.min(...inOven)).toBe(30);
    expect(Math.max(...inOven)).toBe(document.pull.atMinutes);
    expect(Math.max(...ovenC.filter((tempC) => tempC !== null))).toBeGreaterThan(225);
  });

  test('tells the coldest axis from a slice', () => {
    const strict = planOf({ request: { atRisk: true } });
    const { aim, history, pull } = planDocument(strict, metric);
    expect(aim).toMatchObject({ at: 'coldest', slice: null });
    expect(aim.atMm).toBeCloseTo(aimedPlaceMm(strict), 1);
    expect(history.centreC[strict.pull.row]).toBe(pull.coldestC);
  });

  test('speaks US units in sentences and keeps numbers metric', () => {
    const us = planDocument(plan, { ...metric, units: 'us' });
    expect(us.warnings[0].text).toContain('°F');
    expect(us.safety.notes.join(' ')).not.toContain('°C');
    expect(us.stageLine).toMatch(/^counter 30min, oven 446F /);
    expect({ ...us, warnings: [], safety: {}, stageLine: '' }).toEqual({
      ...planDocument(plan, metric),
      warnings: [],
      safety: {},
      stageLine: '',
    });
  });

  test('stays below 500 kB however long the cook: thinned, with its moments kept', () => {
    const long = planCook(
      tenderloin({ massKg: 6 }),
      {
        ...usual,
        heat: waterBath({ bathC: 60, until: untilPulled }),
        pull: { minutes: 23 * 60 },
        portionKg: 0.03,
      },
      { ...COARSE, stations: 40 },
    );
    expect(long.history.rows).toBeGreaterThan(4000);
    const thinned = planDocument(long, metric);
    expect(thinned.slices).toHaveLength(200);
    expect(thinned.history.minutes.length).toBeLessThanOrEqual(2000 + 2 * 3 + 2);
    expect(JSON.stringify(thinned).length).toBeLessThan(500_000);
    expect(thinned.history.minutes).toContain(thinned.pull.atMinutes);
    expect(thinned.history.minutes).toContain(thinned.peak.minutes);
    expect(complaints(thinned)).toEqual([]);
  });

  test('never carries a number that is none', () => {
    const broken = { ...plan, peak: { ...plan.peak, riseC: Number.POSITIVE_INFINITY } };
    expect(() => planDocument(broken, metric)).toThrow(/not a number/);
    expect(() => planDocument(broken, metric)).toThrow('riseC');
  });
});

/** Every number of a document with the field it stands in. */
function* numbersOf(data: unknown, field = ''): Generator<readonly [field: string, value: number]> {
  if (typeof data === 'number') yield [field, data];
  else if (typeof data === 'object' && data !== null) {
    for (const [key, value] of Object.entries(data)) {
      yield* numbersOf(value, Array.isArray(data) ? field : key);
    }
  }
}

/** What a random plan is made of, in plain numbers and words so that a counterexample can be read. */
interface Wish {
  readonly cut: 'whole' | 'centre' | 'butt' | 'tail' | 'other';
  readonly massKg: number;
  /** Only of a roast that is no tenderloin; a weight would be one figure too many. */
  readonly lengthMm: number;
  readonly diameterMm: number;
  readonly tied: boolean;
  readonly intact: boolean;
  readonly startC: number;
  readonly temperMinutes: number;
  readonly sear: 'none' | 'pan' | 'oven';
  readonly searLast: boolean;
  readonly ovenC: number;
  readonly fan: boolean;
  readonly restMinutes: number;
  readonly pull: { readonly centreC: number } | { readonly minutes: number } | null;
  readonly at: 'middle' | 'thick' | 'thin';
  readonly scale: keyof typeof SCALES;
  readonly portionKg: number;
  readonly units: UnitSystem;
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const wishes: fc.Arbitrary<Wish> = fc.record({
  cut: fc.constantFrom('whole', 'centre', 'butt', 'tail', 'other'),
  massKg: between(0.4, 4),
  lengthMm: between(100, 700),
  diameterMm: between(50, 110),
  tied: fc.boolean(),
  intact: fc.boolean(),
  startC: between(-1.5, 15),
  temperMinutes: fc.integer({ min: 0, max: 90 }),
  sear: fc.constantFrom('none', 'pan', 'oven'),
  searLast: fc.boolean(),
  ovenC: fc.integer({ min: 90, max: 300 }),
  fan: fc.boolean(),
  restMinutes: fc.integer({ min: 0, max: 40 }),
  pull: fc.oneof(
    fc.constant(null),
    fc.record({ centreC: fc.integer({ min: 35, max: 70 }) }),
    fc.record({ minutes: fc.integer({ min: 5, max: 120 }) }),
  ),
  at: fc.constantFrom('middle', 'thick', 'thin'),
  scale: fc.constantFrom('kitchen', 'amsa'),
  portionKg: between(0.1, 0.5),
  units: fc.constantFrom('metric', 'us'),
});

/** The plan of a wish; nothing where the library refuses it. */
function planned(wish: Wish): Plan | undefined {
  const { cut, massKg, lengthMm, diameterMm, tied, intact, startC } = wish;
  const sear = { none: [], pan: [searInPan()], oven: [searInOven({ minutes: 5 })] }[wish.sear];
  const options = { tied, intact, startC };
  try {
    return planCook(
      cut === 'other'
        ? roundRoast({ ...options, lengthMm, diameters: [{ sizeMm: diameterMm }] })
        : tenderloin({ ...options, massKg, cut }),
      {
        before: [temper({ minutes: wish.temperMinutes }), ...(wish.searLast ? [] : sear)],
        heat: roastIn({ ovenC: wish.ovenC, fan: wish.fan, until: untilPulled }),
        after: [...(wish.searLast ? sear : []), rest({ minutes: wish.restMinutes })],
        aim: { scale: SCALES[wish.scale], at: wish.at },
        portionKg: wish.portionKg,
        ...(wish.pull === null ? {} : { pull: wish.pull }),
      },
      COARSE,
    );
  } catch (error) {
    if (error instanceof RoastError && REFUSALS.has(error.code)) return undefined;
    throw error;
  }
}

const REFUSALS: ReadonlySet<string> = new Set(['unreachable', 'unsafe']);

test('any plan gives finite, rounded numbers that the schema accepts', () => {
  fc.assert(
    fc.property(wishes, (wish) => {
      const plan = planned(wish);
      fc.pre(plan !== undefined);
      const document = planDocument(plan as Plan, { ...metric, units: wish.units });
      for (const [field, value] of numbersOf(document)) {
        expect(Number.isFinite(value), field).toBe(true);
        expect(value, field).toBe(Number(value.toFixed(4)));
      }
      expect(complaints(document)).toEqual([]);
    }),
    { numRuns: 25 },
  );
});
