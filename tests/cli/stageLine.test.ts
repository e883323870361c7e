import {
  type Point,
  RoastError,
  rest,
  roastIn,
  type Stage,
  searInOven,
  searInPan,
  temper,
  type Until,
  waterBath,
} from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { withSettings } from '../../packages/cli/src/read/settings.js';
import { lineUnits, readStageLine, type StageLine } from '../../packages/cli/src/read/stageLine.js';
import { stageLineText } from '../../packages/cli/src/show/stageLineText.js';
import { roastsim } from '../support/cli.js';
import { roastsimInside } from '../support/cliInside.js';

const PROBE: Point = { atMm: 213.7 };
const read = (text: string): StageLine => readStageLine(text, '--stages', PROBE);
const stagesOf = (text: string): readonly Stage[] => read(text).stages;
const searched: Until = { minutes: 0 };
const at45: Until = { reachesC: 45, at: PROBE };

describe('a stage line', () => {
  test.each<[string, Stage[]]>([
    [
      'counter 30min, pan 230C 4x90s, oven 230C fan to pull, rest 20min foil',
      [
        temper({ minutes: 30 }),
        searInPan(),
        roastIn({ ovenC: 230, fan: true, until: searched }),
        rest({ minutes: 20 }),
      ],
    ],
    [
      'bath 56C 2h, pan 250C 2x60s, rest 5min',
      [
        waterBath({ bathC: 56, until: { minutes: 120 } }),
        searInPan({ panC: 250, faces: 2, secondsPerFace: 60 }),
        rest({ minutes: 5 }),
      ],
    ],
    [
      'oven 100C to 45C, oven-sear 250C 8min, rest 10min open',
      [roastIn({ ovenC: 100, until: at45 }), searInOven(), rest({ minutes: 10, tented: false })],
    ],
  ])('says a whole cook: %s', (text, stages) => {
    expect(stagesOf(text)).toEqual(stages);
  });

  test.each<[string, Stage]>([
    ['Counter 1h20 at 18 °C', temper({ minutes: 80, roomC: 18 })],
    ['counter to 10C', temper({ until: { reachesC: 10, at: PROBE } })],
    ['PAN', searInPan()],
    ['pan 2 x 60 s 482°F', searInPan({ panC: 250, faces: 2, secondsPerFace: 60 })],
    ['pan sear 4 faces 1min 30s each', searInPan()],
    ['skillet 6×45s', searInPan({ faces: 6, secondsPerFace: 45 })],
    ['oven 446F from cold', roastIn({ ovenC: 230, start: 'cold', until: searched })],
    ['roast fan 230 degrees C until 45C', roastIn({ ovenC: 230, fan: true, until: at45 })],
    ['oven 99,5C 2,5h', roastIn({ ovenC: 99.5, until: { minutes: 150 } })],
    [
      'oven 120C to 45C coldest',
      roastIn({ ovenC: 120, until: { reachesC: 45, at: { atMm: 'coldest' } } }),
    ],
    [
      'oven 120C to 45C at 21cm',
      roastIn({ ovenC: 120, until: { reachesC: 45, at: { atMm: 210 } } }),
    ],
    [
      'oven 120C to 45C off-axis 25%',
      roastIn({ ovenC: 120, until: { reachesC: 45, at: { ...PROBE, offAxis: 0.25 } } }),
    ],
    [
      'oven at 120C to 45C at 0.2m off-axis 1/2',
      roastIn({ ovenC: 120, until: { reachesC: 45, at: { atMm: 200, offAxis: 0.5 } } }),
    ],
    ['oven sear for 8min', searInOven()],
    ['water bath 131F to pull', waterBath({ bathC: 55, until: searched })],
    ['rest under foil for 20 minutes at 25C', rest({ minutes: 20, roomC: 25 })],
    ['rest uncovered 5m', rest({ minutes: 5, tented: false })],
  ])('is read tolerantly: %s', (text, stage) => {
    expect(stagesOf(text)).toEqual([stage]);
  });

  test('separators are commas, semicolons and "then"', () => {
    for (const text of [
      'oven 230C; rest 5min',
      'oven 230C then rest 5min',
      'oven 230C, then rest 5min',
    ]) {
      expect(stagesOf(text).map(({ kind }) => kind)).toEqual(['roast', 'rest']);
    }
  });

  test('the pull is searched for where the last heat says so or says nothing', () => {
    expect(read('oven 230C, rest 5min').pullSearched).toBe(true);
    expect(read('oven 100C 1h, oven 230C to pull').pullSearched).toBe(true);
    expect(read('oven 230C 40min, rest 5min').pullSearched).toBe(false);
    expect(read('pan 230C 4x90s').pullSearched).toBe(false);
  });

  test('the units typed are found', () => {
    expect(lineUnits('oven 446F to pull')).toBe('us');
    expect(lineUnits('counter 30min, oven 230 °C')).toBe('metric');
    expect(lineUnits('counter 30min')).toBeUndefined();
  });

  test.each<[string, RegExp]>([
    ['', /nothing/],
    ['ovn 230C', /"ovn".*did you mean oven\?/],
    ['grill 230C', /there is no stage "grill".*counter, pan, oven/],
    ['230C oven', /begins with its name/],
    ['constructor 5min', /there is no stage "constructor"/],
    ['oven 230C fn to pull', /there is no word "fn".*did you mean fan\?/],
    ['oven 230C constructor', /there is no word "constructor"/],
    ['rest 20min foli', /"foli".*did you mean foil\?/],
    ['rest 20min fan', /"fan" says nothing/],
    ['bath 56C fan', /"fan" says nothing/],
    ['rest to pull', /after "to" stands a temperature/],
    ['oven 230C to plul', /did you mean pull\?/],
    ['oven 230C pull', /write to pull/],
    ['oven 230', /230C for Celsius or 230F/],
    ['oven 230C to 45', /45C for Celsius or 45F/],
    ['oven 230C 40', /40min for minutes/],
    ['oven fan', /its temperature is missing/],
    ['oven 503K', /K is not a unit of temperature/],
    ['oven 230C 1:20', /two ways/],
    ['oven 230C 250C', /twice/],
    ['oven 230C 20min 30min', /twice/],
    ['oven 230C fan fan', /twice/],
    ['oven 230C 20min to 45C', /ends in two ways/],
    ['oven 230C to 45C to pull', /ends in two ways/],
    ['oven 230C coldest', /a place needs the temperature/],
    ['oven 230C to 45C coldest at 20cm', /two places/],
    ['oven 230C to 45C off-axis 3', /0 to 1/],
    ['oven 230C to 45C off-axis', /share of the radius/],
    ['oven 230C -5min', /less than 0/],
    ['oven 23C', /60 to 320.*230/],
    ['oven 230C to 145C', /0 to 120/],
    ['oven 230C 30h', /1440/],
    ['pan 230C 90s', /how many faces.*4x90s/],
    ['pan 230C 4', /how many faces|unit/],
    ['pan 4 sides', /the time on each face is missing.*4x90s/],
    ['pan 4x5s', /10 to 600/],
    ['pan 20x90s', /1 to 12/],
    ['pan 2.5x90s', /whole number/],
    ['oven 230C 4x90s', /only a pan has faces/],
    ['counter', /does not say when it ends/],
    ['oven 100C, oven 200C', /"oven 100C".*does not say when it ends/],
    [
      'oven 100C to pull, bath 56C',
      /only one stage can end at the pull.*accepted: a time or a temp/,
    ],
    ['counter 30, oven 230C', /a time needs a unit \(write 30min for minutes.*30C for Celsius/],
    ['oven 230C, rest 20', /write 20min for minutes/],
    ['oven-sear 8', /write 8min for minutes/],
    ['oven-sear 250 8min', /a temperature needs a unit \(write 250C/],
    ['counter 20 to 10C', /a temperature needs a unit \(write 20C/],
    ['counter 30min at 20', /a temperature needs a unit \(write 20C/],
    ['pan 230C 4x90', /write 90s for seconds/],
    ['counter 30min oven 230C', /a comma is missing before "oven"/],
    ['oven-sear 8min oven-sear 8min', /a comma is missing before "oven-sear"/],
    ['counter 30min water bath 56C', /a comma is missing before "water"/],
    ['oven 230C, ,rest 5min', /comma with no stage/],
    ['oven 230C,', /comma with no stage/],
    ['oven 230C @', /"@" makes no sense/],
    ['oven 230C to 45C at -2cm', /less than 0/],
    ['rest 5min foil open', /not both/],
    [`oven 230C, ${'rest 1min, '.repeat(30)}rest 1min`, /more than 24/],
    ['oven 230C '.repeat(200), /more than 1000/],
  ])('tells what is wrong: "%s"', (text, mentions) => {
    const reading = () => read(text);
    expect(reading).toThrow(RoastError);
    expect(reading).toThrow(mentions);
    expect(reading).toThrow(/^--stages: read /);
  });
});

const anyNumber = (min: number, max: number): fc.Arbitrary<number> =>
  fc.oneof(
    fc.integer({ min: Math.ceil(min), max: Math.floor(max) }),
    fc
      .integer({ min: Math.ceil(10 * min), max: Math.floor(10 * max) })
      .map((tenths) => tenths / 10),
    fc.double({ min: Math.max(min, 1e-6), max, noNaN: true }),
  );
/** A temperature as a person on either side of the ocean types it. */
const anyTempC = (min: number, max: number): fc.Arbitrary<number> =>
  fc.oneof(
    anyNumber(min, max),
    fc
      .integer({ min: Math.ceil(min * 1.8 + 32), max: Math.floor(max * 1.8 + 32) })
      .map((tempF) => ((tempF - 32) * 5) / 9),
  );
const anyPoint: fc.Arbitrary<Point> = fc.oneof(
  fc.constant(PROBE),
  fc
    .tuple(
      fc.oneof(fc.constant('coldest' as const), anyNumber(0, 800)),
      fc.option(fc.double({ min: 0.001, max: 1, noNaN: true }), { nil: undefined }),
    )
    .map(([atMm, offAxis]) => ({ atMm, ...(offAxis === undefined ? {} : { offAxis }) })),
);
const anyMinutes = fc.oneof(
  anyNumber(0, 1440),
  fc.integer({ min: 0, max: 86_400 }).map((seconds) => seconds / 60),
);
const anyUntil: fc.Arbitrary<Until> = fc.oneof(
  anyMinutes.map((minutes) => ({ minutes })),
  fc.tuple(anyTempC(0, 120), anyPoint).map(([reachesC, at]) => ({ reachesC, at })),
);
const anyStage: fc.Arbitrary<Stage> = fc.oneof(
  fc.tuple(anyUntil, anyTempC(5, 45)).map(([until, roomC]) => temper({ until, roomC })),
  fc
    .tuple(anyTempC(120, 350), fc.integer({ min: 1, max: 12 }), anyNumber(10, 600))
    .map(([panC, faces, secondsPerFace]) => searInPan({ panC, faces, secondsPerFace })),
  fc.tuple(anyTempC(60, 320), anyUntil).map(([ovenC, until]) => searInOven({ ovenC, until })),
  fc
    .tuple(anyTempC(60, 320), anyUntil, fc.boolean(), fc.constantFrom('cold', 'preheated'))
    .map(([ovenC, until, fan, start]) => roastIn({ ovenC, until, fan, start })),
  fc
    .tuple(anyUntil, fc.boolean(), fc.oneof(fc.constant(22), anyTempC(5, 45)))
    .map(([until, tented, roomC]) => rest({ until, tented, roomC })),
  fc.tuple(anyTempC(40, 95), anyUntil).map(([bathC, until]) => waterBath({ bathC, until })),
);
const anyStages = fc.array(anyStage, { minLength: 1, maxLength: 6 });

describe('a line that is written', () => {
  it('reads back as exactly the same stages, in either units', () => {
    fc.assert(
      fc.property(anyStages, fc.constantFrom('metric', 'us'), (stages, units) => {
        const text = stageLineText(stages, { units, probe: PROBE });
        const line = read(text);
        expect(line.stages).toEqual(stages);
        expect(line.pullSearched).toBe(false);
        expect(stageLineText(line.stages, { units, probe: PROBE })).toBe(text);
      }),
      { numRuns: 1500 },
    );
  });

  it('keeps the pull that a plan has to find', () => {
    const text =
      'counter 30min, oven 120C to 40C, oven 230C fan from cold to pull, rest 20min foil';
    const { stages, pullSearched } = read(text);
    expect(stageLineText(stages, { units: 'metric', probe: PROBE, pullSearched })).toBe(text);
  });

  test.each([
    ['oven 425F 1h 45min, rest 90s open', 'us', 'oven 425F 1h 45min, rest 1min 30s open'],
    ['oven 425F 2h 30min, rest 2min', 'us', 'oven 425F 2h 30min, rest 2min foil'],
    ['counter 60min at 59F, bath 54.4C 45min', 'metric', 'counter 1h at 15C, bath 54.4C 45min'],
  ] as const)('is short: %s', (text, units, short) => {
    expect(stageLineText(stagesOf(text), { units, probe: PROBE })).toBe(short);
  });
});

describe('any text at all', () => {
  const word = fc.constantFrom(
    ...['counter', 'pan', 'oven', 'oven-sear', 'bath', 'rest', 'to', 'pull', 'at', 'fan', 'cold'],
    ...['off-axis', 'foil', 'open', 'coldest', '30min', '1h', '20', '230C', '446F', '45 °C', '4x'],
    ...[
      '90s',
      '21cm',
      '25%',
      '1:20',
      '-',
      ',',
      ', ',
      ';',
      ' then ',
      'x',
      '°',
      '½',
      '٣',
      '__proto__',
    ],
  );
  it('ends in stages or one clear line', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          { weight: 1, arbitrary: fc.string({ maxLength: 60, unit: 'binary' }) },
          {
            weight: 3,
            arbitrary: fc.array(word, { maxLength: 12 }).map((words) => words.join(' ')),
          },
          {
            weight: 1,
            arbitrary: fc.array(word, { maxLength: 12 }).map((words) => words.join('')),
          },
        ),
        (text) => {
          try {
            const { stages } = read(text);
            if (stages.length === 0) throw new Error('no stage');
          } catch (error) {
            if (!(error instanceof RoastError)) throw error;
            if (!/^--stages: [^\r\n]*$/.test(error.message) || error.message.length > 400)
              throw error;
            if (error.path[0] !== '--stages') throw error;
          }
        },
      ),
      { numRuns: 25_000 },
    );
  });
});

