import {
  type Candidate,
  type Order,
  type OrderCut,
  type OrderRequest,
  type Prices,
  planOrder,
  RoastError,
  roastIn,
  SCALES,
  sayRecommendation,
  USUAL_COOK,
} from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DERIVED_LOSS } from '../../packages/cli/src/check/losses.js';
import { decimal } from '../support/anyCook.js';

const LB_KG = 0.45359237;

const of = (order: Order, cut: OrderCut): Candidate => {
  const found = order.candidates.find((each) => each.cut === cut);
  if (found === undefined) throw new Error(`no ${cut}`);
  return found;
};

const prices: Prices = {
  currency: 'EUR',
  perKg: { centre: 72, butt: 60, whole: 52, untrimmed: 34 },
};

// Common practice, no source: about 1.5 lb for three.
test('three guests take about a pound and a half', () => {
  for (const cut of ['centre', 'butt'] as const) {
    expect(of(planOrder({ guests: 3, units: 'us' }), cut).askKg / LB_KG).toBeCloseTo(1.5, 6);
  }
  expect(of(planOrder({ guests: 3 }), 'centre').askKg).toBeCloseTo(0.7, 9);
});

// Common practice, no source: a butt end of 2 to 2.5 lb gives 4 to 5 portions of 8 oz.
test.each([
  [4, 2],
  [5, 2.5],
])('%i guests take a butt end of %f lb', (guests, massLb) => {
  const butt = of(planOrder({ guests, units: 'us' }), 'butt');
  expect(butt.piecesKg).toEqual([expect.closeTo(massLb * LB_KG, 9)]);
  expect(butt.portions).toBe(guests);
});

// Derived from USDA compositions (data/published/yields.json): 79 to 80 % of a tenderloin roast taken out at about 60 °C are left.
// Aimed at medium-well at 425 °F, the pull is at 59 to 60 °C; the model keeps 1 to 3 points more.
test('what is served is near the published yield', () => {
  const cook = {
    ...USUAL_COOK,
    heat: roastIn({ ovenC: 218.3, until: { minutes: 0 } }),
    aim: { doneness: 'medium-well' },
  };
  const { candidates } = planOrder({ guests: 8, cook });
  const published = 1 - (DERIVED_LOSS.low + DERIVED_LOSS.high) / 2;
  for (const { cut, servedKg, trimmedKg } of candidates) {
    if (cut === 'butt') continue; // its loss is shown in docs/ordering.md: no published figure is for one
    const more = servedKg / trimmedKg - published;
    expect(more).toBeGreaterThan(0.01);
    expect(more).toBeLessThan(0.03);
  }
});

const RUNS = 6; // each is some ten cooks

describe('laws', { timeout: 60_000 }, () => {
  const requests: fc.Arbitrary<OrderRequest> = fc.record({
    guests: fc.integer({ min: 1, max: 40 }),
    children: fc.array(decimal(0.1, 1), { maxLength: 5 }),
    portionKg: decimal(0.15, 0.35),
    leftoversKg: fc.constantFrom(0, 0.06, 0.11),
    units: fc.constantFrom('metric', 'us'),
  });

  test('enough is on the plates and left over, and the weights add up', () => {
    fc.assert(
      fc.property(requests, (request) => {
        const { need, candidates } = planOrder(request);
        for (const each of candidates) {
          const cookedPlatesKg = need.platesKg * (1 - each.lossFraction);
          expect(each.servedKg).toBeGreaterThanOrEqual(
            0.995 * (cookedPlatesKg + need.leftoversKg) - 1e-9,
          );
          expect(each.servedKg).toBeCloseTo(each.trimmedKg * (1 - each.lossFraction), 9);
          const offKg = each.comesOff.reduce((sum, { massKg }) => sum + massKg, 0);
          expect(each.trimmedKg + offKg).toBeCloseTo(each.askKg, 9);
          expect(each.piecesKg.reduce((sum, kg) => sum + kg, 0)).toBeCloseTo(each.askKg, 9);
          expect(each.evenness.inBand).toBeLessThanOrEqual(each.evenness.slices);
        }
      }),
      { numRuns: RUNS },
    );
  });

  test('one guest more never takes less', () => {
    fc.assert(
      fc.property(requests, (request) => {
        const now = planOrder(request);
        const more = planOrder({ ...request, guests: request.guests + 1 });
        for (const { cut, askKg } of now.candidates) {
          expect(of(more, cut).askKg).toBeGreaterThanOrEqual(askKg - 1e-9);
        }
      }),
      { numRuns: RUNS },
    );
  });

  test('cost goes with the price and with the weight', () => {
    fc.assert(
      fc.property(requests, decimal(0.1, 10), (request, factor) => {
        const once = planOrder({ ...request, prices });
        const perKg = Object.fromEntries(
          Object.entries(prices.perKg).map(([cut, price]) => [cut, factor * price]),
        );
        const dearer = planOrder({ ...request, prices: { ...prices, perKg } });
        for (const { cut, cost, askKg, trimmedKg } of once.candidates) {
          const price = prices.perKg[cut] ?? Number.NaN;
          expect(cost?.total).toBeCloseTo(price * askKg, 6);
          expect(cost?.perPortion).toBeCloseTo(
            (price * askKg * once.need.portionKg) / trimmedKg,
            6,
          );
          expect(of(dearer, cut).cost?.total).toBeCloseTo(factor * price * askKg, 6);
        }
        expect(dearer.recommendation.cut).toBe(once.recommendation.cut);
      }),
      { numRuns: RUNS },
    );
  });
});

