import { RoastError } from '@roastsim/core';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import {
  type CardModel,
  PAPERS,
  type Paper,
  type Picture,
  SMALLEST_PT,
} from '../../packages/cli/src/show/card/cardModel.js';
import type { Drawing, Mark } from '../../packages/cli/src/show/card/drawing.js';
import { guestGroups, guestLines } from '../../packages/cli/src/show/card/guestLines.js';
import { layoutCard } from '../../packages/cli/src/show/card/layout.js';
import type { Block, BlockName, Op, Page } from '../../packages/cli/src/show/card/page.js';
import {
  type PaintedText,
  type Painter,
  paint,
} from '../../packages/cli/src/show/card/pagePaint.js';
import { cardFont, cardMeasure } from '../../packages/cli/src/show/card/textFonts.js';
import { fullCard, longName, plainCard, shopCard, tableCard } from '../support/cardModels.js';

// Needs the fonts in packages/cli/dist, as `pnpm build` or `pnpm test` leaves them.

const MM = 72 / 25.4;
const LEAST_MARGIN_MM = 8;
const ROUNDING_PT = 0.01;

const papers = ['a5', 'a4', 'letter'] as const satisfies readonly Paper[];
const layout = (card: CardModel): Page => layoutCard(card, cardMeasure);

interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const boxOf = ({
  x,
  y,
  width,
  height,
}: {
  x: number;
  y: number;
  width: number;
  height: number;
}): Box => ({
  left: x,
  top: y,
  right: x + width,
  bottom: y + height,
});

const overlap = (a: Box, b: Box): boolean =>
  Math.min(a.right, b.right) - Math.max(a.left, b.left) > ROUNDING_PT &&
  Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > ROUNDING_PT;

const within = (inner: Box, outer: Box): boolean =>
  inner.left >= outer.left - ROUNDING_PT &&
  inner.top >= outer.top - ROUNDING_PT &&
  inner.right <= outer.right + ROUNDING_PT &&
  inner.bottom <= outer.bottom + ROUNDING_PT;

/** What the outlines of the letters cover; not the widths that the layout reckons with. */
function inkOf({ text, x, baseline, sizePt, weight }: PaintedText): Box | undefined {
  const font = cardFont(weight);
  const { glyphs, positions } = font.layout(text);
  const em = sizePt / font.unitsPerEm;
  let pen = 0;
  let ink: Box | undefined;
  for (const [i, { bbox }] of glyphs.entries()) {
    if (bbox.maxX > bbox.minX) {
      ink = {
        left: Math.min(ink?.left ?? Number.POSITIVE_INFINITY, x + (pen + bbox.minX) * em),
        right: Math.max(ink?.right ?? Number.NEGATIVE_INFINITY, x + (pen + bbox.maxX) * em),
        top: Math.min(ink?.top ?? Number.POSITIVE_INFINITY, baseline - bbox.maxY * em),
        bottom: Math.max(ink?.bottom ?? Number.NEGATIVE_INFINITY, baseline - bbox.minY * em),
      };
    }
    pen += positions[i].xAdvance;
  }
  return ink;
}

/** All that is painted, texts on drawings too. */
function painted(ops: readonly Op[]): { readonly texts: PaintedText[]; readonly others: Box[] } {
  const texts: PaintedText[] = [];
  const others: Box[] = [];
  const points = (all: readonly (readonly [number, number])[]): void => {
    const [xs, ys] = [all.map(([x]) => x), all.map(([, y]) => y)];
    others.push({
      left: Math.min(...xs),
      right: Math.max(...xs),
      top: Math.min(...ys),
      bottom: Math.max(...ys),
    });
  };
  const box = (x: number, y: number, width: number, height: number): void => {
    others.push(boxOf({ x, y, width, height }));
  };
  paint(
    ops,
    {
      text: (text) => texts.push(text),
      box,
      area: (rings) => rings.forEach(points),
      lines: (lines) => lines.forEach(points),
      picture: (_, x, y, width, height) => box(x, y, width, height),
    },
    cardMeasure,
  );
  return { texts, others };
}

const opsOf = ({ parts }: Block): Op[] => parts.flatMap(({ ops }) => ops);
const SIDE_BEARING_PT = 1.5; // letters may reach this far beyond their widths, at the largest print
const paintedOf = (page: Page) => painted(page.blocks.flatMap(opsOf));

