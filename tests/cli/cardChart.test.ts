import { createRequire } from 'node:module';
import {
  type Plan,
  type PlanRequest,
  planCook,
  rest,
  roastIn,
  roundRoast,
  SCALES,
  searInOven,
  searInPan,
  temper,
  temperatureText,
  tenderloin,
  type UnitSystem,
  waterBath,
} from '@roastsim/core';
import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { cardChart, cardChartModel } from '../../packages/cli/src/show/card/cardChart.js';
import { ACCENT, GREYS, inkPng } from '../../packages/cli/src/show/inkPng.js';

// Drawing needs the fonts in packages/cli/dist, as `pnpm build` or `pnpm test` leaves them.

const canvasModule: typeof import('../../packages/cli/node_modules/@napi-rs/canvas/index.js') =
  createRequire(new URL('../../packages/cli/package.json', import.meta.url))('@napi-rs/canvas');
const { createCanvas, loadImage } = canvasModule;

const COARSE = { stations: 10, shells: 12 } as const; // enough for what does not hang on the mesh
const SMALLEST_PX = (8 * 128.4) / 118; // 8 pt where a chart made for 128.4 mm is printed 118 mm wide
const WIDTH = 364; // CSS pixels: points at 128.4 mm
const HEIGHT = 130;

const untilPulled = { minutes: 0 };
const whole = tenderloin({ massKg: 2.2 });
const usual: PlanRequest = {
  before: [temper({ minutes: 30 })],
  heat: roastIn({ ovenC: 230, until: untilPulled }),
  after: [rest({ minutes: 20 })],
};
const planOf = (request: Partial<PlanRequest> = {}, roast = whole): Plan =>
  planCook(roast, { ...usual, ...request }, COARSE);

const plain = planOf();
const strict = planOf({ atRisk: true, aim: { doneness: 75 } });
const bath = planOf({
  heat: waterBath({ bathC: 58, until: untilPulled }),
  aim: { doneness: 57 },
  after: [],
});
const plans: readonly (readonly [string, Plan])[] = [
  ['a hot oven', plain],
  [
    'a sear first and a slow oven',
    planOf({
      before: [temper({ minutes: 30 }), searInPan()],
      heat: roastIn({ ovenC: 110, fan: true, start: 'cold', until: untilPulled }),
    }),
  ],
  ['a bath', bath],
  [
    'a bath and a rest',
    planOf({ heat: waterBath({ bathC: 58, until: untilPulled }), aim: { doneness: 57 } }),
  ],
  [
    'a sear last',
    planOf({
      heat: roastIn({ ovenC: 120, until: untilPulled }),
      after: [searInPan(), rest({ minutes: 10, tented: false })],
    }),
  ],
  [
    'eight stages',
    planOf({
      before: [
        temper({ minutes: 30 }),
        searInPan(),
        rest({ minutes: 6 }),
        searInOven({}),
        roastIn({ ovenC: 250, until: { minutes: 10 } }),
      ],
      heat: roastIn({ ovenC: 110, until: untilPulled }),
      after: [searInPan(), rest({ minutes: 8 })],
    }),
  ],
  [
    'an early pull and a long rest',
    planOf({ pull: { centreC: 35 }, after: [rest({ minutes: 60 })] }, tenderloin({ massKg: 1 })),
  ],
  ['nothing but an oven', planOf({ before: [], after: [] })],
  ['the strict rules', strict],
  ['the other scale, well done', planOf({ aim: { scale: SCALES.amsa, doneness: 'well-done' } })],
  [
    'a roast of even thickness',
    planOf({}, roundRoast({ massKg: 1.13, diameters: [{ sizeMm: 88 }] })),
  ],
];
const systems: readonly UnitSystem[] = ['metric', 'us'];

interface Box {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** Where the canvas was told to write: half-way up the letters, for numbers of axes and names of bands. */
  readonly y: number;
  readonly px: number;
}

/** Every word written and every dot drawn while a chart is made, axes included [CSS pixels]. */
const written: Box[] = [];
const dots: { readonly x: number; readonly y: number }[] = [];

const prototype = Object.getPrototypeOf(createCanvas(1, 1).getContext('2d'));

