import { SCALES } from '@roastsim/core';
import { IANAZone } from 'luxon';
import { describe, expect, test } from 'vitest';
import { readGuestWishes } from '../../packages/cli/src/read/guestWishes.js';
import {
  readClock,
  readDuration,
  readLength,
  readMass,
  readMeasures,
  readTemperature,
} from '../../packages/cli/src/read/index.js';
import { readLogUnits } from '../../packages/cli/src/read/probeLogUnits.js';
import { readChoice } from '../../packages/cli/src/read/readChoice.js';
import { readCount } from '../../packages/cli/src/read/readCount.js';
import { readDay } from '../../packages/cli/src/read/readDay.js';
import { readFreedoms, readGuests } from '../../packages/cli/src/read/readGuests.js';
import { readLevel } from '../../packages/cli/src/read/readLevel.js';
import { readMasses } from '../../packages/cli/src/read/readMasses.js';
import { readPercent } from '../../packages/cli/src/read/readPercent.js';
import { readServe } from '../../packages/cli/src/read/readServe.js';
import { readShare } from '../../packages/cli/src/read/readShare.js';
import { readStock } from '../../packages/cli/src/read/readStock.js';
import { readWays } from '../../packages/cli/src/read/readWays.js';
import { readZone } from '../../packages/cli/src/read/serving.js';
import { anyTyped, feed, must, mustBePrintable, mustLie } from '../support/fuzz.js';

// Every reader of a typed text, against 20 000 texts each. A reader of another kind of text is one more row.

const OPTION = '--option';

const above0 = (value: number): void => must(value > 0, 'not above 0', value);
const within =
  (least: number, most: number) =>
  (value: number): void =>
    mustLie(value, least, most);

/** A row of the table below, its kind of value known to itself alone. */
const reader =
  <Value>(
    good: readonly string[],
    read: (text: string) => Value,
    check: (value: Value) => void,
  ): (() => { read: number; refused: number }) =>
  () =>
    feed(anyTyped(good), read, [OPTION], check);

const MASSES = ['2.2kg', '2,2 kg', '4lb 8oz', '1 1/2 lb', '½ lb', '900 g'];
const DAYS = ['2026-12-24', '24.12.2026', '24 Dec 2026', '24/12/2026', '2026-12-24 16:00'];
const CLOCKS = ['18:30', '6:30pm', '6.30 p.m.', '18h', '18h30', '6 am'];
const GUESTS = [
  '8',
  '3 rare, 4 medium-rare, 1 at 60C',
  'Ada: rare, 2 medium',
  '2 x rare and 1 at 54C',
];

