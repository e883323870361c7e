import { RoastError } from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  readChoice,
  readClock,
  readDuration,
  readLength,
  readMass,
  readMeasures,
  readTemperature,
  unitSystemOf,
} from '../../packages/cli/src/read/index.js';
import { errorOf } from '../support/errorOf.js';

// International avoirdupois pound, 1959 agreement (international yard and pound agreement): exact by definition.
const KG_PER_LB = 0.45359237;
const KG_PER_OZ = 0.028349523125; // a sixteenth of it
const MM_PER_IN = 25.4; // the same agreement

/** Reads as a number: a few roundings of the arithmetic are allowed, a wrong factor is not. */
function expectNumber(found: number, expected: number): void {
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(4 * Number.EPSILON * Math.abs(expected));
}

const DONENESS = ['blue', 'rare', 'medium-rare', 'medium', 'well-done'] as const;
const readDoneness = (text: string, option: string) => readChoice(text, DONENESS, option);

const readers = {
  weight: readMass,
  temperature: readTemperature,
  time: readDuration,
  length: readLength,
  sizes: readMeasures,
  'time of day': readClock,
  name: readDoneness,
} as const;
type Reader = keyof typeof readers;

describe('right readings', () => {
  test.each<[string, number]>([
    ['2.2kg', 2.2],
    ['2.2 kg', 2.2],
    ['  2.2  KG ', 2.2],
    ['2,2 kg', 2.2],
    ['0,500 kg', 0.5],
    ['1234,500 g', 1.2345],
    ['2.250kg', 2.25],
    ['+2kg', 2],
    ['.5kg', 0.5],
    ['900g', 0.9],
    ['900 grams', 0.9],
    ['2 kilos', 2],
    ['2kg 300g', 2.3],
    ['1lb', KG_PER_LB],
    ['1 lbs', KG_PER_LB],
    ['1 pound', KG_PER_LB],
    ['5 pounds', 5 * KG_PER_LB],
    ['1oz', KG_PER_OZ],
    ['1 ounce', KG_PER_OZ],
    ['36 ounces', 36 * KG_PER_OZ],
    ['4lb 8oz', 2.041165665],
    ['4 lb 8 oz', 2.041165665],
    ['4lb8oz', 2.041165665],
    ['4 lb. 8 oz.', 2.041165665],
    ['4 lb, 8 oz', 2.041165665],
    ['4lb 8½oz', 4 * KG_PER_LB + 8.5 * KG_PER_OZ],
    ['0lb 8oz', 8 * KG_PER_OZ],
    ['1 1/2 lb', 1.5 * KG_PER_LB],
    ['1½ lb', 1.5 * KG_PER_LB],
    ['½ lb', KG_PER_LB / 2],
    ['3/4lb', 0.75 * KG_PER_LB],
    ['1\u00a01⁄2\u202flb', 1.5 * KG_PER_LB],
    ['２．２ｋｇ', 2.2],
    ['2.2\u00a0kg', 2.2],
    ['2.2\u202fkg', 2.2],
  ])('weight %j is %d kg', (text, kg) => {
    expectNumber(readMass(text, '--weight'), kg);
  });

  test.each<[string, number]>([
    ['230C', 230],
    ['230 °C', 230],
    ['230 c', 230],
    ['230 celsius', 230],
    ['230degC', 230],
    ['230 deg C', 230],
    ['230 degrees Celsius', 230],
    ['230℃', 230],
    ['230ºC', 230],
    ['446F', 230],
    ['446°F', 230],
    ['446 fahrenheit', 230],
    ['608F', 320], // exactly, or an oven at the upper limit would be refused
    ['32F', 0],
    ['-40F', -40],
    ['-2C', -2],
    ['−2 °C', -2],
    ['0C', 0],
    ['-0C', 0],
    ['56,5C', 56.5],
    ['-273.15C', -273.15],
  ])('temperature %j is %d °C', (text, tempC) => {
    expect(readTemperature(text, '--oven')).toBe(tempC);
  });

  test.each<[string, number]>([
    ['25min', 25],
    ['25 min', 25],
    ['25 minutes', 25],
    ['25m', 25],
    ['1h', 60],
    ['2 hrs', 120],
    ['1h20', 80],
    ['1h05', 65],
    ['1 h 20', 80],
    ['1h 20min', 80],
    ['1h20m', 80],
    ['1.5h', 90],
    ['1 1/2 hours', 90],
    ['90s', 1.5],
    ['1min 20s', 80 / 60],
    ['1h 20min 30s', 80.5],
    ['0min', 0],
    ['90min', 90],
  ])('time %j is %d min', (text, minutes) => {
    expectNumber(readDuration(text, '--rest'), minutes);
  });

  test.each<[string, number]>([
    ['24cm', 240],
    ['24,5 cm', 245],
    ['240mm', 240],
    ['0.4 m', 400],
    ['40 centimetres', 400],
    ['1in', MM_PER_IN],
    ['10 inches', 254],
    ['9.5"', 9.5 * MM_PER_IN],
    ['9½”', 9.5 * MM_PER_IN],
    ['1ft', 12 * MM_PER_IN],
    ['1ft 2in', 14 * MM_PER_IN],
    ['1\'2"', 14 * MM_PER_IN],
  ])('length %j is %d mm', (text, mm) => {
    expectNumber(readLength(text, '--length'), mm);
  });

  const twoSizes = [
    { sizeMm: 240, atMm: 50 },
    { sizeMm: 260, atMm: 200 },
  ];
  test.each([
    ['26cm', [{ sizeMm: 260 }]],
    ['24cm@0cm', [{ sizeMm: 240, atMm: 0 }]],
    ['24cm@5cm, 26cm@20cm', twoSizes],
    ['24cm@5cm,26cm@20cm', twoSizes],
    ['24cm @ 5cm; 26cm @ 20cm', twoSizes],
    ['24,0cm@5,0cm, 26,0cm@20,0cm', twoSizes],
    ['24,0cm@5,0cm,26,0cm@20,0cm', twoSizes],
    ['26cm@20cm, 24cm@5cm', twoSizes.toReversed()],
    [
      '10"@2", 20"@4"',
      [
        { sizeMm: 254, atMm: 50.8 },
        { sizeMm: 508, atMm: 101.6 },
      ],
    ],
  ])('sizes %j', (text, measures) => {
    expect(readMeasures(text, '--girth')).toEqual(measures);
  });

  test.each<[string, number]>([
    ['18:30', 1110],
    ['18.30', 1110],
    ['18h30', 1110],
    ['18 h 30', 1110],
    ['18h', 1080],
    ['6:30pm', 1110],
    ['6:30 PM', 1110],
    ['6.30 pm', 1110],
    ['6.30 p.m.', 1110],
    ['6pm', 1080],
    ['6:30', 390],
    ['06:30', 390],
    ['6am', 360],
    ['12am', 0],
    ['12:05 am', 5],
    ['12pm', 720],
    ['0:00', 0],
    ['23:59', 1439],
    ['１８：３０', 1110],
  ])('time of day %j is %d minutes after midnight', (text, minutes) => {
    expect(readClock(text, '--serve')).toBe(minutes);
  });

  test.each([
    ['medium-rare', 'medium-rare'],
    ['Medium Rare', 'medium-rare'],
    ['mediumrare', 'medium-rare'],
    ['MEDIUM_RARE', 'medium-rare'],
    [' well\u00a0done ', 'well-done'],
    ['medium', 'medium'],
  ])('name %j is %s', (text, name) => {
    expect(readDoneness(text, '--doneness')).toBe(name);
  });
});

