import {
  bathLeadMinutes,
  CARVING_MINUTES,
  ovenLeadMinutes,
  type Plan,
  type PlanRequest,
  planCook,
  type Roast,
  RoastError,
  rest,
  roastIn,
  searInOven,
  searInPan,
  servingMinutes,
  stepsOf,
  type TimedStep,
  temper,
  tenderloin,
  timetable,
  waterBath,
} from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { anyRecipe, roastOf } from '../support/anyCook.js';

const COARSE = { stations: 8, shells: 12 } as const; // the order of steps does not depend on the mesh
const pulled = { minutes: 0 }; // replaced by the pull
const whole = tenderloin({ massKg: 2.2 });
const usual: PlanRequest = {
  before: [temper({ minutes: 30 })],
  heat: roastIn({ ovenC: 230, until: pulled }),
  after: [rest({ minutes: 20 })],
};
const planOf = (change: Partial<PlanRequest> = {}, roast: Roast = whole): Plan =>
  planCook(roast, { ...usual, ...change }, COARSE);
const kinds = (plan: Plan): string[] => stepsOf(plan).map(({ kind }) => kind);
const stepOf = (plan: Plan, kind: TimedStep['kind']): TimedStep => {
  const found = timetable(plan, COARSE).steps.find((step) => step.kind === kind);
  if (found === undefined) throw new Error(`no step ${kind}`);
  return found;
};

describe('the steps', () => {
  test('of the usual plan, from the refrigerator to the plates', () => {
    expect(kinds(planOf())).toEqual([
      'take-out',
      'oven-on',
      'into-oven',
      'wash',
      'first-look',
      'pull',
      'check',
      'check',
      'carve',
      'serve',
    ]);
  });

  test('name what has to be switched on, before it is needed, and once', () => {
    const seared = planOf({ before: [temper({ minutes: 30 }), searInPan()] });
    const at = (kind: string): number =>
      stepsOf(seared).find((step) => step.kind === kind)?.atMinutes ?? Number.NaN;
    expect(at('sear')).toBe(30);
    expect(at('pan-on')).toBe(25);
    expect(at('into-oven')).toBeCloseTo(36, 9);
    expect(at('oven-on')).toBeCloseTo(11, 9);
    expect(at('wash')).toBe(at('into-oven')); // after the pan, which the raw meat touched

    expect(
      kinds(planOf({ heat: roastIn({ ovenC: 180, start: 'cold', until: pulled }) })),
    ).not.toContain('oven-on');
    const browned = planOf({
      before: [searInOven({ minutes: 6 })],
      heat: roastIn({ ovenC: 120, until: pulled }),
    });
    const on = stepsOf(browned).filter(({ kind }) => kind === 'oven-on');
    expect(on).toEqual([{ kind: 'oven-on', atMinutes: -25, index: 0 }]);
  });

  test('an oven without a wait on the counter is switched on before the refrigerator is opened', () => {
    const [first] = stepsOf(planOf({ before: [] }));
    expect(first).toMatchObject({ kind: 'oven-on', atMinutes: -ovenLeadMinutes(230) });
  });

  test('of a bath with a sear last', () => {
    const plan = planOf({
      heat: waterBath({ bathC: 58, until: pulled }),
      aim: { doneness: 57 },
      after: [searInPan(), rest({ minutes: 10 })],
    });
    expect(kinds(plan)).toEqual([
      'take-out',
      'bath-on',
      'into-bath',
      'wash',
      'first-look',
      'pan-on',
      'pull',
      'rest',
      'check',
      'check',
      'carve',
      'serve',
    ]);
    expect(stepsOf(plan)[1].atMinutes).toBe(30 - bathLeadMinutes(58));
  });

  test('leads grow with the heat', () => {
    const leads = [60, 120, 180, 210, 230, 320].map(ovenLeadMinutes);
    expect(leads).toEqual([10, 10, 15, 20, 25, 25]);
    // ten litres by 38 K with 1 kW: 10 kg x 4190 J/(kg K) x 38 K / 1000 W = 1592 s, by hand
    expect(bathLeadMinutes(58)).toBe(5 * Math.ceil(1592 / 300));
    expect(bathLeadMinutes(20)).toBe(0);
  });
});

const anyRequest: fc.Arbitrary<PlanRequest> = fc
  .record({
    wait: fc.integer({ min: 0, max: 150 }),
    sear: fc.constantFrom('none', 'first', 'last', 'oven'),
    ovenC: fc.integer({ min: 80, max: 260 }),
    start: fc.constantFrom('preheated', 'cold'),
    bath: fc.boolean(),
    restMinutes: fc.integer({ min: 0, max: 60 }),
  })
  .map(({ wait, sear, ovenC, start, bath, restMinutes }) => ({
    before: [
      ...(wait > 0 ? [temper({ minutes: wait })] : []),
      ...(sear === 'first' ? [searInPan()] : sear === 'oven' ? [searInOven()] : []),
    ],
    heat: bath ? waterBath({ bathC: 60, until: pulled }) : roastIn({ ovenC, start, until: pulled }),
    after: [
      ...(sear === 'last' ? [searInPan()] : []),
      ...(restMinutes > 0 ? [rest({ minutes: restMinutes })] : []),
    ],
  }));