beforeAll(async () => {
  await cardChart(plain, 'metric'); // the first chart loads the canvas afresh
  const { fillText, arc } = prototype;
  vi.spyOn(prototype, 'fillText').mockImplementation(function (
    this: ReturnType<ReturnType<typeof createCanvas>['getContext']>,
    ...words: unknown[]
  ) {
    const [text, x, y] = words as [string, number, number];
    const { a, e, f } = this.getTransform();
    const size = this.measureText(text);
    const at = { x: x + e / a, y: y + f / a };
    written.push({
      text,
      left: at.x - size.actualBoundingBoxLeft,
      right: at.x + size.actualBoundingBoxRight,
      top: at.y - size.actualBoundingBoxAscent,
      bottom: at.y + size.actualBoundingBoxDescent,
      y: at.y,
      px: Number(/([\d.]+)px/.exec(this.font)?.[1]),
    });
    fillText.apply(this, words);
  });
  vi.spyOn(prototype, 'arc').mockImplementation(function (this: unknown, ...circle: unknown[]) {
    const [x, y] = circle as [number, number];
    dots.push({ x, y });
    arc.apply(this, circle);
  });
});
beforeEach(() => {
  written.length = 0;
  dots.length = 0;
});
afterAll(() => {
  vi.restoreAllMocks();
});

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

const boxOf = (text: string): Box => {
  const found = written.filter((box) => box.text === text);
  if (found.length !== 1) throw new Error(`"${text}" is written ${found.length} times`);
  return found[0];
};

/** Where a value lies, from the numbers along an axis. */
function scaleOf(numbers: readonly Box[], middle: (box: Box) => number): (value: number) => number {
  const [first, last] = [numbers[0], numbers[numbers.length - 1]];
  const per = (middle(last) - middle(first)) / (Number(last.text) - Number(first.text));
  return (value) => middle(first) + per * (value - Number(first.text));
}
const isNumber = ({ text }: Box): boolean => /^\d+$/.test(text);
const minutesScale = (): ((minutes: number) => number) =>
  scaleOf(
    written.filter((box) => isNumber(box) && box.top > HEIGHT - 14),
    ({ left, right }) => (left + right) / 2,
  );
const temperatureScale = (): ((temperature: number) => number) =>
  scaleOf(
    written.filter((box) => isNumber(box) && box.right < 22 && box.bottom < HEIGHT - 11),
    ({ y }) => y,
  );

describe.each(systems)('on a card in %s units', (units) => {
  describe.each(plans)('%s', (_, plan) => {
    test('is written without overlaps, inside the picture, and not too small', async () => {
      await cardChart(plan, units);
      expect(written.length).toBeGreaterThan(12);
      for (const [i, box] of written.entries()) {
        expect(box.px, box.text).toBeGreaterThanOrEqual(SMALLEST_PX);
        expect(box.left, box.text).toBeGreaterThanOrEqual(0);
        expect(box.top, box.text).toBeGreaterThanOrEqual(0);
        expect(box.right, box.text).toBeLessThanOrEqual(WIDTH);
        expect(box.bottom, box.text).toBeLessThanOrEqual(HEIGHT);
        for (const other of written.slice(i + 1)) {
          expect(overlap(box, other), `"${box.text}" on "${other.text}"`).toBe(false);
        }
      }
    });

    test('has its dots on the aimed-at line, and no line through their words', async () => {
      await cardChart(plan, units);
      const { marks, meat } = cardChartModel(plan, units);
      const x = minutesScale();
      const y = temperatureScale();
      expect(dots).toHaveLength(marks.length);
      for (const [i, mark] of marks.entries()) {
        expect(Math.abs(dots[i].x - x(mark.x)), mark.text).toBeLessThan(1);
        expect(Math.abs(dots[i].y - y(mark.y)), mark.text).toBeLessThan(1);
        const box = boxOf(mark.text);
        for (const { points, label } of meat.lines) {
          const through = points.filter(
            (point) =>
              x(point.x) > box.left &&
              x(point.x) < box.right &&
              y(point.y) > box.top &&
              y(point.y) < box.bottom,
          );
          expect(through, `${label} through "${mark.text}"`).toEqual([]);
        }
      }
    });

    test('names each band where it lies', async () => {
      await cardChart(plan, units);
      const y = temperatureScale();
      const { stripes } = cardChartModel(plan, units);
      const named = stripes.filter(({ name }) => written.some(({ text }) => text === name));
      expect(named.some(({ aimed }) => aimed)).toBe(true);
      for (const { name, from, to } of named) {
        const { y: middle } = boxOf(name);
        expect(middle, name).toBeGreaterThan(y(to) - 1.5);
        expect(middle, name).toBeLessThan(y(from) + 1.5);
      }
    });
  });
});