describe('wrong inputs', () => {
  test.each<[Reader, string, RoastError['code']]>([
    ['weight', '', 'not-a-number'],
    ['weight', ' \u00a0\t\n', 'not-a-number'],
    ['weight', 'abc', 'not-a-number'],
    ['weight', 'kg', 'not-a-number'],
    ['weight', 'NaN', 'not-a-number'],
    ['weight', 'NaNkg', 'not-a-number'],
    ['weight', 'Infinity', 'not-a-number'],
    ['weight', '-Infinity kg', 'not-a-number'],
    ['weight', '∞kg', 'not-a-number'],
    ['weight', '1e999', 'not-a-number'],
    ['weight', '1e3kg', 'not-a-number'],
    ['weight', '1.2.3kg', 'not-a-number'],
    ['weight', '1,500.5g', 'not-a-number'],
    ['weight', '1,500g', 'not-a-number'],
    ['weight', '1 500 g', 'not-a-number'],
    ['weight', '1/0 lb', 'not-a-number'],
    ['weight', '1 3/2 lb', 'not-a-number'],
    ['weight', '1/2/3 lb', 'not-a-number'],
    ['weight', '2-3kg', 'not-a-number'],
    ['weight', '2–3kg', 'not-a-number'],
    ['weight', '4lb-8oz', 'not-a-number'],
    ['weight', '4lb,8oz', 'not-a-number'],
    ['weight', '4lb.8oz', 'not-a-number'],
    ['weight', '2²kg', 'wrong-unit'],
    ['weight', '2.2', 'missing-unit'],
    ['weight', '½', 'missing-unit'],
    ['weight', '4lb 8', 'missing-unit'],
    ['weight', '2.2cm', 'wrong-unit'],
    ['weight', '2.2L', 'wrong-unit'],
    ['weight', '2.2C', 'wrong-unit'],
    ['weight', '2.2kgg', 'wrong-unit'],
    ['weight', '2.2__proto__', 'wrong-unit'],
    ['weight', '2.2 kg or so', 'wrong-unit'],
    ['weight', '0kg', 'out-of-range'],
    ['weight', '-2.2kg', 'out-of-range'],
    ['weight', '0lb 0oz', 'out-of-range'],
    ['weight', '4lb 3lb', 'contradiction'],
    ['weight', '8oz 4lb', 'contradiction'],
    ['weight', '2kg 3oz', 'contradiction'],
    ['weight', '4.5lb 8oz', 'contradiction'],
    ['weight', '4lb 16oz', 'contradiction'],
    ['temperature', '', 'not-a-number'],
    ['temperature', 'hot', 'not-a-number'],
    ['temperature', '230/446F', 'not-a-number'],
    ['temperature', '230', 'missing-unit'],
    ['temperature', '230°', 'missing-unit'],
    ['temperature', '230 degrees', 'missing-unit'],
    ['temperature', '503K', 'wrong-unit'],
    ['temperature', '230kg', 'wrong-unit'],
    ['temperature', '230 celcius', 'wrong-unit'],
    ['temperature', '230C 446F', 'contradiction'],
    ['temperature', '-274C', 'out-of-range'],
    ['temperature', '-460F', 'out-of-range'],
    ['time', '', 'not-a-number'],
    ['time', '25', 'missing-unit'],
    ['time', '1:20', 'missing-unit'],
    ['time', '1:20:30', 'missing-unit'],
    ['time', '1h5', 'missing-unit'],
    ['time', '20min30', 'missing-unit'],
    ['time', '25kg', 'wrong-unit'],
    ['time', '2 days', 'wrong-unit'],
    ['time', '1h 90min', 'contradiction'],
    ['time', '1h75', 'contradiction'],
    ['time', '20min 1h', 'contradiction'],
    ['time', '1.5h 20min', 'contradiction'],
    ['time', '-5min', 'out-of-range'],
    ['length', '24', 'missing-unit'],
    ['length', '24kg', 'wrong-unit'],
    ['length', '0cm', 'out-of-range'],
    ['length', '-24cm', 'out-of-range'],
    ['sizes', '', 'not-a-number'],
    ['sizes', '24cm@5cm,', 'not-a-number'],
    ['sizes', '24cm@', 'not-a-number'],
    ['sizes', '@5cm', 'not-a-number'],
    ['sizes', '24cm@5cm@6cm', 'not-a-number'],
    ['sizes', '24cm@5cm 26cm@20cm', 'not-a-number'],
    ['sizes', '24cm@5, 26cm@20cm', 'missing-unit'],
    ['sizes', '24@5cm', 'missing-unit'],
    ['sizes', '24kg@5cm', 'wrong-unit'],
    ['sizes', '24cm, 26cm', 'missing'],
    ['sizes', '24cm@5cm, 26cm', 'missing'],
    ['sizes', '24cm@5cm, 26cm@50mm', 'contradiction'],
    ['sizes', '24cm@1.2in, 26cm@30,48mm', 'contradiction'],
    ['sizes', '0cm@5cm', 'out-of-range'],
    ['sizes', '24cm@-5cm', 'out-of-range'],
    ['time of day', '', 'not-a-number'],
    ['time of day', 'noonish', 'not-a-number'],
    ['time of day', '1830', 'not-a-number'],
    ['time of day', '18:', 'not-a-number'],
    ['time of day', '18:5', 'not-a-number'],
    ['time of day', '-6:30', 'not-a-number'],
    ['time of day', '6', 'missing-unit'],
    ['time of day', '18', 'missing-unit'],
    ['time of day', '24:00', 'out-of-range'],
    ['time of day', '18:60', 'out-of-range'],
    ['time of day', '13pm', 'out-of-range'],
    ['time of day', '0:30am', 'out-of-range'],
    ['name', '', 'unknown-name'],
    ['name', 'burnt', 'unknown-name'],
    ['name', 'med-rare-ish', 'unknown-name'],
  ])('%s %j is refused: %s', (kind, text, code) => {
    const error = errorOf(() => readers[kind](text, '--option'));
    expect(error.code).toBe(code);
    expect(error.path).toEqual(['--option']);
    expect(error.accepted).not.toBe('');
    expect(error.message).toMatch(/^--option: read "[^\n]*$/);
  });

  test.each<[Reader, string, string]>([
    ['weight', '2.2', 'write 2.2kg for kilograms or 2.2lb for pounds'],
    ['weight', '2.2kgg', 'did you mean kg?'],
    ['weight', '2 punds', 'did you mean lb?'],
    ['weight', '1,500g', 'write 1.500 or 1500'],
    ['weight', '1 500 g', 'write 1500 g'],
    ['weight', '1,500.5g', 'write 1500.5'],
    ['temperature', '230', 'write 230C for Celsius or 230F for Fahrenheit'],
    ['temperature', '230 celcius', 'did you mean C?'],
    ['time', '25', 'write 25min for minutes or 25h for hours'],
    ['time', '1:20', 'write 1h 20min or 1min 20s'],
    ['time', '1h5', 'write 1h 5min or 1.5h'],
    ['time of day', '1830', 'write 18:30'],
    ['time of day', '6', 'write 6am or 6pm'],
    ['name', 'medum rare', 'did you mean medium-rare?'],
  ])('%s %j: %s', (kind, text, hint) => {
    expect(errorOf(() => readers[kind](text, '--option')).hint).toBe(hint);
  });

  test.each<[Reader, string]>([
    ['weight', '2.2x'],
    ['name', 'xylophone'],
  ])('%s %j: nothing is near enough to guess', (kind, text) => {
    expect(errorOf(() => readers[kind](text, '--option')).hint).toBeUndefined();
  });

  test('what a missing unit says', () => {
    expect(errorOf(() => readMass('2.2', '--weight')).message).toBe(
      '--weight: read "2.2"; a weight needs a unit (write 2.2kg for kilograms or 2.2lb for pounds)',
    );
  });

  test('what a wrong unit says', () => {
    expect(errorOf(() => readMass('2.2cm', '--weight')).message).toBe(
      '--weight: read "2.2cm"; cm is a unit of length, not of weight; accepted: ' +
        'a weight above 0 in kg, g, lb or oz, like 2.2kg or 4lb 8oz',
    );
  });

  test('a number of 199 digits is finite, one of 400 too long', () => {
    expectNumber(readMass(`${'9'.repeat(199)}g`, '--weight'), 1e196);
    expect(errorOf(() => readMass(`${'9'.repeat(400)}g`, '--weight')).code).toBe('not-a-number');
  });

  test('an unknown name lists all names', () => {
    const { message } = errorOf(() => readDoneness('raw', '--doneness'));
    for (const name of DONENESS) expect(message).toContain(name);
  });

  test('in a list the item at fault is quoted, not the list', () => {
    const error = errorOf(() => readMeasures('24cm@5cm, 26@20cm', '--girth'));
    expect(error.found).toBe('26@20cm');
  });

  test('a short text is handed back as it was, and printed on one line without control characters', () => {
    const text = '2\u001b[31m\nkg\u202e';
    const error = errorOf(() => readMass(text, '--weight'));
    expect(error.found).toBe(text);
    expect(error.message).toContain('"2\\u{1b}[31m\\u{a}kg\\u{202e}"');
    const hinting = errorOf(() => readMass('1 500 g\u001b', '--weight'));
    expect(hinting.hint).toBe('write 1500 g\\u{1b}');
  });

  test.each(Object.entries(readers))(
    '%s: a megabyte is refused at once and not echoed',
    (_kind, read) => {
      for (const piece of ['9', ' ', 'kg', '1 ', '1kg ', '\u{1f969}', '1/', '24cm@5cm,']) {
        const text = piece.repeat(Math.ceil(1_000_000 / piece.length));
        const startMs = performance.now();
        const error = errorOf(() => read(text, '--option'));
        // Refusing takes well under a millisecond; reading a megabyte backwards and forwards would take minutes.
        expect(performance.now() - startMs).toBeLessThan(250);
        expect(error.message.length).toBeLessThan(1000);
        expect(String(error.found).length).toBeLessThan(1000);
      }
    },
  );
});

describe('the units typed', () => {
  test.each<[string, 'metric' | 'us' | undefined]>([
    ['2.2kg', 'metric'],
    ['900 g', 'metric'],
    ['230C', 'metric'],
    ['230 °C', 'metric'],
    ['24cm@5cm, 26cm@20cm', 'metric'],
    ['24,5 cm', 'metric'],
    ['240mm', 'metric'],
    ['4lb 8oz', 'us'],
    ['4 lb. 8 oz.', 'us'],
    ['½ lb', 'us'],
    ['446°F', 'us'],
    ['9.5"', 'us'],
    ['10in@2in; 11in@6in', 'us'],
    ['10in@5cm', undefined],
    ['2.2', undefined],
    ['', undefined],
    ['medium-rare', undefined],
    ['1h20m', undefined],
    ['25min', undefined],
  ])('%j are %s', (text, system) => {
    expect(unitSystemOf(text)).toBe(system);
  });
});

/** Text made of what readers accept, mostly in an order they do not: the random search has to get past the first check. */
const nearlyQuantities = fc
  .array(
    fc.tuple(
      fc.constantFrom('', '-', '+', '.', '1 '),
      fc.constantFrom('0', '1', '05', '18', '230', '2.2', '2,2', '1,500', '½', '3/4', '1/0'),
      fc.constantFrom('', ' ', '\u00a0'),
      fc.constantFrom(
        ...['', 'kg', 'g', 'lb', 'oz.', 'C', '°F', 'deg c', 'h', 'm', 'min', 's', 'cm', 'in', '"'],
        ...['pm', 'K', 'e', 'constructor'],
      ),
      fc.constantFrom('', ' ', ', ', ',', ';', '@', ':', '/'),
    ),
    { minLength: 1, maxLength: 3 },
  )
  .map((pieces) =>
    pieces
      .flat()
      .join('')
      .replace(/[,;@:/ ]+$/, ''),
  );
const nearlyClock = fc
  .tuple(
    fc.nat(30).map(String),
    fc.constantFrom('', ':', '.', 'h', ' h ', '::'),
    fc.constantFrom('', '00', '30', '59', '60', '5'),
    fc.constantFrom('', 'am', ' PM', 'p.m.', 'xm'),
  )
  .map((pieces) => pieces.join(''));
const nearlyRight = fc.oneof(nearlyQuantities, nearlyClock);
const anyText = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 300 }),
  fc.string({ maxLength: 40 }),
  nearlyRight,
);