describe('--stages', () => {
  const ROAST = ['--weight', '2.2kg'];

  test('plans what the options plan', async () => {
    const [line, options] = await Promise.all([
      roastsim([...ROAST, '--stages', 'counter 30min, oven 230C to pull, rest 20min', '--json']),
      roastsim([...ROAST, '--oven', '230C', '--json']),
    ]);
    const [byLine, byOptions] = [JSON.parse(line.stdout), JSON.parse(options.stdout)];
    expect({ ...byLine, assumed: [] }).toEqual({ ...byOptions, assumed: [] });
    expect(byLine.stageLine).toMatch(/^counter 30min, oven 230C \d+min( \d+s)?, rest 20min foil$/);
  });

  test('cooks again what a plan hands out', async () => {
    const first = await roastsim([...ROAST, '--oven', '120C', '--sear', '--sear-last', '--json']);
    const { stageLine, pull, peak } = JSON.parse(first.stdout);
    const again = JSON.parse((await roastsim([...ROAST, '--stages', stageLine, '--json'])).stdout);
    expect(again.stageLine).toBe(stageLine);
    expect(again.pull.centreC).toBeCloseTo(pull.centreC, 1);
    expect(again.peak.centreC).toBeCloseTo(peak.centreC, 1);
  });

  test('ends the last heat where the thermometer says, in the slice aimed at', async () => {
    const line = 'counter 10min, oven 200C to 45C, rest 10min open';
    const { stdout } = await roastsim([...ROAST, '--stages', line, '--json', '--at', 'thin']);
    const { pull, aim, stageLine } = JSON.parse(stdout);
    expect(pull.centreC).toBeCloseTo(45, 1);
    expect(aim.at).toBe('thin');
    expect(stageLine).toBe(line);
  });

  test.each<[string, string[], RegExp]>([
    ['an oven', ['--stages', 'oven 230C', '--oven', '230C'], /--oven: the stages are given too/],
    ['a rest', ['--stages', 'oven 230C', '--rest', '5min'], /--rest: the stages are given too/],
    ['two pulls', ['--stages', 'oven 230C 40min', '--pull', '50C'], /--pull: the stages say when/],
    [
      'no heat',
      ['--stages', 'counter 30min, pan 230C 4x90s'],
      /--stages: there is no oven or bath/,
    ],
    [
      'a guest',
      ['--stages', 'oven 230C 1h', '--guests', '4', '--at', 'guests'],
      /--stages: the guests/,
    ],
    ['a slip', ['--stages', 'oven 230C fan to pul'], /--stages: .*did you mean pull/],
    ['too much', ['--stages', 'oven 60C to 80C, rest 5min'], /--stages: .*never reaches/],
    ['a pull too late', ['--stages', 'oven 230C to 95C'], /--stages: .*20 to 90/],
  ])('refuses %s beside it', async (_what, args, mentions) => {
    const { code, stdout, stderr } = await roastsim([...ROAST, ...args]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(mentions);
    expect(stderr.trimEnd()).not.toMatch(/\n/);
  });

  test("overrules a shop's usual oven", () => {
    const stages = 'oven 200C, rest 5min';
    expect(withSettings({ stages }, { oven: '230C' })).toEqual({ stages });
    expect(withSettings({}, { oven: '230C' })).toEqual({ oven: '230C' });
  });

  test('answers in the units of the line', async () => {
    const { stdout } = await roastsim([
      '--length',
      '40cm',
      '--diameter',
      '8cm',
      '--cut',
      'centre',
      '--stages',
      'oven 400F',
      '--quiet',
    ]);
    expect(stdout).toMatch(/^Pull at \d+ °F/);
  });
});

test('a place beyond the end of the roast is refused, not moved to it', async () => {
  const refused = async (...args: string[]): Promise<string> => {
    const { code, stdout, stderr } = await roastsimInside(args);
    expect([code, stdout]).toEqual([2, '']);
    return stderr;
  };
  const weight = ['--weight', '2.2kg'];
  expect(await refused(...weight, '--stages', 'oven 230C to 45C at 99cm, rest 10min')).toBe(
    'roastsim: --stages: read "oven 230C to 45C at 99cm"; the place is beyond the end of the roast; ' +
      'accepted: a place from 0 to 52.3 cm\n',
  );
  expect(await refused(...weight, '--stages', 'oven 450F to 110F at 40in')).toMatch(
    /accepted: a place from 0 to 20\.6 in\n$/,
  );
  const ways = ['oven 230C to pull', 'counter to 12C at 99cm, oven 230C to pull'];
  expect(await refused('compare', ...weight, ...ways.flatMap((way) => ['--way', way]))).toMatch(
    /^roastsim: --way: read "counter to 12C at 99cm"; [^\n]* 52\.3 cm\n$/,
  );
  const end = await roastsimInside([...weight, '--stages', 'oven 230C to 45C at 52.3cm']);
  expect(end.code).toBe(0);
});
