import {
  decimalReductionMinutes,
  inAir,
  judgeSafety,
  LETHALITY,
  leastLogReduction,
  rest,
  roastIn,
  SAFETY_LIMITS,
  type Safety,
  type Stage,
  searInPan,
  temper,
  tenderloin,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { type ScriptedRow, STATIONS, scripted } from '../support/scripted.js';

// The rules of docs/model.md on histories written by hand, so that every expected number is worked out in the test.

const roast = tenderloin({ massKg: 1.1, cut: 'centre' });
const OVEN = roastIn({ ovenC: 200, until: { minutes: 60 } });
const REST = rest({ minutes: 20 });
const PAN = searInPan({ panC: 230 });

const context = (pullRow: number, peakRow = pullRow) => ({ pullRow, peakRow, atRisk: false });

/** Oven from row 0 to 1, rest to row 2. */
function plain(atPullC: number, atEndC: number, restMinutes = 20): Safety {
  const rows: readonly ScriptedRow[] = [
    [0, 4],
    [60, atPullC],
    [60 + restMinutes, atEndC],
  ];
  return judgeSafety(
    scripted(roast, rows, [
      [OVEN, 0, 1],
      [REST, 1, 2],
    ]),
    context(1, 2),
  );
}

describe('the guidance for whole cuts: 62.8 °C before the heat ends, then three minutes of rest', () => {
  test.each([
    ['just there', 62.8, 20, true],
    ['there to the accuracy of a crossing', 62.8 - 0.9e-5, 20, true],
    ['a hair below', 62.79, 20, false],
    ['there, three minutes of rest', 63, 3, true],
    ['there, a second less of rest', 63, 3 - 1 / 60, false],
  ])('%s', (_what, atPullC, restMinutes, meets) => {
    expect(plain(atPullC, 70, restMinutes).meetsWholeCutGuidance).toBe(meets);
  });

  test('what the rest adds is carryover and does not count', () => {
    expect(plain(60, 75).meetsWholeCutGuidance).toBe(false);
  });

  test('the coldest station decides, and its own peak is told', () => {
    const but = (coldC: number, others: number): number[] =>
      Array.from({ length: STATIONS }, (_, i) => (i === 5 ? coldC : others));
    const rows: readonly ScriptedRow[] = [
      [0, 4],
      [60, but(60, 70)],
      [70, but(66, 80)],
      [80, but(65, 75)],
    ];
    const stages = [
      [OVEN, 0, 1],
      [REST, 1, 3],
    ] as const;
    const safety = judgeSafety(scripted(roast, rows, stages), context(1, 2));
    expect(safety.meetsWholeCutGuidance).toBe(false);
    expect(safety.coldestC).toBe(60);
    expect(safety.coldestPeakC).toBe(66);
  });

  /** Heat after the pull is predicted, not measured: it counts three kelvins lower. */
  test.each([
    [65.81, true],
    [65.79, false],
  ])('a sear after the pull that brings the axis to %f °C', (afterSearC, meets) => {
    const rows: readonly ScriptedRow[] = [
      [0, 4],
      [60, 55],
      [64, afterSearC],
      [84, 60],
    ];
    const stages = [
      [OVEN, 0, 1],
      [PAN, 1, 2],
      [REST, 2, 3],
    ] as const;
    expect(judgeSafety(scripted(roast, rows, stages), context(1)).meetsWholeCutGuidance).toBe(
      meets,
    );
  });

  test('a sear after the pull takes nothing away from what the pull had', () => {
    const rows: readonly ScriptedRow[] = [
      [0, 4],
      [60, 63],
      [64, 63.5],
      [84, 60],
    ];
    const stages = [
      [OVEN, 0, 1],
      [PAN, 1, 2],
      [REST, 2, 3],
    ] as const;
    expect(judgeSafety(scripted(roast, rows, stages), context(1)).meetsWholeCutGuidance).toBe(true);
  });

  test('the rest is all that follows the heat, in parts too', () => {
    const rows: readonly ScriptedRow[] = [
      [0, 4],
      [60, 63],
      [62, 63],
      [64, 63],
    ];
    const stages = [
      [OVEN, 0, 1],
      [REST, 1, 2],
      [REST, 2, 3],
    ] as const;
    expect(judgeSafety(scripted(roast, rows, stages), context(1)).meetsWholeCutGuidance).toBe(true);
  });

  test('without heat nothing meets it', () => {
    const rows: readonly ScriptedRow[] = [
      [0, 70],
      [60, 70],
      [80, 70],
    ];
    const stages = [
      [temper({ minutes: 60 }), 0, 1],
      [REST, 1, 2],
    ] as const;
    expect(judgeSafety(scripted(roast, rows, stages), context(1)).meetsWholeCutGuidance).toBe(
      false,
    );
  });
});

describe('time at room temperature', () => {
  const rows: readonly ScriptedRow[] = [
    [0, 4],
    [30, 8],
    [45, 10],
    [100, 50],
    [110, 54],
    [160, 50],
  ];
  const stages = (roomC: number, restRoomC = 21) =>
    [
      [temper({ minutes: 30, roomC }), 0, 1],
      [temper({ minutes: 15, roomC }), 1, 2],
      [OVEN, 2, 3],
      [rest({ minutes: 60, roomC: restRoomC }), 3, 5],
    ] as const;

  test('is the wait before the heat and what comes after the peak', () => {
    const safety = judgeSafety(scripted(roast, rows, stages(21)), context(3, 4));
    expect(safety.roomBeforeMinutes).toBeCloseTo(45, 9);
    expect(safety.roomAfterMinutes).toBeCloseTo(50, 9);
    expect(safety.roomMinutes).toBeCloseTo(95, 9);
    expect(safety.roomLimitMinutes).toBe(120);
  });

  test('a sear after the peak is heat, not room', () => {
    const seared = [
      [OVEN, 0, 3],
      [REST, 3, 4],
      [PAN, 4, 5],
    ] as const;
    expect(judgeSafety(scripted(roast, rows, seared), context(3, 3)).roomAfterMinutes).toBeCloseTo(
      10,
      9,
    );
  });

  test('a rest that ends before the peak counts for nothing', () => {
    const two = [
      [OVEN, 0, 3],
      [REST, 3, 4],
      [OVEN, 4, 5],
    ] as const;
    expect(judgeSafety(scripted(roast, rows, two), context(3, 5)).roomAfterMinutes).toBe(0);
  });

  test.each([
    ['at 32.2 °C', 32.2, 21, 120],
    ['in a hotter kitchen', 32.3, 21, 60],
    ['where only the rest is hot', 21, 35, 60],
  ])('%s', (_what, roomC, restRoomC, limit) => {
    const safety = judgeSafety(scripted(roast, rows, stages(roomC, restRoomC)), context(3, 4));
    expect(safety.roomLimitMinutes).toBe(limit);
  });
});

describe('a stage in surroundings of its own', () => {
  const rows: readonly ScriptedRow[] = [
    [0, 4],
    [10, 8],
    [40, 63],
    [50, 63],
    [70, 60],
    [95, 50],
  ];
  const own: Stage = {
    kind: 'surroundings',
    at: () => inAir({ airC: 20, wallC: 20, filmWPerM2K: 10, radiationFactor: 0.9, vapourPa: 1000 }),
    until: { minutes: 10 },
  };

  /** The air of the rows, and what a cook in it means: own surroundings up to the heat, or after the peak in row 3. */
  function inAirOf(airC: readonly number[], where: 'before' | 'after'): Safety {
    const stages =
      where === 'before'
        ? ([
            [own, 0, 1],
            [OVEN, 1, 2],
            [REST, 2, 3],
          ] as const)
        : ([
            [OVEN, 0, 2],
            [own, 2, 5],
          ] as const);
    const history = { ...scripted(roast, rows, stages), airC: Float64Array.from(airC) };
    return judgeSafety(history, context(2, 3));
  }

  test.each([
    ['as cold as a refrigerator', [4.4, 4.4], 0],
    ['a little warmer', [4.4, 4.5], 10],
    ['nearly as hot as what kills', [54.3, 54.4], 10],
    ['as hot as that', [54.4, 54.4], 0],
    ['a room', [20, 20], 10],
  ])('before the heat, %s', (_what, [startC, endC], minutes) => {
    const { roomBeforeMinutes } = inAirOf([startC, endC, 200, 22, 22, 22], 'before');
    expect(roomBeforeMinutes).toBeCloseTo(minutes, 9);
  });

  test('after the peak its steps in warm air count, and not those up to the peak', () => {
    const { roomBeforeMinutes, roomAfterMinutes } = inAirOf([200, 200, 22, 22, 22, 22], 'after');
    expect([roomBeforeMinutes, roomAfterMinutes]).toEqual([0, 45]);
    expect(inAirOf([200, 200, 22, 22, 3, 3], 'after').roomAfterMinutes).toBeCloseTo(20, 9);
  });

  test('the hottest of its air sets the limit', () => {
    expect(inAirOf([200, 200, 22, 22, 32.2, 22], 'after').roomLimitMinutes).toBe(120);
    expect(inAirOf([200, 200, 22, 22, 32.3, 22], 'after').roomLimitMinutes).toBe(60);
    expect(inAirOf([40, 20, 200, 22, 22, 22], 'before').roomLimitMinutes).toBe(60);
  });

  test('after the pull nothing is claimed for it; before, it is heat like any other', () => {
    const after = scripted(roast, rows, [
      [OVEN, 0, 2],
      [REST, 2, 3],
      [own, 3, 5],
    ]);
    expect(judgeSafety(after, context(2, 3)).meetsWholeCutGuidance).toBe(false);
    const before = scripted(roast, rows, [
      [own, 0, 1],
      [OVEN, 1, 2],
      [REST, 2, 5],
    ]);
    expect(judgeSafety(before, context(2, 3)).meetsWholeCutGuidance).toBe(true);
  });
});

describe('time from 10 to 54.4 °C', () => {
  const stages = [[OVEN, 0, 4]] as const;
  const heating = (rows: readonly ScriptedRow[]) => {
    const { heatingMinutes, heatingReached } = judgeSafety(
      scripted(roast, rows, stages),
      context(4),
    );
    return [Math.round(heatingMinutes * 1e6) / 1e6, heatingReached];
  };

  test.each<[string, ScriptedRow[], number, boolean]>([
    [
      'both crossed',
      [
        [0, 4],
        [10, 10],
        [30, 40],
        [70, 54.4],
        [90, 60],
      ],
      60,
      true,
    ],
    [
      'warm from the start',
      [
        [0, 20],
        [10, 30],
        [30, 40],
        [50, 60],
        [90, 60],
      ],
      50,
      true,
    ],
    [
      'never that hot',
      [
        [0, 4],
        [10, 12],
        [30, 40],
        [70, 50],
        [90, 54.3],
      ],
      80,
      false,
    ],
    [
      'never warm',
      [
        [0, 4],
        [10, 5],
        [30, 6],
        [70, 7],
        [90, 9.9],
      ],
      0,
      false,
    ],
    [
      'hot from the start',
      [
        [0, 60],
        [10, 61],
        [30, 62],
        [70, 63],
        [90, 64],
      ],
      0,
      true,
    ],
  ])('%s', (_what, rows, minutes, reached) => {
    expect(heating(rows)).toEqual([minutes, reached]);
  });

  test('the coldest axis is what is timed', () => {
    const row = (coldC: number): number[] => [coldC, ...new Array<number>(STATIONS - 1).fill(80)];
    expect(
      heating([
        [0, row(4)],
        [10, row(12)],
        [30, row(40)],
        [70, row(55)],
        [90, row(60)],
      ]),
    ).toEqual([60, true]);
  });
});

describe('lethality over a history, by the trapezoidal rule', () => {
  const rate = (tempC: number): number => 1 / decimalReductionMinutes(tempC);
  const rows: readonly ScriptedRow[] = [
    [0, 50],
    [2, 58],
    [5, 62],
    [7, 60],
  ];
  const history = scripted(roast, rows, [[OVEN, 0, 3]]);

  test('every stretch counts the mean of its ends', () => {
    const expected =
      (2 * rate(58)) / 2 + 3 * ((rate(58) + rate(62)) / 2) + 2 * ((rate(62) + rate(60)) / 2);
    expect(leastLogReduction(history, Number.POSITIVE_INFINITY, 3)).toBeCloseTo(expected, 12);
  });

  test('the margin lowers what comes after the moment, and not the moment itself', () => {
    const expected =
      (2 * rate(58)) / 2 + 3 * ((rate(58) + rate(59)) / 2) + 2 * ((rate(59) + rate(57)) / 2);
    expect(leastLogReduction(history, 120, 3)).toBeCloseTo(expected, 12);
  });

  test('the station with the least decides', () => {
    const cold = rows.map(
      ([minutes, c]): ScriptedRow => [
        minutes,
        Array.from({ length: STATIONS }, (_, i) => Number(c) - (i === 6 ? 2 : 0)),
      ],
    );
    const expected =
      (2 * rate(56)) / 2 + 3 * ((rate(56) + rate(60)) / 2) + 2 * ((rate(60) + rate(58)) / 2);
    const found = leastLogReduction(
      scripted(roast, cold, [[OVEN, 0, 3]]),
      Number.POSITIVE_INFINITY,
      0,
    );
    expect(found).toBeCloseTo(expected, 12);
  });

  test('the judge counts the margin from the pull on', () => {
    const { logReduction } = judgeSafety(history, context(1));
    expect(logReduction).toBeCloseTo(
      leastLogReduction(history, 120, SAFETY_LIMITS.marginAfterPullK),
      12,
    );
  });

  test('exactly as much as may be claimed is not more', () => {
    const minutes = 2 * LETHALITY.claimedUpTo * decimalReductionMinutes(60);
    const at = (factor: number): Safety =>
      judgeSafety(
        scripted(
          roast,
          [
            [0, 60],
            [(factor * minutes) / 2, 60],
          ],
          [[OVEN, 0, 1]],
        ),
        context(1),
      );
    expect(at(0.999).logReductionCapped).toBe(false);
    expect(at(0.999).logReduction).toBeCloseTo(0.999 * LETHALITY.claimedUpTo, 9);
    expect(at(1.001).logReductionCapped).toBe(true);
    expect(at(1.001).logReduction).toBe(LETHALITY.claimedUpTo);
  });
});

describe('a folded tail', () => {
  const folded = tenderloin({ massKg: 2.2 });

  test('is judged where it lies double, at the pull', () => {
    const doubledFromM = folded.doubledFromM ?? Number.NaN;
    const history = scripted(
      folded,
      [
        [0, 4],
        [60, 55],
        [80, 60],
      ],
      [
        [OVEN, 0, 1],
        [REST, 1, 2],
      ],
    );
    const axis = Array.from(history.body.atM, (atM) => Number(atM >= doubledFromM ? 51 : 40));
    axis[axis.lastIndexOf(51)] = 50;
    history.axisC.set(axis, STATIONS);
    expect(axis).toContain(51);
    expect(judgeSafety(history, context(1)).foldColdestC).toBe(50);
  });

  test('an unfolded one has none', () => {
    expect(plain(55, 60)).not.toHaveProperty('foldColdestC');
  });
});

test('what was asked is told again', () => {
  const tough = tenderloin({ massKg: 1.1, cut: 'centre', intact: false });
  const history = scripted(
    tough,
    [
      [0, 4],
      [60, 55],
    ],
    [[OVEN, 0, 1]],
  );
  expect(judgeSafety(history, { ...context(1), atRisk: true })).toMatchObject({
    intact: false,
    atRisk: true,
  });
  expect(plain(55, 60)).toMatchObject({ intact: true, atRisk: false, heatingLimitMinutes: 360 });
});
