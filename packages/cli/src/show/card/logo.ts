import { createCanvas, loadImage } from '@napi-rs/canvas';
import { RoastError } from '@roastsim/core';
import type { Picture } from './cardModel.js';

const LONGEST_SIDE_PX = 600; // 50 mm at 300 dots per inch

const known = new WeakMap<Uint8Array, Promise<Picture>>();

/**
 * A shop's logo as the cards print it: redrawn, so that only its pixels get on a card. The same bytes are redrawn once, however
 * many cards show them.
 *
 * @throws RoastError `unreadable` when the bytes are no picture
 */
export function logoOf(bytes: Uint8Array, shop: string): Promise<Picture> {
  const logo = known.get(bytes) ?? redrawn(bytes, shop);
  known.set(bytes, logo);
  return logo;
}

async function redrawn(bytes: Uint8Array, shop: string): Promise<Picture> {
  const image = await loadImage(bytes).catch(() => {
    throw new RoastError('--settings: logo: that is no picture; accepted: a PNG or JPEG file', {
      code: 'unreadable',
      path: ['--settings', 'logo'],
      found: undefined,
      accepted: 'a PNG or JPEG file',
    });
  });
  const shrink = Math.min(1, LONGEST_SIDE_PX / Math.max(image.width, image.height));
  const widthPx = Math.max(1, Math.round(image.width * shrink));
  const heightPx = Math.max(1, Math.round(image.height * shrink));
  const canvas = createCanvas(widthPx, heightPx);
  canvas.getContext('2d').drawImage(image, 0, 0, widthPx, heightPx);
  return { png: canvas.toBuffer('image/png'), widthPx, heightPx, alt: `Sign of ${shop}` };
}
