import { createRequire } from 'node:module';
import { beforeAll, describe, expect, test } from 'vitest';
import { type CardModel, PAPERS, type Paper } from '../../packages/cli/src/show/card/cardModel.js';
import { layoutCard } from '../../packages/cli/src/show/card/layout.js';
import { cardPng } from '../../packages/cli/src/show/card/png.js';
import { cardMeasure } from '../../packages/cli/src/show/card/textFonts.js';
import { fullCard, shopCard } from '../support/cardModels.js';

// Needs the fonts in packages/cli/dist, as `pnpm build` or `pnpm test` leaves them.

const canvasModule: typeof import('../../packages/cli/node_modules/@napi-rs/canvas/index.js') =
  createRequire(new URL('../../packages/cli/package.json', import.meta.url))('@napi-rs/canvas');
const { createCanvas, loadImage } = canvasModule;

const PX_PER_MM = 200 / 25.4;
const PX_PER_PT = 200 / 72;

/** Pixels of a picture, and how dark a part of it is: the share of its pixels that are not paper. */
async function looked(png: Uint8Array) {
  const image = await loadImage(Buffer.from(png));
  const canvas = createCanvas(image.width, image.height);
  const ctx = canvas.getContext('2d');
  ctx.drawImage(image, 0, 0);
  const inked = (x: number, y: number, width: number, height: number): number => {
    const { data } = ctx.getImageData(
      Math.round(x),
      Math.round(y),
      Math.round(width),
      Math.round(height),
    );
    let dark = 0;
    for (let i = 0; i < data.length; i += 4) {
      if (data[i] + data[i + 1] + data[i + 2] < 3 * 250 || data[i + 3] < 255) dark++;
    }
    return dark / (data.length / 4);
  };
  return { width: image.width, height: image.height, inked };
}

let shop: CardModel;
let full: CardModel;

beforeAll(async () => {
  shop = await shopCard('a5');
  full = await fullCard('a4');
});

describe('a card as a picture', () => {
  test.each(Object.keys(PAPERS) as Paper[])('has 200 pixels to the inch of %s', async (paper) => {
    const { width, height } = await looked(await cardPng({ ...shop, paper }));
    expect(width).toBe(Math.round(PAPERS[paper].widthMm * PX_PER_MM));
    expect(height).toBe(Math.round(PAPERS[paper].heightMm * PX_PER_MM));
  });

  test('has ink in every block of the layout and nowhere else', async () => {
    for (const card of [shop, full]) {
      const { width, height, inked } = await looked(await cardPng(card));
      const margin = 7.5 * PX_PER_MM;
      expect(inked(0, 0, width, margin)).toBe(0);
      expect(inked(0, height - margin, width, margin)).toBe(0);
      expect(inked(0, 0, margin, height)).toBe(0);
      expect(inked(width - margin, 0, margin, height)).toBe(0);
      const { blocks } = layoutCard(card, cardMeasure);
      for (const block of blocks) {
        const [x, y, w, h] = [block.x, block.y, block.width, block.height].map(
          (pt) => pt * PX_PER_PT,
        );
        const ink = inked(x, y, w, h);
        expect(ink, block.name).toBeGreaterThan(0.02);
        expect(ink, block.name).toBeLessThan(0.7);
      }
    }
  });

  test('shows each word: without one there is less ink in its place', async () => {
    const before = await looked(await cardPng(shop));
    const page = layoutCard(shop, cardMeasure);
    const silent: CardModel = {
      ...shop,
      keys: [shop.keys[0], { ...shop.keys[1], label: ' ' }, shop.keys[2]],
    };
    expect(layoutCard(silent, cardMeasure).blocks.map(({ y }) => y)).toEqual(
      page.blocks.map(({ y }) => y),
    );
    const after = await looked(await cardPng(silent));
    const keys = page.blocks.find(({ name }) => name === 'keys');
    if (keys === undefined) throw new Error('the card has no keys');
    const [x, y, w, h] = [keys.x, keys.y, keys.width, keys.height].map((pt) => pt * PX_PER_PT);
    expect(after.inked(x, y, w, h)).toBeLessThan(before.inked(x, y, w, h));
  });

  test('refuses a character without a letterform', async () => {
    await expect(cardPng({ ...shop, note: 'a ☃ for you' })).rejects.toMatchObject({
      code: 'unreadable',
      path: ['note'],
      found: '☃',
    });
  });
});
