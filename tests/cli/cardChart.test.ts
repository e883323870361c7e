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
import { bandsOn } from '../../packages/cli/src/show/card/bands.js';
import {
  CHART_FORMS,
  type ChartFormName,
  cardChart,
  cardChartModel,
  cardCharts,
} from '../../packages/cli/src/show/card/cardChart.js';
import { SMALLEST_PT } from '../../packages/cli/src/show/card/cardModel.js';
import { ACCENT, GREYS, inkPng } from '../../packages/cli/src/show/inkPng.js';
import { initials } from '../../packages/cli/src/show/section.js';

// Drawing needs the fonts in packages/cli/dist, as `pnpm build` or `pnpm test` leaves them.

const canvasModule: typeof import('../../packages/cli/node_modules/@napi-rs/canvas/index.js') =
  createRequire(new URL('../../packages/cli/package.json', import.meta.url))('@napi-rs/canvas');
const { createCanvas, loadImage } = canvasModule;

const COARSE = { stations: 10, shells: 12 } as const; // enough for what does not hang on the mesh
const PIXEL_RATIO = 4;

/** Sizes [CSS pixels: points where it is printed as wide as it is made]. */
const SIZES: Readonly<Record<ChartFormName, readonly [width: number, height: number]>> = {
  wide: [364, 130],
  middle: [250, 104],
  small: [150, 83],
};

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

beforeAll(() => {
  for (const form of CHART_FORMS) draw(plain, 'metric', form); // the first of each loads the canvas afresh
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

/** Draws a form of the chart. */
function draw(plan: Plan, units: UnitSystem, form: ChartFormName) {
  const chart = cardChart(plan, units, form);
  expect(chart.png.length).toBeGreaterThan(1000); // it is drawn when it is asked for
  return chart;
}

/** Where a value lies, from the numbers along an axis. */
function scaleOf(numbers: readonly Box[], middle: (box: Box) => number): (value: number) => number {
  const [first, last] = [numbers[0], numbers[numbers.length - 1]];
  const per = (middle(last) - middle(first)) / (Number(last.text) - Number(first.text));
  return (value) => middle(first) + per * (value - Number(first.text));
}
const isNumber = ({ text }: Box): boolean => /^\d+$/.test(text);
const minutesScale = (height: number): ((minutes: number) => number) =>
  scaleOf(
    written.filter((box) => isNumber(box) && box.top > height - 14),
    ({ left, right }) => (left + right) / 2,
  );
const temperatureScale = (height: number): ((temperature: number) => number) =>
  scaleOf(
    written.filter((box) => isNumber(box) && box.right < 22 && box.bottom < height - 11),
    ({ y }) => y,
  );

describe.each(CHART_FORMS.flatMap((form) => systems.map((units) => [form, units] as const)))(
  'the %s form on a card in %s units',
  (form, units) => {
    const [width, height] = SIZES[form];
    describe.each(plans)('%s', (_, plan) => {
      test('is written without overlaps, inside the picture, and not below the smallest print at its least width', () => {
        const { leastWidthPt } = draw(plan, units, form);
        expect(written.length).toBeGreaterThan(form === 'small' ? 9 : 12);
        for (const [i, box] of written.entries()) {
          expect((box.px * leastWidthPt) / width, box.text).toBeGreaterThanOrEqual(
            SMALLEST_PT - 1e-9,
          );
          expect(box.left, box.text).toBeGreaterThanOrEqual(0);
          expect(box.top, box.text).toBeGreaterThanOrEqual(0);
          expect(box.right, box.text).toBeLessThanOrEqual(width);
          expect(box.bottom, box.text).toBeLessThanOrEqual(height);
          for (const other of written.slice(i + 1)) {
            expect(overlap(box, other), `"${box.text}" on "${other.text}"`).toBe(false);
          }
        }
      });

      test('has its dots on the aimed-at line, and no line through their words', () => {
        draw(plan, units, form);
        const { marks, meat } = cardChartModel(plan, units, form);
        const x = minutesScale(height);
        const y = temperatureScale(height);
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

      if (form !== 'wide') return; // the others name no bands
      test('names each band where it lies, and none that the legend lacks', () => {
        draw(plan, units, form);
        const y = temperatureScale(height);
        const { stripes } = cardChartModel(plan, units);
        const legend = bandsOn(plan).map(initials);
        for (const { name } of stripes) if (name !== '') expect(legend).toContain(name);
        const named = stripes.filter(
          ({ name }) => name !== '' && written.some(({ text }) => text === name),
        );
        expect(named.some(({ aimed }) => aimed)).toBe(true);
        for (const { name, from, to } of named) {
          const { y: middle } = boxOf(name);
          expect(middle, name).toBeGreaterThan(y(to) - 1.5);
          expect(middle, name).toBeLessThan(y(from) + 1.5);
        }
      });
    });
  },
);

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

  test('the one line that matters in the small form', () => {
    const { meat, marks } = cardChartModel(plain, 'metric', 'small');
    expect(meat.lines.map(({ kind }) => kind)).toEqual(['aimed']);
    expect(marks.map(({ kind }) => kind)).toEqual(['pull', 'peak']);
  });

  test('the same in words, for those who cannot see it', () => {
    const { alt } = cardChart(plain, 'us', 'small');
    const { pull, peak } = plain;
    expect(alt).toMatch(/^Chart of the temperatures while cooking\. /);
    expect(alt).toContain('The centre of the middle slice starts at 39 °F');
    expect(alt).toContain(
      `pulled at ${temperatureText(pull.centreC, 'us')} after ${Math.round(pull.atMinutes)} min; ` +
        `it peaks at 133 °F after ${Math.round(peak.atMinutes)} min.`,
    );
    expect(cardChart(bath, 'metric', 'wide').alt).toContain('it climbs no further');
    expect(cardChart(strict, 'metric', 'wide').alt).toContain('the coldest spot');
  });
});

describe('the picture', () => {
  test('is drawn when its pixels are asked for, and then once', () => {
    const charts = cardCharts(plain, 'metric');
    expect(charts.map(({ leastWidthPt }) => leastWidthPt)).toEqual(
      charts.map(({ leastWidthPt }) => leastWidthPt).sort((a, b) => b - a),
    );
    expect(written).toEqual([]);
    const [{ png }] = charts;
    const { length } = written;
    expect(length).toBeGreaterThan(0);
    expect(charts[0].png).toBe(png);
    expect(written.length).toBe(length);
  });

  test('is an opaque PNG file of 16 shades, small, and the same every time', () => {
    const [width, height] = SIZES.wide;
    const first = cardChart(plain, 'metric', 'wide');
    const png = Buffer.from(first.png);
    expect(png.subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a');
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([first.widthPx, first.heightPx]);
    expect([first.widthPx, first.heightPx]).toEqual([PIXEL_RATIO * width, PIXEL_RATIO * height]);
    expect([png[24], png[25]], 'bits of a pixel, by palette').toEqual([4, 3]);
    expect(png.length).toBeLessThan(60_000);
    draw(strict, 'us', 'wide'); // the canvas is used again and again
    expect(png.equals(cardChart(plain, 'metric', 'wide').png)).toBe(true);
    expect(png.equals(cardChart(plain, 'us', 'wide').png)).toBe(false);
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
