import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { createRequire } from 'node:module';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type CardModel, PAPERS } from '../../packages/cli/src/show/card/cardModel.js';
import { cardHtml } from '../../packages/cli/src/show/card/html.js';
import {
  hasChromium,
  needsChromium,
  SCREENS,
  testBrowser,
  type WatchedPage,
} from '../support/browser.js';
import { fullCard, plainCard, shopCard, tableCard } from '../support/cardModels.js';
import { hostileTexts } from './hostile.js';
import {
  type Box,
  inkBoxes,
  overflow,
  pageRules,
  sheetBlocks,
  skeleton,
  smallestText,
} from './inPage.js';

// The card as a customer opens it. The fonts come from packages/cli/dist, as `pnpm build` or `pnpm test` leaves them.

const CARDS = [
  ['plain, A5', () => plainCard('a5'), 'a5'],
  ['of a shop, A5', () => shopCard('a5'), 'a5'],
  ['fourteen guests, A5', () => tableCard(14, 'short', 'a5'), 'a5'],
  ['plain, A4', () => plainCard('a4'), 'a4'],
  ['full, A4', () => fullCard('a4'), 'a4'],
  ['full, Letter', () => fullCard('letter'), 'letter'],
] as const;
const PT_PER_MM = 72 / 25.4;
const SLACK_PX = 0.5; // of rounding to the pixels of the screen

const model = new Map<string, CardModel>();
const modelOf = (name: string): CardModel => model.get(name)!;

/** Pairs of boxes that reach into each other. */
function overlaps(boxes: readonly Box[]): string[] {
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter(
        (b) =>
          Math.min(a.right, b.right) - Math.max(a.left, b.left) > SLACK_PX &&
          Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > SLACK_PX,
      )
      .map((b) => `${a.what} / ${b.what}`),
  );
}