describe('what the chart on a card shows', () => {
  test('centres alone, in short words', () => {
    const { meat, around, head, stages, marks, stripes } = cardChartModel(plain, 'metric');
    expect(head).toBeUndefined(); // the card has a title and prints the notices
    expect(around).toBeUndefined();
    expect(meat.lines.map(({ kind, label }) => [kind, label])).toEqual([
      ['aimed', 'middle'],
      ['thicker', 'thickest'],
      ['thinner', 'thinnest'],
    ]);
    expect(stages.map(({ names }) => names[0])).toEqual(['counter', 'oven 230 °C', 'rest']);
    expect(marks.map(({ text }) => text)).toEqual([
      `pull ${temperatureText(plain.pull.centreC, 'metric')}`,
      `peak ${temperatureText(plain.peak.centreC, 'metric')}`,
    ]);
    expect(stripes.map(({ name }) => name)).toContain('MR');
  });

  test('as many points as can be told apart, among them all that matter', () => {
    const { points } = cardChartModel(bath, 'metric').meat.lines[0];
    expect(points.length).toBeLessThan(bath.history.rows);
    expect(points.length).toBeLessThanOrEqual(320);
    const times = points.map(({ x }) => x);
    for (const row of [0, bath.pull.row, bath.peak.row, bath.history.rows - 1]) {
      expect(times).toContain(bath.history.seconds[row] / 60);
    }
  });

  test('the same in words, for those who cannot see it', async () => {
    const { alt } = await cardChart(plain, 'us');
    const { pull, peak } = plain;
    expect(alt).toMatch(/^Chart of the temperatures while cooking\. /);
    expect(alt).toContain('The centre of the middle slice starts at 39 °F');
    expect(alt).toContain(
      `pulled at ${temperatureText(pull.centreC, 'us')} after ${Math.round(pull.atMinutes)} min; ` +
        `it peaks at 133 °F after ${Math.round(peak.atMinutes)} min.`,
    );
    expect((await cardChart(bath, 'metric')).alt).toContain('it climbs no further');
    expect((await cardChart(strict, 'metric')).alt).toContain('the coldest spot');
  });
});

describe('the picture', () => {
  test('is an opaque PNG file of 16 shades, small, and the same every time', async () => {
    const first = await cardChart(plain, 'metric');
    const png = Buffer.from(first.png);
    expect(png.subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a');
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([first.widthPx, first.heightPx]);
    expect([first.widthPx, first.heightPx]).toEqual([4 * WIDTH, 4 * HEIGHT]);
    expect([png[24], png[25]], 'bits of a pixel, by palette').toEqual([4, 3]);
    expect(png.length).toBeLessThan(60_000);
    await cardChart(strict, 'us'); // the canvas is used again and again
    expect(png.equals((await cardChart(plain, 'metric')).png)).toBe(true);
    expect(png.equals((await cardChart(plain, 'us')).png)).toBe(false);
  });

  test('keeps greys and the one colour, and takes what lies between to the nearest', async () => {
    const colours = [
      ...GREYS.map((grey) => [grey, grey, grey]),
      [...ACCENT],
      [249, 249, 249],
      [0xbd, 0x8f, 0x8c], // half-way from the colour to white
    ];
    const width = colours.length; // an odd number would leave half a byte over
    const pixels = (count: number): Uint8ClampedArray =>
      Uint8ClampedArray.from(colours.slice(0, count).flatMap((rgb) => [...rgb, 255]));
    for (const count of [width, width - 1]) {
      const png = inkPng({ data: pixels(count), width: count, height: 1 }, 10);
      const canvas = createCanvas(count, 1);
      const ctx = canvas.getContext('2d');
      ctx.drawImage(await loadImage(png), 0, 0);
      const { data } = ctx.getImageData(0, 0, count, 1);
      const shown = Array.from({ length: count }, (_, i) => [...data.subarray(4 * i, 4 * i + 3)]);
      expect(shown.slice(0, GREYS.length + 1)).toEqual(colours.slice(0, GREYS.length + 1));
      expect(shown[GREYS.length + 1]).toEqual([244, 244, 244]);
      if (count < width) continue;
      const [red, green] = shown[width - 1];
      expect(red - green).toBeGreaterThan(30);
      expect(Math.abs(green - 0x8f)).toBeLessThanOrEqual(16); // half a step of the seven tints
    }
  });
});
