import {
  type CookedWay,
  type CookWay,
  commonWays,
  compareWays,
  cutsOf,
  HANDS_ON_MINUTES,
  handsOnMinutes,
  planCook,
  RoastError,
  rest,
  roastIn,
  SCALES,
  searInPan,
  settleAim,
  simulate,
  temper,
  tenderloin,
  waterBath,
  winningWays,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';

const COARSE = { stations: 12, shells: 14 } as const; // laws and sums do not hang on the mesh
const whole = tenderloin({ massKg: 2.2 });
const until = { minutes: 0 };
const hot: CookWay = {
  name: 'hot',
  before: [temper({ minutes: 30 })],
  heat: roastIn({ ovenC: 230, until }),
  after: [rest({ minutes: 20 })],
};
const halves: CookWay = { ...hot, name: 'halves', pieces: 2 };
const cool: CookWay = { ...hot, name: 'cool', heat: waterBath({ bathC: 50, until }) };
const bath: CookWay = { ...hot, before: [], name: 'bath', heat: waterBath({ bathC: 57, until }) };

/** The ways, all of which must have come out. */
function cooked(ways: readonly CookWay[], ...more: [request?: object]): CookedWay[] {
  return compareWays(whole, ways, more[0] ?? {}, COARSE).map((way) => {
    if ('failure' in way) throw way.failure;
    return way;
  });
}

describe('ways side by side', () => {
  test('are the plans they would be alone', () => {
    const [way] = cooked([hot]);
    const { before, heat, after } = hot;
    const plan = planCook(whole, { before, heat, after }, COARSE);
    expect(way.pieces).toHaveLength(1);
    expect(way.pieces[0].plan.pull).toEqual(plan.pull);
    expect(way.figures.lossShare).toBeCloseTo(plan.loss.fraction, 12);
    expect(way.figures.rimMm).toBe(plan.slices[plan.aim.slice].rimMm);
    expect(way.figures.safety).toMatchObject({
      coldestC: plan.safety.coldestC,
      heatingMinutes: plan.safety.heatingMinutes,
      roomMinutes: plan.safety.roomMinutes,
    });
    expect(way.warnings).toEqual(plan.warnings);
  });

  test('count only what lies in the band aimed at as even', () => {
    // a sear cooks the end slices far past the band; their own band would still call them even
    const [way] = cooked([hot]);
    const { slices, aim } = way.pieces[0].plan;
    expect(way.figures.aimedFaceShare).toBeCloseTo(slices[aim.slice].evenness, 9);
    const own = slices.reduce((sum, { evenness }) => sum + evenness, 0) / slices.length;
    expect(way.figures.allFacesShare).toBeLessThan(own);
    const elsewhere = slices.filter(({ band }) => band !== aim.band.name);
    expect(elsewhere.length).toBeGreaterThan(0);
  });

  test('leave a way that cannot reach the aim to itself', () => {
    const compared = compareWays(whole, [cool, hot], {}, COARSE);
    const [first, second] = compared;
    expect('failure' in first && first.failure.code).toBe('unreachable');
    expect('figures' in second).toBe(true);
    expect(winningWays(compared)).toEqual({ fastest: 1, leastWork: 1, mostEven: 1, leastLoss: 1 });
    expect(winningWays(compareWays(whole, [cool, cool], {}, COARSE))).toBeUndefined();
  });

  test('refuse at once what no way can help', () => {
    const wrong = (request: object) => () => compareWays(whole, [hot], request, COARSE);
    expect(wrong({ aim: { doneness: 'blue' } })).toThrow(RoastError);
    expect(wrong({ aim: { doneness: 'rare' }, atRisk: true })).toThrow(/people at risk/);
  });

  test('keep the strict rules in every way and piece', () => {
    for (const { pieces, figures } of cooked(
      [hot, halves, { ...bath, heat: waterBath({ bathC: 65, until }) }],
      { atRisk: true },
    )) {
      expect(figures.safety.meetsWholeCutGuidance).toBe(true);
      expect(figures.safety.coldestC).toBeGreaterThanOrEqual(62.8 - 1e-4);
      for (const { plan } of pieces) expect(plan.aim.at).toBe('coldest');
    }
  });

  test('an oven of 230 °C is sooner and less even than a bath, which loses less', () => {
    const wins = winningWays(cooked([hot, bath]));
    expect(wins).toMatchObject({ fastest: 0, mostEven: 1, leastLoss: 1 });
  });
});

describe('two pieces', () => {
  const [one, two] = cooked([hot, halves]);

  test('are all of the roast, cut between two slices', () => {
    const [thick, thin] = two.pieces;
    const cuts = cutsOf(whole);
    expect(cuts.map(({ fromMm }) => fromMm)).toContain(thin.fromMm);
    expect(thick.toMm).toBe(thin.fromMm);
    const massKg = two.pieces.reduce((sum, { plan }) => sum + plan.roast.massKg, 0);
    expect(massKg).toBeCloseTo(2.2, 9);
    const slices = two.pieces.reduce((sum, { plan }) => sum + plan.slices.length, 0);
    expect(slices).toBe(one.pieces[0].plan.slices.length);
  });

  test('each meet the aim in their own middle', () => {
    for (const { plan } of two.pieces) expect(plan.peak.centreC).toBeCloseTo(56, 1);
    const [thick, thin] = two.pieces;
    expect(thin.plan.pull.minutes).toBeLessThan(thick.plan.pull.minutes);
  });

  test('stand for the worse of both, and the first waits for the other', () => {
    const ends = two.pieces.map(({ plan: { history } }) => history.seconds[history.rows - 1] / 60);
    const safety = two.pieces.map(({ plan }) => plan.safety);
    expect(two.figures.totalMinutes).toBe(Math.max(...ends));
    expect(two.figures.safety.coldestC).toBe(Math.min(...safety.map(({ coldestC }) => coldestC)));
    const waits = safety.map(({ roomMinutes }, i) => roomMinutes + Math.max(...ends) - ends[i]);
    expect(two.figures.safety.roomMinutes).toBeCloseTo(Math.max(...waits), 9);
  });

  test('are warned of when the wait is too long, and are tenderloin still', () => {
    const patient = { ...halves, before: [temper({ minutes: 110 })] };
    const [way] = cooked([patient]);
    expect(way.figures.safety.roomMinutes).toBeGreaterThan(120);
    expect(way.warnings.map(({ code }) => code)).toContain('room-time');
    expect(way.warnings.map(({ code }) => code)).not.toContain('not-tenderloin');
  });

  test('end a stage by their own thermometers', () => {
    const { point } = settleAim(whole, cutsOf(whole), {}, false);
    const byHand = { reachesC: 40, at: point };
    const [way] = cooked([{ ...halves, heat: roastIn({ ovenC: 230, until }), pull: byHand }]);
    for (const { plan } of way.pieces) expect(plan.pull.centreC).toBeCloseTo(40, 3);
  });

  test('need two portions', () => {
    const small = tenderloin({ massKg: 0.3, cut: 'tail' });
    const [way] = compareWays(small, [halves], { portionKg: 0.3 }, COARSE);
    expect('failure' in way && way.failure.message).toMatch(/one portion/);
  });
});

describe('the usual ways', () => {
  test.each(SCALES.kitchen.bands.map(({ name, targetC }) => [name, targetC] as const))(
    'all reach %s',
    (doneness, targetC) => {
      const ways = cooked(commonWays(targetC), { aim: { doneness } });
      expect(ways).toHaveLength(5);
      for (const { pieces } of ways) {
        for (const { plan } of pieces) expect(plan.peak.centreC).toBeCloseTo(targetC, 0);
      }
    },
  );

  test('have no bath below 54.4 °C, for which no safe time is published', () => {
    for (const targetC of [35, 47, 50, 54, 56, 61.3, 71, 85]) {
      for (const { heat } of commonWays(targetC)) {
        if (heat.kind !== 'bath') continue;
        expect(heat.bathC).toBeGreaterThanOrEqual(54.5);
        expect(heat.bathC).toBeGreaterThanOrEqual(targetC + 0.5);
        expect(heat.bathC % 0.5).toBe(0);
      }
    }
  });
});

describe('hands-on minutes', () => {
  const minutesOf = (...stages: Parameters<typeof simulate>[1]): number =>
    handsOnMinutes(simulate(whole, stages, COARSE).stages);
  const { counter, oven, bath: bagging, pan, rest: resting } = HANDS_ON_MINUTES;

  test('add up over the stages, by hand', () => {
    const looks = 3;
    expect(
      minutesOf(
        temper({ minutes: 30 }),
        roastIn({ ovenC: 120, until: { minutes: 95 } }),
        searInPan({ faces: 4, secondsPerFace: 60 }),
        rest({ minutes: 10 }),
      ),
    ).toBeCloseTo(counter + oven + 3 + looks + pan + 4 + resting, 6);
    expect(minutesOf(waterBath({ bathC: 56, until: { minutes: 60 } }))).toBeCloseTo(
      bagging + looks,
      6,
    );
  });

  test('are the same for another length of a stage nobody watches', () => {
    expect(minutesOf(temper({ minutes: 60 }))).toBe(minutesOf(temper({ minutes: 10 })));
  });

  test('are more with two pieces', () => {
    const { stages } = simulate(whole, [roastIn({ ovenC: 230, until: { minutes: 20 } })], COARSE);
    expect(handsOnMinutes(stages, 2)).toBe(
      handsOnMinutes(stages, 1) + HANDS_ON_MINUTES.cutInTwo + 3,
    );
  });
});

test('minutes that kill are those above 54.4 °C, and follow the bath', () => {
  const timed = (minutes: number): CookWay => ({ ...bath, pull: { minutes } });
  const [short, long, none] = cooked([timed(150), timed(180), { ...hot, pull: { minutes: 20 } }]);
  const { killingMinutes } = short.figures.safety;
  expect(killingMinutes).toBeGreaterThan(0);
  // the axis is above and stays there: half an hour more of bath is half an hour more
  expect(long.figures.safety.killingMinutes - killingMinutes).toBeCloseTo(30, 0);
  expect(none.figures.safety.killingMinutes).toBe(0);
});