const READERS: Readonly<Record<string, () => { read: number; refused: number }>> = {
  weight: reader(MASSES, (text) => readMass(text, OPTION), above0),
  temperature: reader(
    ['230C', '446 °F', '-2 degrees celsius', '62.8℃'],
    (text) => readTemperature(text, OPTION),
    within(-273.15, Number.MAX_VALUE),
  ),
  time: reader(
    ['25min', '1h20', '1h 20min', '1.5h', '90s', '0min'],
    (text) => readDuration(text, OPTION),
    within(0, Number.MAX_VALUE),
  ),
  length: reader(
    ['24cm', '9 1/2 in', '1ft 2in', '9½"'],
    (text) => readLength(text, OPTION),
    above0,
  ),
  sizes: reader(
    ['24cm@5cm, 26cm@20cm', '26cm', '24,5cm@5cm; 26cm@20cm', '9in@0in'],
    (text) => readMeasures(text, OPTION),
    (measures) => {
      must(measures.length > 0, 'no size', measures);
      for (const { sizeMm, atMm } of measures) {
        above0(sizeMm);
        if (atMm !== undefined) within(0, Number.MAX_VALUE)(atMm);
      }
    },
  ),
  'time of day': reader(CLOCKS, (text) => readClock(text, OPTION), within(0, 1439)),
  day: reader(
    DAYS,
    (text) => readDay(text, OPTION),
    (day) => must(/^\d{4}-\d\d-\d\d(T\d\d:\d\d)?$/.test(day), 'no day', day),
  ),
  'serving time': reader(
    [...CLOCKS, '2026-12-24 18:30', 'tomorrow 6pm', 'today, 18:30'],
    (text) => readServe(text, OPTION),
    ({ serveMinutes }) => within(0, 1439)(serveMinutes),
  ),
  zone: reader(
    ['Europe/Vienna', 'utc', 'america/chicago', 'US/Pacific', 'Asia/Kathmandu'],
    (text) => readZone(text, OPTION),
    (name) => must(IANAZone.isValidZone(name), 'no zone', name),
  ),
  guests: reader(
    GUESTS,
    (text) => readGuests(text, 'kitchen', OPTION),
    (guests) => {
      within(1, 100)(guests.length);
      for (const { name } of guests) if (name !== undefined) mustBePrintable(name);
    },
  ),
  'guests of an order': reader(
    [...GUESTS, '500'],
    (text) => readGuestWishes(text, SCALES.kitchen, OPTION),
    ({ count, wishes }) => {
      within(0, 500)(count);
      for (const wish of wishes) within(1, 100)(wish.count);
    },
  ),
  freedoms: reader(
    ['oven', 'oven, fold', 'all', 'sear + carving'],
    (text) => readFreedoms(text, OPTION),
    (freedoms) => within(1, 4)(freedoms.length),
  ),
  share: reader(['50%', '0.5', '1/2', '12,5 %'], (text) => readShare(text, OPTION), within(0, 1)),
  'per cent': reader(
    ['5%', '7,5 %', '0 %'],
    (text) => readPercent(text, 20, OPTION),
    within(0, 0.2),
  ),
  level: reader(
    ['80%', '80', '99 %', '50 percent', '87,5%'],
    (text) => readLevel(text, OPTION),
    within(0.5, 0.99),
  ),
  'log units': reader(
    ['F', 'C, min', 'f s', 'celsius; ms', 'constructor'],
    (text) => readLogUnits(text, OPTION),
    ({ temperature = 'C', time = 's' }) => {
      must(['C', 'F'].includes(temperature), 'no unit of temperature', temperature);
      must(['ms', 's', 'min', 'h'].includes(time), 'no unit of time', time);
    },
  ),
  count: reader(['8', '0', '12'], (text) => readCount(text, 500, OPTION), within(0, 500)),
  weights: reader(
    ['2.4kg, 2.6kg', '2,4kg; 2,6kg', '5lb, 5lb 4oz'],
    (text) => readMasses(text, OPTION),
    (masses) => {
      must(masses.length > 0, 'no weight', masses);
      masses.forEach(above0);
    },
  ),
  stock: reader(
    ['2.4kg, 2.6kg', '3 x 2.4kg, 2.1kg', '4lb 8oz; 5lb', '12×2,2kg'],
    (text) => readStock(text, OPTION),
    (masses) => {
      within(1, 1000)(masses.length);
      masses.forEach(above0);
    },
  ),
  way: () =>
    feed(
      anyTyped([
        'oven 230C, rest 20min',
        'Sunday: oven 120C 1h20, rest 10min open',
        'two pieces, pan 230C 4x90s, oven 150C fan to pull, rest 20min foil',
      ]),
      (text) => readWays([text, 'oven 230C'], { atMm: 200 }),
      ['--way'],
      ([{ name, ...way }]) => {
        mustBePrintable(name);
        must(way.heat !== undefined, 'no heat', way);
      },
    ),
  name: reader(
    ['medium-rare', 'Medium Rare', 'WELL_DONE', 'rare'],
    (text) => readChoice(text, ['rare', 'medium-rare', 'medium', 'well-done'], OPTION),
    mustBePrintable,
  ),
};

describe('any text is read or refused in one line', () => {
  test.each(Object.keys(READERS))('%s', (kind) => {
    const { read, refused } = READERS[kind]();
    expect(read).toBeGreaterThan(500);
    expect(refused).toBeGreaterThan(500);
  });
});
