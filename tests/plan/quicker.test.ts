import {
  aimedSlice,
  CARVING_MINUTES,
  DEFAULT_STATIONS,
  offerQuicker,
  type Plan,
  type PlanRequest,
  planCook,
  type QuickerPlan,
  quickerPlans,
  type Roast,
  rest,
  roastIn,
  searInPan,
  servingMinutes,
  stepsOf,
  temper,
  tenderloin,
  waterBath,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';

const pulled = { minutes: 0 }; // replaced by the pull
const oven = (ovenC: number): PlanRequest['heat'] => roastIn({ ovenC, until: pulled });
const whole = tenderloin({ massKg: 2.2 });
const centre = tenderloin({ massKg: 1.1, cut: 'centre' });
const usual: PlanRequest = {
  before: [temper({ minutes: 30 })],
  heat: oven(230),
  after: [rest({ minutes: 20 })],
};
const lengthOf = (plan: Plan): number => servingMinutes(plan) - stepsOf(plan)[0].atMinutes;
const restOf = ({ history }: Plan): number => {
  const last = history.stages[history.stages.length - 1];
  return last.stage.kind === 'rest' ? (last.endS - last.startS) / 60 : 0;
};
const waysOf = (found: readonly QuickerPlan[]): string[] => found.map(({ ways }) => ways.join('+'));

interface Case {
  readonly name: string;
  readonly roast?: Roast;
  readonly request?: Partial<PlanRequest>;
}

const cases: readonly Case[] = [
  { name: 'the usual plan' },
  { name: 'a cool oven', request: { heat: oven(110), before: [temper({ minutes: 90 })] } },
  {
    name: 'a sear last',
    request: { heat: oven(120), after: [searInPan(), rest({ minutes: 40 })] },
  },
  { name: 'strict rules', roast: tenderloin({ massKg: 2.2, intact: false }) },
  { name: 'people at risk', request: { atRisk: true, heat: oven(160) } },
  { name: 'well-done', request: { aim: { doneness: 'well-done' }, heat: oven(150) } },
  {
    name: 'a fan',
    roast: centre,
    request: { heat: roastIn({ ovenC: 150, fan: true, until: pulled }) },
  },
  { name: 'a pull that is given', request: { pull: { centreC: 45 } } },
];

describe('every quicker way', () => {
  test.each(cases)(
    'of $name meets the aim and every limit on the full mesh',
    ({ roast = whole, request = {} }) => {
      const asked = { ...usual, ...request };
      const slow = planCook(roast, asked);
      const found = quickerPlans(roast, asked);
      expect(found.length).toBeGreaterThan(0);
      // the quickest and the mildest of them; all would take long
      for (const { request: quick, ways } of [found[0], found[found.length - 1]]) {
        const plan = planCook(roast, quick);
        const { safety, peak, aim } = plan;
        const wishedC = asked.pull === undefined ? aim.targetC : slow.peak.centreC;
        expect(peak.centreC).toBeGreaterThan(wishedC - 0.5);
        if (aim.at !== 'coldest') {
          expect(peak.centreC).toBeLessThan(wishedC + 0.5);
          // it goes on climbing on the board: 2.5 min until half is carved; 0.1 K for the coarse mesh of the scan
          const past = peak.centreC - wishedC + 2.5 * Math.max(0, peak.endingKPerMinute);
          const askedPast = 2.5 * Math.max(0, slow.peak.endingKPerMinute);
          expect(past).toBeLessThan(Math.max(0.5, askedPast + 0.2) + 0.1);
        }
        expect(lengthOf(plan)).toBeLessThan(lengthOf(slow));
        expect(safety.roomMinutes + CARVING_MINUTES).toBeLessThanOrEqual(safety.roomLimitMinutes);
        expect(safety.heatingMinutes).toBeLessThanOrEqual(safety.heatingLimitMinutes);
        expect(safety.meetsWholeCutGuidance || !slow.safety.meetsWholeCutGuidance).toBe(true);
        expect(safety.logReduction).toBeGreaterThan(slow.safety.logReduction - 0.6);
        expect(restOf(plan)).toBeGreaterThanOrEqual(3);
        expect(ways.length).toBeGreaterThan(0);
        expect(plan.warnings.map(({ code }) => code)).not.toContain('hot-oven');
      }
    },
  );

  test('stands in order of its minutes', () => {
    const lengths = quickerPlans(whole, { ...usual, heat: oven(120) }).map(({ lengthMinutes }) =>
      Math.ceil(lengthMinutes),
    );
    expect(lengths).toEqual([...lengths].sort((a, b) => a - b));
  });

  test('waits on the counter no longer than the oven needs, and not at all for a cold one', () => {
    const [mildest] = quickerPlans(whole, usual).filter(({ ways }) => ways.length === 1);
    expect(mildest.ways).toEqual(['shorter-temper']);
    expect(stepsOf(mildest.plan).slice(0, 2)).toMatchObject([
      { kind: 'take-out', atMinutes: 0 },
      { kind: 'oven-on', atMinutes: 0 },
    ]);
    const cold = quickerPlans(whole, {
      ...usual,
      heat: roastIn({ ovenC: 230, start: 'cold', until: pulled }),
    });
    for (const { request } of cold) expect(request.before[0]?.kind).not.toBe('temper');
  });

  test('sears once', () => {
    const seared = { ...usual, before: [temper({ minutes: 30 }), searInPan()] };
    expect(waysOf(quickerPlans(whole, seared)).join()).not.toContain('sear-first');
    expect(waysOf(quickerPlans(whole, usual)).join()).toContain('sear-first');
  });

  test('takes an oven in place of a bath only where the bath kills no more', () => {
    const bathed: PlanRequest = {
      ...usual,
      heat: waterBath({ bathC: 58, until: pulled }),
      aim: { doneness: 57.5 },
      after: [searInPan(), rest({ minutes: 10 })],
    };
    expect(planCook(centre, bathed).safety.logReduction).toBeLessThan(0.5);
    expect(waysOf(quickerPlans(centre, bathed)).join()).toContain('oven-instead');
    const hours: PlanRequest = { ...bathed, pull: { minutes: 240 } };
    expect(planCook(centre, hours).safety.logReductionCapped).toBe(true);
    expect(waysOf(quickerPlans(centre, hours)).join()).not.toContain('oven-instead');
  });

  test('there is none for a plan that hurries already', () => {
    const hurried: PlanRequest = {
      before: [searInPan()],
      heat: oven(250),
      after: [rest({ minutes: 3 })],
    };
    expect(quickerPlans(whole, hurried)).toEqual([]);
    expect(offerQuicker(planCook(whole, hurried), hurried, 10)).toEqual({});
  });
});

describe('the offer', () => {
  const request = { ...usual, heat: oven(120) };
  const asked = planCook(whole, request);
  const length = lengthOf(asked);

  test('is the least change that is in time, and the quickest', () => {
    const { gentlest, quickest } = offerQuicker(asked, request, length - 10);
    expect(quickest?.lengthMinutes).toBeLessThan(gentlest?.lengthMinutes ?? 0);
    expect(gentlest?.lengthMinutes).toBeLessThanOrEqual(length - 10);
    const evenness = (offer: QuickerPlan | undefined): number =>
      offer === undefined ? Number.NaN : aimedSlice(offer.plan).evenness;
    expect(evenness(gentlest)).toBeGreaterThan(evenness(quickest));
    expect(quickest?.plan.history.body.body.stations).toBe(DEFAULT_STATIONS);
  });

  test('is the quickest alone when that is late too', () => {
    const { gentlest, quickest } = offerQuicker(asked, request, 20);
    expect(gentlest).toBeUndefined();
    expect(quickest?.lengthMinutes).toBeGreaterThan(20);
  });
});