describe.skipIf(!hasChromium)(`the card in a browser${needsChromium}`, () => {
  const browser = testBrowser();

  let axe = '';
  beforeAll(async () => {
    for (const [name, make] of CARDS) model.set(name, await make());
    axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  });

  // One page a card, looked at in all ways: opening one takes longer than looking at it.
  describe.each(CARDS)('%s', (name, _make, paper) => {
    let watched: WatchedPage;
    beforeAll(async () => {
      watched = await browser.open(cardHtml(modelOf(name)));
    });
    afterAll(() => watched.page.close());

    test.each(Object.entries(SCREENS))(
      'on a %s nothing runs off or over anything else',
      async (_screen, viewport) => {
        const { page, doings } = watched;
        await page.setViewportSize(viewport);
        expect(await page.evaluate(overflow)).toEqual({ width: viewport.width, beyond: [] });
        const boxes = await page.evaluate(inkBoxes);
        expect(boxes.length).toBeGreaterThan(50);
        expect(overlaps(boxes)).toEqual([]);
        expect(doings).toEqual([]);
      },
    );

    test('every rule of axe-core is kept', async () => {
      const { page } = watched;
      await page.setViewportSize(SCREENS.phone);
      await page.evaluate(axe);
      const { violations, passes } = await page.evaluate<{
        violations: { id: string; help: string; nodes: { html: string }[] }[];
        passes: unknown[];
      }>('axe.run()');
      expect(passes.length).toBeGreaterThan(15);
      expect(
        violations.map(({ id, help, nodes }) => ({
          id,
          help,
          nodes: nodes.map(({ html }) => html),
        })),
      ).toEqual([]);
    });

    test('in print everything has its place, and no letter is below 8 pt', async () => {
      const { page } = watched;
      await page.setViewportSize(SCREENS.laptop);
      await page.emulateMedia({ media: 'print' });
      const { sheet, blocks } = await page.evaluate(sheetBlocks);
      expect(sheet.right - sheet.left).toBeCloseTo((PAPERS[paper].widthMm / 25.4) * 96, 0);
      expect(blocks.length).toBeGreaterThanOrEqual(9);
      for (const block of blocks) {
        expect(block.left, block.what).toBeGreaterThanOrEqual(sheet.left);
        expect(block.top, block.what).toBeGreaterThanOrEqual(sheet.top);
        expect(block.right, block.what).toBeLessThanOrEqual(sheet.right);
        expect(block.bottom, block.what).toBeLessThanOrEqual(sheet.bottom);
      }
      expect(overlaps(await page.evaluate(inkBoxes))).toEqual([]);
      const { pt, text } = await page.evaluate(smallestText);
      expect(pt, text).toBeGreaterThanOrEqual(7.99);
    });

    test('prints on one page of its paper', async () => {
      const { page } = watched;
      // A margin beside its own would make a browser shrink the sheet, and its letters with it.
      expect(await page.evaluate(pageRules)).toEqual([{ marginTop: '0px', marginLeft: '0px' }]);
      const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
      expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
      const [, width, height] = /\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf) ?? [];
      expect(Math.abs(Number(width) - PAPERS[paper].widthMm * PT_PER_MM)).toBeLessThan(1);
      expect(Math.abs(Number(height) - PAPERS[paper].heightMm * PT_PER_MM)).toBeLessThan(1);
    });
  });

  describe('hostile texts', () => {
    const asked: string[] = [];
    const server = createServer(({ url }, response) => {
      asked.push(url ?? '');
      response.end();
    });
    let address = '';

    beforeAll(async () => {
      await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
      address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
    });
    afterAll(() => new Promise((resolve) => server.close(resolve)));

    // The policy is put aside: what is not obeyed without it is not obeyed with it.
    test('are shown and not obeyed, whatever text they stand in for', async () => {
      const { page, doings, show } = await browser.open(
        cardHtml(saying('x', modelOf('plain, A4'))),
        { bypassCSP: true },
      );
      const expected = await page.evaluate(skeleton, 'main');
      const texts = hostileTexts(address);
      expect(texts.length).toBeGreaterThanOrEqual(20);
      for (const text of texts) {
        await show(cardHtml(saying(text, modelOf('plain, A4'))));
        await page.mouse.move(200, 200);
        await page.keyboard.press('Tab');
        expect(await page.evaluate(skeleton, 'main'), text).toEqual(expected);
        const sheet = await page.evaluate(skeleton, '.sheet');
        expect(Object.keys(sheet.elements).sort(), text).toEqual([
          ...['g', 'image', 'path', 'rect', 'svg', 'text'],
        ]);
        expect(
          sheet.attributes.filter((name) => /^on|style/.test(name)),
          text,
        ).toEqual([]);
        const { elements } = await page.evaluate(skeleton, 'head');
        expect(elements, text).toEqual({ head: 1, meta: 4, title: 1, style: 1 });
        const outside = await page.evaluate('document.querySelectorAll("body > *").length');
        expect(outside, text).toBe(3); // main, footer, sheet
        expect(await page.evaluate('document.querySelector("h1").textContent'), text).toBe(
          shown(text),
        );
        expect(await page.evaluate('window.ran'), text).toBeUndefined();
        expect(doings, text).toEqual([]);
      }
      await page.close();
      expect(asked).toEqual([]);
    }, 60_000);

    test('would be stopped by the policy', async () => {
      const script = '<script>window.ran=1</script>';
      const fetching = `<img src="${address}/image"><link rel="stylesheet" href="${address}/style">`;
      const html = cardHtml(modelOf('plain, A4')).replace('</main>', `${script}${fetching}</main>`);
      const without = await browser.open(html, { bypassCSP: true });
      expect(await without.page.evaluate('window.ran')).toBe(1);
      expect([...asked].sort()).toEqual(['/image', '/style']);
      await without.page.close();
      asked.length = 0;
      const { page } = await browser.open(html);
      expect(await page.evaluate('window.ran')).toBeUndefined();
      expect(asked).toEqual([]);
      await page.close();
    });
  });
});

/** What a page shows of a text. */
const shown = (text: string): string => text.replace(/[\0\p{Surrogate}]/gu, '\ufffd');

/** A card with every text on it replaced, those in its drawings too. */
function saying(text: string, card: CardModel): CardModel {
  const KEPT = new Set(['paper', 'units', 'kind', 'anchor']);
  const replaced = (value: unknown, key: string): unknown => {
    if (typeof value === 'string') return KEPT.has(key) ? value : text;
    if (value instanceof Uint8Array || typeof value !== 'object' || value === null) return value;
    if (Array.isArray(value)) return value.map((item) => replaced(item, key));
    return Object.fromEntries(
      Object.entries(value).map(([name, item]) => [name, replaced(item, name)]),
    );
  };
  const guests = [{ name: '', wish: '', band: '', slice: 1, peakC: 55 }];
  const shop = { name: '', address: [''], footer: '', logo: card.charts[0] };
  const steps = card.steps.slice(0, 2);
  const facts = card.facts.slice(0, 2);
  const cautions = [''];
  const full = {
    ...card,
    steps,
    facts,
    cautions,
    guests,
    shop,
    forWhom: '',
    pickUp: '',
    serve: '',
    note: '',
  };
  return replaced(full, '') as CardModel;
}