/** What is wrong with the geometry of a page: nothing. */
function faultsOf(page: Page, paper: Paper): string[] {
  const faults: string[] = [];
  const { widthMm, heightMm } = PAPERS[paper];
  if (Math.abs(page.widthPt - widthMm * MM) > ROUNDING_PT) faults.push(`width ${page.widthPt}`);
  if (Math.abs(page.heightPt - heightMm * MM) > ROUNDING_PT) faults.push(`height ${page.heightPt}`);
  const margin = LEAST_MARGIN_MM * MM;
  const free = {
    left: margin,
    top: margin,
    right: page.widthPt - margin,
    bottom: page.heightPt - margin,
  };
  for (const [i, block] of page.blocks.entries()) {
    const box = boxOf(block);
    if (!within(box, free)) faults.push(`${block.name} runs into the margin`);
    for (const other of page.blocks.slice(i + 1)) {
      if (overlap(box, boxOf(other))) faults.push(`${block.name} overlaps ${other.name}`);
    }
    const { texts, others } = painted(opsOf(block));
    const inks = texts.map((text) => ({ text, ink: inkOf(text) }));
    const roomy = { ...box, left: box.left - SIDE_BEARING_PT, right: box.right + SIDE_BEARING_PT };
    for (const { text, ink } of inks) {
      if (ink !== undefined && !within(ink, roomy))
        faults.push(`${block.name}: "${text.text}" sticks out`);
      if (text.sizePt < SMALLEST_PT)
        faults.push(`${block.name}: "${text.text}" at ${text.sizePt} pt`);
    }
    for (const other of others)
      if (!within(other, roomy)) faults.push(`${block.name}: something sticks out`);
    for (const op of opsOf(block)) {
      if (op.kind !== 'picture') continue;
      const under = inks.find(({ ink }) => ink !== undefined && overlap(ink, boxOf(op)));
      if (under !== undefined) faults.push(`${block.name}: "${under.text.text}" over a picture`);
    }
    for (const [k, { text, ink }] of inks.entries()) {
      const onto = inks
        .slice(k + 1)
        .find((later) => ink !== undefined && later.ink !== undefined && overlap(ink, later.ink));
      if (onto !== undefined) faults.push(`${block.name}: "${text.text}" over "${onto.text.text}"`);
    }
  }
  return faults;
}

const bare = (text: string): string => text.replace(/\s/g, '');
/** Texts of a block in order, without spaces: lines may break anywhere. */
const saidIn = (page: Page, name: BlockName): string =>
  bare(
    page.blocks
      .filter((block) => block.name === name)
      .flatMap(opsOf)
      .map((op) => (op.kind === 'text' ? op.text : ''))
      .join(''),
  );
const blockOf = (page: Page, name: BlockName): Block => {
  const block = page.blocks.find((candidate) => candidate.name === name);
  if (block === undefined) throw new Error(`the card has no ${name}`);
  return block;
};
const sizesIn = (page: Page, name: BlockName): number[] =>
  opsOf(blockOf(page, name)).flatMap((op) => (op.kind === 'text' ? [op.sizePt] : []));

/** Everything that a card must say, by the block it stands in. */
const wordsOf = (card: CardModel): (readonly [BlockName, string])[] => [
  ...(card.shop === undefined
    ? []
    : [
        ['shop', card.shop.name] as const,
        ...card.shop.address.map((line) => ['shop', line] as const),
      ]),
  ...(card.shop?.footer === undefined ? [] : [['footer', card.shop.footer] as const]),
  ...[card.forWhom, card.pickUp, card.serve].flatMap((text) =>
    text === undefined ? [] : [['order', text] as const],
  ),
  ['title', card.title],
  ['title', card.wanted],
  ...(card.note === undefined ? [] : [['note', card.note] as const]),
  ...card.keys.map(({ label, value, detail }) => ['keys', label + value + detail] as const),
  ...card.steps.map(
    ({ clock = '', minutes, text }) => ['steps', `${clock}${minutes}min${text}`] as const,
  ),
  ...card.legend.map((entry) => ['roast', entry] as const),
  ...card.facts.map(({ label, text }) => ['facts', label + text] as const),
  ...card.notices.map((text) => ['notices', text] as const),
  ...card.cautions.map((text) => ['cautions', text] as const),
];
/** What is said of the guests, in the one form or the other. */
const guestWords = ({ guests, units }: CardModel): readonly (readonly string[])[] => [
  guestLines(guests, units).map(({ who, what }) => who + what),
  guestGroups(guests, units).map(({ what, who }) => `${what}:${who.join(',')}`),
];
const unsaid = (card: CardModel, page: Page): string[] => {
  const missing = (name: BlockName, texts: readonly string[]): string[] =>
    texts
      .filter((text) => !saidIn(page, name).includes(bare(text)))
      .map((text) => `${name}: ${text}`);
  const guests = guestWords(card).map((texts) => missing('guests', texts));
  return [
    ...wordsOf(card).flatMap(([name, text]) => missing(name, [text])),
    ...guests.reduce((a, b) => (b.length < a.length ? b : a)),
  ];
};

