import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type PlanWords, readPlanOptions } from '../../packages/cli/src/read/planOptions.js';
import { feed, must, RUNS } from '../support/fuzz.js';

test('options of a plan that are good one by one go together, or are refused in one line', () => {
  const pick = <T>(...values: readonly T[]) => fc.constantFrom<T[]>(...values);
  const words: fc.Arbitrary<PlanWords> = fc.record(
    {
      weight: pick('2.2kg', '2.2kg', '4lb 8oz', '0.05kg', '12kg', '300g', '1e3kg', ''),
      oven: pick('230C', '60C', '320C', '425F', '23C'),
      bath: pick('58C', '95C', '40C'),
      cut: pick('whole', 'centre', 'butt', 'tail', 'other', 'centr'),
      length: pick('48cm', '120cm', '4cm', '1m'),
      girth: pick('26cm', '24cm@0cm, 26cm@20cm, 10cm@40cm', '78cm', '9in@1in'),
      diameter: pick('85mm', '25cm', '2cm'),
      rest: pick('0min', '20min', '1h20'),
      temper: pick('0min', '30min', '24h'),
      fridge: pick('-1.5C', '4C', '30C'),
      pull: pick('50C', '20C', '90C'),
      time: pick('40min', '24h'),
      doneness: pick('rare', 'well-done', '35C', '85C', 'medum'),
      scale: pick('kitchen', 'amsa'),
      at: pick('middle', 'thick', 'thin', 'guests'),
      guests: pick('8', '3 rare, 4 medium', 'Ada: 60C', '100'),
      vary: pick('all', 'oven, fold', 'sear'),
      within: pick('30min', '0min'),
      sear: pick<string | true>('pan', 'oven', true),
      searPan: pick('230C', '120C'),
      portion: pick('8oz', '20g', '2kg'),
      leftovers: pick('100g', '1lb'),
      serve: pick('18:30', 'tomorrow 6pm'),
      ...Object.fromEntries(
        [
          'untied',
          'unfolded',
          'fan',
          'coldOven',
          'searLast',
          'openRest',
          'atRisk',
          'nonIntact',
        ].map((flag) => [flag, fc.constant(true)]),
      ),
    },
    { requiredKeys: ['weight'] },
  );
  const few = fc
    .tuple(words, fc.infiniteStream(fc.integer({ min: 0, max: 5 })))
    .map(([all, dice]): PlanWords => {
      const kept = Object.entries(all).filter(
        ([key]) => key === 'weight' || dice.next().value === 0,
      );
      return { oven: '230C', ...Object.fromEntries(kept) };
    });
  const { read, refused } = feed(
    few,
    (typed) => {
      const { roast, table, serveMinutes } = readPlanOptions(typed);
      const { massKg, startC, profile } = roast;
      const { withinMinutes, leftoversKg } = table ?? {};
      return { massKg, startC, profile, withinMinutes, leftoversKg, serveMinutes };
    },
    ['--'],
    ({ massKg }) => must(massKg >= 0.05 && massKg <= 12, 'no roast', massKg),
    RUNS / 4, // each makes a roast of its own
  );
  expect(Math.min(read, refused)).toBeGreaterThan(500);
});
