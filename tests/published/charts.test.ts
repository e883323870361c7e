import { describe, expect, test } from 'vitest';
import {
  answer,
  CHARTS,
  edition,
  middleOf,
  unionsOf,
} from '../../packages/cli/src/check/charts.js';

// Published: roasting charts of the beef trade for tenderloin at 425 °F (ncba-2000s and checkoff-current in
// data/published/roasting-charts.json). Charts are rounded to 5 minutes and padded for safety, and state no diameter: for one
// cut and removal temperature, all editions together and a tenth wider contain the reading of the middle weight. The model's
// diameters, crust and vent were fitted to these rows, so they guard the fit and are no evidence; docs/validation.md has the rest.
const unions = unionsOf('trade').map((union) => ({
  ...union,
  massKg: middleOf(union.rows[0].weightKg),
}));

test('the trade prints three removal temperatures for centre cut and whole', () => {
  expect(unions.map(({ cut, removeC }) => `${cut} ${removeC}`)).toEqual([
    'centre 57.2',
    'centre 62.8',
    'centre 65.6',
    'whole 57.2',
    'whole 62.8',
    'whole 65.6',
  ]);
  expect(unions.map(({ minutes }) => minutes)).toEqual([
    [35, 45],
    [45, 50],
    [45, 50],
    [45, 60],
    [55, 65],
    [60, 70],
  ]);
});

describe.each(unions)('$cut, $massKg kg, 425 °F to a reading of $removeC °C', (union) => {
  test(`takes ${union.minutes[0]}-${union.minutes[1]} min, a tenth wider`, () => {
    const { minutes } = answer(union.rows[0], union.massKg);
    expect(minutes).toBeGreaterThan(union.widened[0]);
    expect(minutes).toBeLessThan(union.widened[1]);
  });

  // Everyday figures of cooks; common practice, no source.
  test('loses 15 to 25 %, rest included', () => {
    const { loss } = answer(union.rows[0], union.massKg);
    expect(loss).toBeGreaterThan(0.15);
    expect(loss).toBeLessThan(0.25);
  });
});

// Published rises while standing: 5 °F (meat board), 5-10 °F (extension), 10 °F (tenderloin instructions), 10-15 °F for average
// roasts (a cookery textbook). The model stays in their hull; it is above the tenderloin's own 10 °F (5.6 K).
describe('rise while standing after removal at 57.2 °C', () => {
  const hull = CHARTS.carryover.flatMap(({ rise_K, average_roasts_rise_K, what }) =>
    what.startsWith('steaks') ? [] : [...(rise_K ?? []), ...(average_roasts_rise_K ?? [])],
  );
  const [low, high] = [Math.min(...hull.map(Number)), Math.max(...hull.map(Number))];

  test('the published hull is 2.8 to 8.3 K', () => {
    expect([low, high]).toEqual([2.8, 8.3]);
  });

  test.each(unions.filter(({ removeC }) => removeC === 57.2))('$cut', (union) => {
    const { readingRiseK, axisRiseK } = answer(union.rows[0], union.massKg);
    expect(readingRiseK).toBeGreaterThan(low);
    expect(readingRiseK).toBeLessThan(high);
    expect(axisRiseK).toBeGreaterThan(readingRiseK); // the axis has further to go
  });
});

// Published (nlsmb-rare-medium): the same minutes from a cold oven. The model needs about 7 min more for the oven to heat up and
// lands above the window of the half tenderloin, by the share stated.
test('meat-board timetable, oven cold: the half tenderloin is 12 % too slow', () => {
  const row = edition('nlsmb-rare-medium').rows.find(({ cut }) => cut === 'tenderloin, half')!;
  const outcome = answer(
    {
      edition: 'nlsmb-rare-medium',
      group: 'cold oven',
      cut: 'centre',
      weightKg: row.weight_kg,
      ovenC: row.oven_C,
      removeC: row.remove_C ?? Number.NaN,
      minutes: row.time_min ?? [Number.NaN, Number.NaN],
    },
    middleOf(row.weight_kg),
  );
  expect(outcome.minutes / (row.time_min?.[1] ?? Number.NaN) - 1).toBeCloseTo(0.12, 2);
});
