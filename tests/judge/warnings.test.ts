import {
  type History,
  inAir,
  judgeSafety,
  type Roast,
  rest,
  roastIn,
  roundRoast,
  type Safety,
  type Stage,
  searInOven,
  tenderloin,
  type Warning,
  warningsOf,
  waterBath,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { type ScriptedRow, scripted } from '../support/scripted.js';

// Each warning just within its limit and just beyond.

const usual = tenderloin({ massKg: 1.1, cut: 'centre' });
const oven = (ovenC: number): Stage => roastIn({ ovenC, until: { minutes: 60 } });
const SETTLED = { centreC: 60, endingKPerMinute: 0 };

/** A cook of one heat and a rest, long enough at guidance that nothing else is warned of. */
const cooked = (
  roast: Roast = usual,
  heat: Stage = oven(200),
  last: Stage = rest({ minutes: 20 }),
): History =>
  scripted(
    roast,
    [
      [0, 4],
      [60, 64],
      [80, 64],
    ],
    [
      [heat, 0, 1],
      [last, 1, 2],
    ],
  );

function warned(
  history: History,
  more: {
    readonly safety?: Partial<Safety>;
    readonly pullC?: number;
    readonly peak?: typeof SETTLED;
  } = {},
): Warning[] {
  const safety = judgeSafety(history, { pullRow: 1, peakRow: 2, atRisk: false });
  const { pullC = 60, peak = SETTLED } = more;
  return warningsOf(history, { ...safety, ...more.safety }, pullC, peak);
}
const codes = (...args: Parameters<typeof warned>): string[] =>
  warned(...args).map(({ code }) => code);

test('a usual cook to guidance has none', () => expect(codes(cooked())).toEqual([]));

describe('ovens and baths', () => {
  test.each<[number, string[]]>([
    [260, []],
    [260.1, ['hot-oven']],
    [135, []],
    [134.9, ['slow-oven']],
    [100, ['slow-oven']],
    [99.9, ['cool-oven']],
  ])('an oven at %f °C', (ovenC, expected) => {
    expect(warned(cooked(usual, oven(ovenC)))).toEqual(expected.map((code) => ({ code, ovenC })));
  });

  test('surroundings of a program’s own are told', () => {
    const own: Stage = {
      kind: 'surroundings',
      at: () => inAir({ airC: 20, wallC: 20, filmWPerM2K: 10, radiationFactor: 0.9, vapourPa: 0 }),
      until: { minutes: 60 },
    };
    expect(codes(cooked(usual, own))).toEqual(['own-surroundings']);
  });

  test('an oven that only sears may be hotter than one that roasts', () => {
    const sear = searInOven({ ovenC: 280, minutes: 5 });
    expect(codes(cooked(usual, sear))).toEqual([]);
  });

  test.each<[number, string[]]>([
    [54.4, []],
    [54.3, ['cool-bath']],
    [95, []],
  ])('a bath at %f °C', (bathC, expected) => {
    const bath = waterBath({ bathC, until: { minutes: 60 } });
    expect(warned(cooked(usual, bath))).toEqual(expected.map((code) => ({ code, bathC })));
  });

  test.each<[number, string[]]>([
    [35, []],
    [34.9, ['early-pull']],
    [70, []],
    [70.1, ['late-pull']],
  ])('a pull at %f °C', (pullC, expected) => {
    expect(warned(cooked(), { pullC })).toEqual(expected.map((code) => ({ code, pullC })));
  });

  test.each<[number, string[]]>([
    [4.4, []],
    [4.5, ['warm-start']],
  ])('meat that starts at %f °C', (startC, expected) => {
    const roast = tenderloin({ massKg: 1.1, cut: 'centre', startC });
    expect(warned(cooked(roast))).toEqual(expected.map((code) => ({ code, startC })));
  });
});

describe('shapes', () => {
  const round = (sizeMm: number): Roast => roundRoast({ lengthMm: 200, diameters: [{ sizeMm }] });

  test.each<[number, string[]]>([
    [44.001, ['not-tenderloin']],
    [43.9, ['thin-piece', 'not-tenderloin']],
    [99.999, ['not-tenderloin']],
    [100.1, ['thick-piece', 'not-tenderloin']],
  ])('a round roast %f mm thick', (sizeMm, expected) => {
    const found = warned(cooked(round(sizeMm)));
    expect(found.map(({ code }) => code)).toEqual(expected);
    for (const warning of found) {
      if ('diameterMm' in warning) expect(warning.diameterMm).toBeCloseTo(sizeMm, 9);
    }
  });

  test.each<[number, boolean]>([
    [0.4, false],
    [0.39, true],
    [2, false],
    [2.01, true],
  ])('a centre cut of %f kg', (massKg, unusual) => {
    const found = warned(cooked(tenderloin({ massKg, cut: 'centre' })));
    expect(found.filter(({ code }) => code === 'unusual-weight')).toEqual(
      unusual ? [{ code: 'unusual-weight', massKg, cut: 'centre', lowKg: 0.4, highKg: 2 }] : [],
    );
  });

  /** The tape's own weight by a tape alone, then a scale that differs from it by a share. */
  test.each<[number, boolean]>([
    [1.149, false],
    [1.151, true],
    [0.851, false],
    [0.849, true],
  ])('a scale that says %f of what the tape says', (share, told) => {
    const tape = { cut: 'centre', lengthMm: 220, diameters: [{ sizeMm: 75 }] } as const;
    const tapeKg = tenderloin(tape).massKg;
    const found = warned(cooked(tenderloin({ ...tape, massKg: share * tapeKg })));
    const [disagrees] = found.filter(({ code }) => code === 'tape-disagrees');
    if (!told) return expect(disagrees).toBeUndefined();
    expect(disagrees).toMatchObject({ massKg: share * tapeKg });
    if (disagrees?.code === 'tape-disagrees') expect(disagrees.tapeKg).toBeCloseTo(tapeKg, 12);
  });

  test.each<[number, boolean]>([
    [1.149, false],
    [1.151, true],
    [0.851, false],
    [0.849, true],
  ])('a length %f times the usual one', (share, told) => {
    const { profile } = usual;
    const usualMm = 1000 * profile.atM[profile.atM.length - 1];
    const found = warned(
      cooked(tenderloin({ massKg: 1.1, cut: 'centre', lengthMm: share * usualMm })),
    );
    const [disagrees] = found.filter(({ code }) => code === 'length-disagrees');
    if (!told) return expect(disagrees).toBeUndefined();
    if (disagrees?.code !== 'length-disagrees') throw new Error('it is not told');
    expect(disagrees.lengthMm).toBeCloseTo(share * usualMm, 9);
    expect(disagrees.usualMm).toBeCloseTo(usualMm, 9);
  });
});

describe('what safety says', () => {
  test.each<[Partial<Safety>, Warning[]]>([
    [
      { meetsWholeCutGuidance: false, coldestC: 50, coldestPeakC: 56 },
      [{ code: 'below-guidance', coldestC: 50, peakC: 56 }],
    ],
    [{ foldColdestC: 62.8 }, []],
    [{ foldColdestC: 62.7 }, [{ code: 'fold-below-guidance', foldC: 62.7 }]],
    [{ atRisk: true }, [{ code: 'strict-rules', intact: true, atRisk: true }]],
    [{ roomMinutes: 120, roomLimitMinutes: 120 }, []],
    [
      { roomMinutes: 121, roomLimitMinutes: 120 },
      [{ code: 'room-time', minutes: 121, limitMinutes: 120 }],
    ],
    [{ heatingMinutes: 360 }, []],
    [
      { heatingMinutes: 361, heatingReached: true },
      [{ code: 'heating-time', minutes: 361, limitMinutes: 360, reached: true }],
    ],
    [
      { heatingMinutes: 361, heatingReached: false },
      [{ code: 'heating-time', minutes: 361, limitMinutes: 360, reached: false }],
    ],
  ])('%o', (safety, expected) => {
    expect(warned(cooked(), { safety })).toEqual(expected);
  });

  test('meat that is not intact falls under the strict rules', () => {
    const tough = tenderloin({ massKg: 1.1, cut: 'centre', intact: false });
    expect(warned(cooked(tough))).toEqual([{ code: 'strict-rules', intact: false, atRisk: false }]);
  });
});

describe('a middle that still climbs when the rest ends', () => {
  const peak = (endingKPerMinute: number) => ({ centreC: 57, endingKPerMinute });

  test('is told from 0.15 K a minute on', () => {
    expect(codes(cooked(), { peak: peak(0.149) })).toEqual([]);
    expect(warned(cooked(), { peak: peak(0.15) })).toEqual([
      { code: 'still-rising', peakC: 57, restMinutes: 20 },
    ]);
  });

  test('the last stage is the one that counts', () => {
    const rows: readonly ScriptedRow[] = [
      [0, 4],
      [60, 64],
      [80, 64],
      [84, 64],
    ];
    const stages = [
      [oven(200), 0, 1],
      [rest({ minutes: 20 }), 1, 2],
      [oven(200), 2, 3],
    ] as const;
    expect(codes(scripted(usual, rows, stages), { peak: peak(1) })).not.toContain('still-rising');
  });

  test('without a rest at the end nothing is waited for', () => {
    expect(codes(cooked(usual, oven(200), oven(200)), { peak: peak(1) })).not.toContain(
      'still-rising',
    );
  });
});

test('they come in their order: rules, guidance, times, heat, shape, rest', () => {
  const roast = tenderloin({ massKg: 3.5, startC: 10, intact: false });
  const found = codes(cooked(roast, oven(90)), {
    safety: {
      meetsWholeCutGuidance: false,
      foldColdestC: 50,
      roomMinutes: 200,
      heatingMinutes: 400,
    },
    pullC: 30,
    peak: { centreC: 57, endingKPerMinute: 1 },
  });
  expect(found.filter((code) => !code.endsWith('-piece'))).toEqual([
    'strict-rules',
    'below-guidance',
    'fold-below-guidance',
    'room-time',
    'heating-time',
    'cool-oven',
    'early-pull',
    'warm-start',
    'unusual-weight',
    'still-rising',
  ]);
});