let cards: (readonly [name: string, card: CardModel])[];
let shop: CardModel;
let full: CardModel;

beforeAll(async () => {
  shop = await shopCard('a5');
  full = await fullCard('a4');
  const onAll = (name: string, card: CardModel, on: readonly Paper[]) =>
    on.map((paper) => [`${name}, ${paper}`, { ...card, paper }] as const);
  cards = [
    ...onAll('plain', await plainCard(), papers),
    ...onAll('of a shop', shop, papers),
    ...onAll('as long as plausible', full, ['a4', 'letter']),
    ...onAll('as long as plausible but for guests', { ...full, guests: [] }, papers),
    ...onAll('four guests', await tableCard(4, 'short'), papers),
    ...onAll('fourteen guests', await tableCard(14, 'short'), papers),
    ...onAll('fourteen guests without names', await tableCard(14, 'none'), papers),
    ...onAll('fourteen guests with the longest names', await tableCard(14, 'long'), papers),
  ];
});

describe('a card on one page', () => {
  test('nothing overlaps, nothing leaves the page, nothing is set below the smallest print', () => {
    expect(cards.map(([name, card]) => [name, ...faultsOf(layout(card), card.paper)])).toEqual(
      cards.map(([name]) => [name]),
    );
  });

  test('says everything', () => {
    expect(
      cards.flatMap(([name, card]) => unsaid(card, layout(card)).map((what) => `${name}: ${what}`)),
    ).toEqual([]);
  });

  test('shows each drawing and picture once, with words for those who cannot see it', () => {
    for (const [name, card] of cards) {
      const figures = layout(card).blocks.flatMap(({ parts }) =>
        parts.filter(({ role }) => role === 'figure'),
      );
      const shown = figures
        .flatMap(({ ops }) => ops)
        .map((op) =>
          op.kind === 'picture' ? op.picture : op.kind === 'drawing' ? op.drawing : undefined,
        );
      const expected = [
        ...(card.shop?.logo === undefined ? [] : [card.shop.logo]),
        card.roast,
        card.section,
        card.charts.find((chart) => shown.includes(chart)),
      ];
      expect(new Set(shown), name).toEqual(new Set(expected));
      expect(shown.length, name).toBe(expected.length);
      expect(
        figures.every(({ alt = '' }) => alt.length > 0),
        name,
      ).toBe(true);
    }
  });

  test('the three numbers are the largest print, the timetable comes next, warnings are strong', () => {
    for (const [name, card] of cards) {
      const page = layout(card);
      const values = opsOf(blockOf(page, 'keys')).filter(
        (op) => op.kind === 'text' && card.keys.some(({ value }) => bare(value) === bare(op.text)),
      );
      expect(values.length, name).toBe(3);
      const value = Math.min(...values.map((op) => (op.kind === 'text' ? op.sizePt : 0)));
      const others = paintedOf(page)
        .texts.map(({ sizePt }) => sizePt)
        .sort((a, b) => b - a);
      expect(others.slice(0, 3), name).toEqual([value, value, value]);
      expect(value, name).toBeGreaterThan(2 * Math.max(...sizesIn(page, 'steps')));
      expect(Math.max(...sizesIn(page, 'steps')), name).toBeGreaterThanOrEqual(9);
      for (const small of ['facts', 'notices', 'cautions'] as const) {
        expect(Math.max(...sizesIn(page, small).slice(1)), name).toBeLessThan(
          Math.max(...sizesIn(page, 'steps')),
        );
      }
      const weights = opsOf(blockOf(page, 'notices')).map((op) =>
        op.kind === 'text' ? op.weight : 700,
      );
      expect(Math.min(...weights), name).toBeGreaterThanOrEqual(600);
      const marks = opsOf(blockOf(page, 'notices')).filter(
        (op) => op.kind === 'text' && op.text === '!',
      );
      expect(marks.length, name).toBe(card.notices.length);
    }
  });

  test('pictures keep their shape', () => {
    for (const [name, card] of cards) {
      for (const op of layout(card).blocks.flatMap(opsOf)) {
        if (op.kind === 'picture') {
          expect(op.width / op.height, name).toBeCloseTo(
            op.picture.widthPx / op.picture.heightPx,
            6,
          );
        }
      }
    }
  });

  test('the chart is printed in a form whose words are not below the smallest print there', () => {
    const shown = cards.map(([name, card]) => {
      const [picture] = opsOf(blockOf(layout(card), 'chart')).filter((op) => op.kind === 'picture');
      const form = card.charts.map((chart): Picture => chart).indexOf(picture.picture);
      const { leastWidthPt } = card.charts[form]; // what its words say to it: cardChart.test.ts
      expect(picture.width, name).toBeGreaterThanOrEqual(leastWidthPt - ROUNDING_PT);
      return form;
    });
    expect(new Set(shown).size).toBeGreaterThan(1); // or the forms would be for nothing
  });

  test('is refused no words for the sake of its chart: a form that no width suits is not taken', () => {
    const [wide] = shop.charts;
    const page = layout({ ...shop, paper: 'a4', charts: [wide] });
    expect(blockOf(page, 'chart').width).toBeGreaterThanOrEqual(wide.leastWidthPt - ROUNDING_PT);
    expect(faultsOf(page, 'a4')).toEqual([]);
  });

  test('blocks come in the order they are read: down the page, and along it', () => {
    for (const [name, card] of cards) {
      const { blocks } = layout(card);
      const later = blocks.slice(1);
      const ordered = later.every(
        ({ x, y }, i) => y >= blocks[i].y - ROUNDING_PT || x > blocks[i].x,
      );
      expect(ordered, name).toBe(true);
    }
  });

  test('larger paper means larger print', () => {
    const value = (paper: Paper): number =>
      Math.max(...sizesIn(layout({ ...shop, paper }), 'keys'));
    expect(value('a4')).toBeGreaterThan(value('a5') + 5);
    expect(value('letter')).toBeGreaterThan(value('a5') + 5);
  });

  test('fewer words mean larger print', () => {
    const sizes = (card: CardModel): number => Math.max(...sizesIn(layout(card), 'steps'));
    const brief = {
      ...shop,
      notices: shop.notices.slice(0, 1),
      cautions: shop.cautions.slice(0, 3),
    };
    expect(sizes(brief)).toBeGreaterThan(sizes(shop));
  });

  test('is the same each time', () => {
    expect(layout(full)).toEqual(layout(full));
  });
});

