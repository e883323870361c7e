import {
  type CookOptions,
  centreReaches,
  type History,
  type Roast,
  rest,
  roastIn,
  seriesAt,
  simulate,
  stationsAround,
  tenderloin,
} from '@roastsim/core';
import { describe, expect, test } from 'vitest';

const STAGES = [roastIn({ ovenC: 230, until: centreReaches(52) }), rest({ minutes: 20 })];
const ROASTS: readonly (readonly [string, Roast])[] = [
  ['whole, 2.2 kg', tenderloin({ massKg: 2.2 })],
  ['centre cut, 1.1 kg', tenderloin({ massKg: 1.1, cut: 'centre' })],
  ['butt end, 0.9 kg', tenderloin({ massKg: 0.9, cut: 'butt' })],
  ['tail end, 0.45 kg', tenderloin({ massKg: 0.45, cut: 'tail' })],
];

/** Largest gap on the axis [K] at the ends of both stages, over the coarser one's stations. */
function axisGap(coarse: History, fine: History): number {
  let worst = 0;
  for (const [i, { lastRow }] of coarse.stages.entries()) {
    for (const [station, at] of coarse.body.atM.entries()) {
      const { stations } = fine.body.body;
      const between = stationsAround(fine.body, 1000 * at);
      const fineC = seriesAt(fine.axisC, stations, fine.stages[i].lastRow, between);
      const coarseC = coarse.axisC[lastRow * coarse.body.body.stations + station];
      worst = Math.max(worst, Math.abs(coarseC - fineC));
    }
  }
  return worst;
}

describe.each(ROASTS)('law: twice the shells and stations change little: %s', (what, roast) => {
  const cook = (options: CookOptions): History => simulate(roast, STAGES, options);
  const usual = cook({});
  const doubled = cook({ stations: 80, shells: 64 });

  test('time to 52 °C moves by less than 0.5 %', () => {
    const moved = Math.abs(usual.stages[0].endS / doubled.stages[0].endS - 1);
    console.log(`${what}: ${(100 * moved).toFixed(3)} % in time`);
    expect(moved).toBeLessThan(0.005);
  });

  test('the axis moves by less than 0.15 °C, to its very ends', () => {
    const gapC = axisGap(usual, doubled);
    console.log(`${what}: axis ${gapC.toFixed(3)} °C`);
    expect(gapC).toBeLessThan(0.15);
  });
});