describe('laws', () => {
  test('the random texts below reach both ends: some are read, some are refused', () => {
    const texts = fc.sample(nearlyRight, { numRuns: 3000, seed: 1 });
    for (const [kind, read] of Object.entries(readers)) {
      if (kind === 'name') continue;
      const refused = texts.filter((text) => {
        try {
          read(text, '--option');
          return false;
        } catch {
          return true;
        }
      });
      expect(texts.length - refused.length).toBeGreaterThan(30);
      expect(refused.length).toBeGreaterThan(300);
    }
  });

  test.each<[string, (text: string, option: string) => number, number]>([
    ['weight', readMass, Number.MIN_VALUE],
    ['temperature', readTemperature, -273.15],
    ['time', readDuration, 0],
    ['length', readLength, Number.MIN_VALUE],
    ['time of day', readClock, 0],
  ])(
    '%s: any text is a finite number in range or a RoastError on one line',
    (_kind, read, least) => {
      fc.assert(
        fc.property(anyText, (text) => {
          try {
            const value = read(text, '--option');
            expect(Number.isFinite(value)).toBe(true);
            expect(value).toBeGreaterThanOrEqual(least);
          } catch (error) {
            if (!(error instanceof RoastError)) throw error;
            expect(error.message).not.toMatch(/[\p{Cc}\p{Zl}\p{Zp}]/u);
          }
        }),
        { numRuns: 2000 },
      );
    },
  );

  test('sizes: any text is a list of finite numbers or a RoastError', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        try {
          const measures = readMeasures(text, '--girth');
          expect(measures.length).toBeGreaterThan(0);
          for (const { sizeMm, atMm = 0 } of measures) {
            expect(Number.isFinite(sizeMm) && sizeMm > 0).toBe(true);
            expect(Number.isFinite(atMm) && atMm >= 0).toBe(true);
          }
        } catch (error) {
          if (!(error instanceof RoastError)) throw error;
        }
      }),
      { numRuns: 2000 },
    );
  });

  test('names: any text is one of the names or a RoastError', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        try {
          expect(DONENESS).toContain(readDoneness(text, '--doneness'));
        } catch (error) {
          if (!(error instanceof RoastError)) throw error;
        }
      }),
    );
  });

  test('the unit system of any text is found without an error', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        expect(['metric', 'us', undefined]).toContain(unitSystemOf(text));
      }),
    );
  });

  const positive = fc.double({ min: 0.001, max: 1e6, noNaN: true });
  const spaced = fc.constantFrom('', ' ', '\u00a0', '\u202f');
  const relativeGap = (a: number, b: number) => Math.abs(a - b) / Math.max(Math.abs(b), 1e-300);

  test.each<[string, string, (text: string, option: string) => number, number]>([
    ['weight', 'kg', readMass, 1],
    ['weight', 'g', readMass, 1e-3],
    ['weight', 'lb', readMass, KG_PER_LB],
    ['weight', 'oz', readMass, KG_PER_OZ],
    ['length', 'mm', readLength, 1],
    ['length', 'cm', readLength, 10],
    ['length', 'in', readLength, MM_PER_IN],
    ['time', 'min', readDuration, 1],
    ['time', 'h', readDuration, 60],
    ['time', 's', readDuration, 1 / 60],
  ])('a %s printed in %s is read back', (_kind, unit, read, inBase) => {
    fc.assert(
      fc.property(positive, spaced, (value, space) => {
        const found = read(`${value / inBase}${space}${unit}`, '--option');
        expect(relativeGap(found, value)).toBeLessThan(1e-12);
      }),
    );
  });

  test('a decimal comma reads like a decimal point wherever it cannot be a thousands mark', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 5000 }),
        fc.integer({ min: 1, max: 99 }),
        (whole, part) => {
          const fraction = String(part).padStart(2, '0');
          const withComma = readMass(`${whole},${fraction} kg`, '--weight');
          expect(withComma).toBe(readMass(`${whole}.${fraction} kg`, '--weight'));
        },
      ),
    );
  });

  test('temperatures printed in either scale are read back', () => {
    fc.assert(
      fc.property(fc.integer({ min: -27_315, max: 40_000 }), spaced, (hundredths, space) => {
        const tempC = hundredths / 100;
        expect(Math.abs(readTemperature(`${tempC}${space}°C`, '--oven') - tempC)).toBe(0);
        const tempF = Math.max(tempC * 1.8 + 32, -459.67);
        const gap = Math.abs(readTemperature(`${tempF.toFixed(9)}F`, '--oven') - tempC);
        expect(gap).toBeLessThan(1e-9);
      }),
    );
  });

  test('pounds and ounces add up', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 40 }),
        fc.integer({ min: 1, max: 15 }),
        spaced,
        (lb, oz, space) => {
          const found = readMass(`${lb}${space}lb${space}${oz}${space}oz`, '--weight');
          expect(relativeGap(found, lb * KG_PER_LB + oz * KG_PER_OZ)).toBeLessThan(1e-12);
        },
      ),
    );
  });

  test('every minute of the day is read back in 24 and in 12 hours', () => {
    for (let minutes = 0; minutes < 1440; minutes++) {
      const hour = Math.floor(minutes / 60);
      const minute = String(minutes % 60).padStart(2, '0');
      expect(readClock(`${hour}:${minute}`, '--serve')).toBe(minutes);
      const half = hour < 12 ? 'am' : 'pm';
      expect(readClock(`${hour % 12 || 12}:${minute} ${half}`, '--serve')).toBe(minutes);
    }
  });

  test('sizes written down are read back in their order', () => {
    const places = fc.uniqueArray(fc.integer({ min: 0, max: 600 }), {
      minLength: 1,
      maxLength: 20,
    });
    fc.assert(
      fc.property(places, fc.constantFrom(', ', '; ', ',', ';'), (ats, separator) => {
        const text = ats.map((at) => `${at + 100}mm@${at}mm`).join(separator);
        expect(readMeasures(text, '--girth')).toEqual(
          ats.map((at) => ({ sizeMm: at + 100, atMm: at })),
        );
      }),
    );
  });
});