describe('the recommendation', () => {
  const money = (amount: number): string => `€${amount.toFixed(2)}`;

  test('is the nearest to what all guests want', () => {
    const order = planOrder({ guests: 8 });
    expect(order.recommendation).toEqual({ cut: 'centre', code: 'nearest' });
    const misses = order.candidates.map(({ evenness }) => evenness.missK);
    expect(Math.min(...misses)).toBe(of(order, 'centre').evenness.missK);
  });

  test('says what a cheaper one would save', () => {
    const order = planOrder({ guests: 8, prices });
    expect(order.recommendation).toMatchObject({ cut: 'centre', cheaper: { cut: 'untrimmed' } });
    const saves =
      (of(order, 'centre').cost?.total ?? 0) - (of(order, 'untrimmed').cost?.total ?? 0);
    expect(sayRecommendation(order, 'metric', money)).toContain(
      `cleaned at home would save ${money(saves)}.`,
    );
  });

  test('is the cheapest of those that come out about as near', () => {
    const gentle = { ...USUAL_COOK, heat: roastIn({ ovenC: 120, until: { minutes: 0 } }) };
    const dear = { currency: 'EUR', perKg: { centre: 90, butt: 40, whole: 60, untrimmed: 45 } };
    const order = planOrder({ guests: 8, cook: gentle, prices: dear });
    expect(order.recommendation).toEqual({ cut: 'butt', code: 'cheapest-as-near' });
  });

  test('for guests who want different things meets as many wishes as any', () => {
    const order = planOrder({
      guests: 8,
      wishes: [
        { band: 'medium-well', count: 2 },
        { band: 'medium', count: 3 },
        { band: 'Medium Rare', count: 3 },
      ],
    });
    expect(order.recommendation.code).toBe('meets-wishes');
    expect(order.wishes.map(({ band }) => band)).toEqual(['medium-rare', 'medium', 'medium-well']);
    expect(order.cook.aim?.doneness).toBe('medium-rare'); // of two equally common the rarer
    const met = order.candidates.map(({ evenness }) => evenness.wishesMet);
    expect(of(order, order.recommendation.cut).evenness.wishesMet).toBe(Math.max(...met));
  });

  test('for guests whose wishes lie far apart takes a whole one, which is rarer at its thick end', () => {
    const order = planOrder({
      guests: 8,
      wishes: [
        { band: 'rare', count: 3 },
        { band: 'medium-rare', count: 4 },
        { band: 'medium-well', count: 1 },
      ],
    });
    expect(of(order, 'whole').evenness.wishesMet).toBeGreaterThan(
      of(order, 'centre').evenness.wishesMet,
    );
  });

  test('keeps to what the shop has', () => {
    const order = planOrder({ guests: 12, stockKg: [2.4, 2.6] });
    expect(order.candidates.map(({ inStock }) => inStock)).toEqual([false, false, true, false]);
    expect(order.recommendation).toEqual({ cut: 'whole', code: 'only-fit' });
    expect(of(order, 'whole').piecesKg).toEqual([2.6, 2.4]);
    expect(sayRecommendation(order, 'metric', money)).toContain('more than you need');
  });

  test('says when the shop has too little', () => {
    const order = planOrder({ guests: 40, stockKg: [2.4, 2.6] });
    expect(order.candidates.every(({ inStock }) => inStock === false)).toBe(true);
    expect(sayRecommendation(order, 'metric', money)).toMatch(
      /; what the shop has does not give it\.$/,
    );
  });

  test('does not press a second dinner on anybody', () => {
    // a whole one has at least 1.2 kg, and a butt end and a centre cut 0.4 kg
    const order = planOrder({
      guests: 2,
      wishes: [
        { band: 'rare', count: 1 },
        { band: 'medium-well', count: 1 },
      ],
    });
    expect(['centre', 'butt']).toContain(order.recommendation.cut);
  });
});

describe('what is refused', () => {
  test.each<[string, OrderRequest, string]>([
    ['an unknown band', { guests: 2, wishes: [{ band: 'purple', count: 2 }] }, 'unknown-name'],
    ['half a wish', { guests: 2, wishes: [{ band: 'rare', count: 0.5 }] }, 'out-of-range'],
    ['an empty stock', { guests: 2, stockKg: [] }, 'out-of-range'],
    ['a stock of oxen', { guests: 2, stockKg: [400] }, 'out-of-range'],
    ['a stock of nothing', { guests: 2, stockKg: [Number.NaN] }, 'not-a-number'],
    [
      'money back',
      { guests: 2, prices: { currency: 'EUR', perKg: { whole: -1 } } },
      'out-of-range',
    ],
    ['trim of all of it', { guests: 2, trims: { fat: 0.9 } }, 'out-of-range'],
    [
      'a band of another scale',
      {
        guests: 2,
        wishes: [{ band: 'very-well-done', count: 2 }],
        cook: { ...USUAL_COOK, aim: { scale: SCALES.kitchen } },
      },
      'unknown-name',
    ],
  ])('%s', (_what, request, code) => {
    expect(() => planOrder(request)).toThrow(RoastError);
    try {
      planOrder(request);
    } catch (error) {
      expect(error).toMatchObject({ code });
    }
  });
});