describe('a drawing on the page', () => {
  const word = (anchor: 'start' | 'middle' | 'end', sizePt = 12): Mark => ({
    kind: 'text',
    at: [10, 5],
    text: 'MR',
    sizePt,
    anchor,
    bold: true,
    tone: 1,
  });
  const line = (x: number, tone: number): Mark => ({
    kind: 'line',
    points: [
      [x, 0],
      [x, 10],
    ],
    widthMm: 0.2,
    tone,
  });
  const put = (
    marks: readonly Mark[],
    scale: number,
  ): { texts: PaintedText[]; strokes: number[] } => {
    const drawing: Drawing = { widthMm: 20, heightMm: 10, marks, alt: 'a drawing' };
    const texts: PaintedText[] = [];
    const strokes: number[] = [];
    const painter: Painter = {
      text: (text) => texts.push(text),
      lines: (lines) => strokes.push(lines.length),
      box: () => {},
      area: () => {},
      picture: () => {},
    };
    paint([{ kind: 'drawing', drawing, x: 100, y: 50, scale }], painter, cardMeasure);
    return { texts, strokes };
  };

  test('texts start, stand round or end at their point', () => {
    const { texts } = put([word('start'), word('middle'), word('end')], 2);
    const width = cardMeasure('MR', 700) * 24;
    const at = 100 + 20 * MM;
    expect(texts.map(({ x }) => x)).toEqual(
      [at, at - width / 2, at - width].map((x) => expect.closeTo(x, 6)),
    );
    expect(texts.map(({ baseline }) => baseline)).toEqual(
      texts.map(() => expect.closeTo(50 + 10 * MM, 6)),
    );
    expect(texts.map(({ weight }) => weight)).toEqual([700, 700, 700]);
  });

  test('texts shrink with it, but not below the smallest print', () => {
    const sizes = (scale: number): number[] =>
      put([word('start')], scale).texts.map(({ sizePt }) => sizePt);
    expect([2, 1, 0.75, 0.5].flatMap(sizes)).toEqual([24, 12, 9, SMALLEST_PT]);
  });

  test('neighbouring lines of one look are one stroke, in order', () => {
    expect(put([line(1, 1), line(2, 1), line(3, 0.5), line(4, 1)], 1).strokes).toEqual([2, 1, 1]);
  });
});