test('law: steps are in order, end with the plates, and each may slip by more than nothing', () => {
  fc.assert(
    fc.property(anyRecipe, anyRequest, (recipe, request) => {
      let plan: Plan;
      try {
        plan = planCook(roastOf(recipe), request, COARSE);
      } catch (error) {
        if (error instanceof RoastError && error.code === 'unreachable') return;
        throw error;
      }
      const { steps, lengthMinutes } = timetable(plan, COARSE);
      const end = plan.history.seconds[plan.history.rows - 1] / 60;
      expect(servingMinutes(plan)).toBeCloseTo(end + CARVING_MINUTES, 9);
      expect(steps[steps.length - 1]).toMatchObject({ kind: 'serve', beforeServingMinutes: 0 });
      expect(steps[steps.length - 2]).toMatchObject({ kind: 'carve' });
      expect(steps[0].beforeServingMinutes).toBe(lengthMinutes);
      for (const [i, step] of steps.entries()) {
        expect(step.atMinutes + step.beforeServingMinutes).toBeCloseTo(servingMinutes(plan), 9);
        expect(step.toleranceMinutes).toBeGreaterThan(0);
        expect(step.toleranceMinutes).toBeLessThanOrEqual(30);
        if (i > 0) expect(step.atMinutes).toBeGreaterThanOrEqual(steps[i - 1].atMinutes);
      }
      const order = steps.map(({ kind }) => kind);
      expect(order.filter((kind) => kind === 'take-out')).toHaveLength(1);
      expect(order.indexOf('wash')).toBeLessThan(order.indexOf('pull'));
    }),
    { numRuns: 60 },
  );
});

describe('the slack', () => {
  const full = planCook(whole, usual);
  const { steps } = timetable(full);
  const slack = (kind: TimedStep['kind']): number =>
    steps.find((step) => step.kind === kind)?.toleranceMinutes ?? Number.NaN;

  test('of the refrigerator: so much more time on the counter moves the pull by 2 min at most', () => {
    const slipped = planCook(whole, {
      ...usual,
      before: [temper({ minutes: 30 + slack('take-out') })],
    });
    expect(Math.abs(slipped.pull.heatMinutes - full.pull.heatMinutes)).toBeLessThan(2.2);
  });

  test('of the refrigerator is less for a cool oven, and no stricter than it need be', () => {
    const cool = { ...usual, heat: roastIn({ ovenC: 110, until: pulled }) };
    const request = { ...cool, before: [temper({ minutes: 60 })] };
    const plan = planCook(whole, request);
    const { toleranceMinutes } = timetable(plan).steps[0];
    expect(toleranceMinutes).toBeLessThan(30);
    for (const minutes of [60 - toleranceMinutes, 60 + toleranceMinutes]) {
      const slipped = planCook(whole, { ...request, before: [temper({ minutes })] });
      const moved = Math.abs(slipped.pull.heatMinutes - plan.pull.heatMinutes);
      expect(moved).toBeLessThan(2.6);
      expect(moved).toBeGreaterThan(1);
    }
  });

  test('of the pull: so much earlier or later the peak moves by about a kelvin at most', () => {
    for (const sign of [-1, 1]) {
      const slipped = planCook(whole, {
        ...usual,
        pull: { minutes: full.pull.heatMinutes + sign * slack('pull') },
      });
      expect(Math.abs(slipped.peak.centreC - full.peak.centreC)).toBeLessThan(1.2);
    }
  });

  test('of the pull grows as the heat gets milder', () => {
    const mild = planOf({ heat: roastIn({ ovenC: 120, until: pulled }) });
    expect(stepOf(mild, 'pull').toleranceMinutes).toBeGreaterThan(2 * slack('pull'));
  });

  test('of the rest: carved so much later the centre is where it was', () => {
    const longer = planCook(whole, {
      ...usual,
      pull: { minutes: full.pull.heatMinutes },
      after: [rest({ minutes: 20 + slack('carve') })],
    });
    expect(longer.peak.centreC - full.peak.centreC).toBeLessThan(1);
  });

  test('ends where the time at room temperature does', () => {
    const tight = planOf({ before: [temper({ minutes: 108 })] });
    const { roomMinutes, roomLimitMinutes } = tight.safety;
    const left = roomLimitMinutes - roomMinutes - CARVING_MINUTES;
    expect(left).toBeGreaterThan(1);
    const { toleranceMinutes, toleranceFrom } = stepOf(tight, 'take-out');
    expect(toleranceFrom).toBe('limit');
    expect(toleranceMinutes).toBeLessThanOrEqual(left);
  });

  test('of a roast nobody tempers is judged, and says so', () => {
    expect(stepOf(planOf({ before: [] }), 'take-out').toleranceFrom).toBe('judgement');
    expect(stepOf(planOf(), 'oven-on').toleranceFrom).toBe('judgement');
  });
});

test('how far behind says nothing where a given pull misses the aim', () => {
  expect(planOf().putBack).toBeDefined();
  for (const minutes of [10, 60]) {
    const plan = planOf({ pull: { minutes } });
    expect(Math.abs(plan.peak.centreC - plan.aim.targetC)).toBeGreaterThan(3);
    expect(plan.putBack).toBeUndefined();
  }
});