describe('long texts', () => {
  test('a word wider than its column is broken, and nothing of it is lost', () => {
    const card = { ...shop, forWhom: 'W'.repeat(80), note: 'x'.repeat(240) };
    for (const paper of ['a4', 'letter'] as const) {
      const page = layout({ ...card, paper });
      expect(faultsOf(page, paper)).toEqual([]);
      expect(unsaid(card, page)).toEqual([]);
    }
  });

  test('a number and its unit stay on one line', () => {
    const steps = shop.steps.map((step) => ({
      ...step,
      text: 'Until it shows 48 °C after 35 min, or so. '.repeat(3),
    }));
    const page = layout({ ...shop, steps, paper: 'a4' });
    const lines = opsOf(blockOf(page, 'steps')).flatMap((op) =>
      op.kind === 'text' ? [op.text.trim()] : [],
    );
    expect(lines.filter((line) => /\d$/.test(line) && !line.includes(':'))).toEqual([]);
    expect(lines.length).toBeGreaterThan(3 * steps.length); // or nothing was wrapped
  });

  test('names become two lines rather than leave their place', () => {
    const card: CardModel = { ...shop, paper: 'a4', forWhom: longName('Bartholomew') };
    const page = layout(card);
    const baselines = new Set(
      opsOf(blockOf(page, 'order')).flatMap((op) => (op.kind === 'text' ? [op.baseline] : [])),
    );
    expect(baselines.size).toBeLessThanOrEqual(5); // two for the name, two for the day, one for the hour
    expect(unsaid(card, page)).toEqual([]);
  });

  test('what does not fit even in the smallest print is refused, and the longest texts are named', () => {
    const crowded: CardModel = { ...full, paper: 'a5' };
    let error: unknown;
    try {
      layout(crowded);
    } catch (caught) {
      error = caught;
    }
    expect(error).toBeInstanceOf(RoastError);
    expect(error).toMatchObject({ code: 'out-of-range', path: ['card'] });
    expect(String(error)).toMatch(/\d+ mm too long for one page of a5/);
    expect(String(error)).toMatch(/the guests \d+ mm/);
    expect(String(error)).toMatch(/a4 or letter/);
    expect(() => layout({ ...shop, paper: 'a4', note: 'Stir. '.repeat(3000) })).toThrow(
      /the note \d+ mm/,
    );
  });

  const word = fc.string({
    unit: fc.constantFrom(...'abcdefghijklmnopqrstuvwxyzÄÉŐЙжΩg,.()-'),
    minLength: 1,
    maxLength: 40,
  });
  const text = (words: number): fc.Arbitrary<string> =>
    fc.array(word, { minLength: 1, maxLength: words }).map((all) => all.join(' '));
  const anyWords = fc.record({
    paper: fc.constantFrom(...papers),
    name: text(8),
    forWhom: fc.option(text(6), { nil: undefined }),
    note: fc.option(text(30), { nil: undefined }),
    value: text(2),
    step: text(12),
    guests: fc.array(
      fc.record(
        {
          name: text(6),
          wish: text(1),
          slice: fc.integer({ min: 1, max: 14 }),
          band: text(1),
          peakC: fc.double({ min: 40, max: 90, noNaN: true }),
        },
        { requiredKeys: ['wish', 'slice', 'band', 'peakC'] },
      ),
      { maxLength: 14 },
    ),
    notices: fc.array(text(20), { maxLength: 4 }),
    cautions: fc.array(text(20), { maxLength: 8 }),
    facts: fc.array(fc.record({ label: word, text: text(10) }), { maxLength: 6 }),
  });

  test('whatever the words: a sound page with all of them, or a refusal', () => {
    let laidOut = 0;
    fc.assert(
      fc.property(anyWords, ({ paper, name, forWhom, note, value, step, ...lists }) => {
        const { forWhom: _, note: __, ...rest } = shop;
        const card: CardModel = {
          ...rest,
          ...lists,
          ...(forWhom === undefined ? {} : { forWhom }),
          ...(note === undefined ? {} : { note }),
          paper,
          shop: { ...shop.shop!, name },
          keys: [shop.keys[0], { ...shop.keys[1], value }, shop.keys[2]],
          steps: shop.steps.map((old, i) => (i === 3 ? { ...old, text: step } : old)),
        };
        let page: Page;
        try {
          page = layout(card);
        } catch (error) {
          expect(error).toMatchObject({ code: 'out-of-range', path: ['card'] });
          return;
        }
        laidOut++;
        expect(faultsOf(page, paper)).toEqual([]);
        expect(unsaid(card, page)).toEqual([]);
      }),
      { numRuns: 60 },
    );
    expect(laidOut).toBeGreaterThan(20); // or the test would prove little
  });
});
