import { createCanvas, type Image, loadImage, type SKRSContext2D } from '@napi-rs/canvas';
import { FONT_FAMILY, registerFonts } from '../fonts.js';
import { inkPng } from '../inkPng.js';
import type { CardModel, Picture } from './cardModel.js';
import { layoutCard } from './layout.js';
import { INKS, type Op } from './page.js';
import { type PaintedText, type Painter, type PointPt, paint } from './pagePaint.js';
import { cardMeasure } from './textFonts.js';
import { requirePrintable } from './textGlyphs.js';

/** Pixels in an inch: sharp on a telephone, and below a megabyte for most cards. */
const DPI = 200;
const PIXELS_PER_MM = DPI / 25.4;

/**
 * A card as a PNG picture, to be sent as a message.
 *
 * @throws RoastError `unreadable` naming a character that the fonts lack; `out-of-range` when the texts are too long for the paper
 */
export async function cardPng(card: CardModel): Promise<Uint8Array> {
  requirePrintable(card);
  registerFonts();
  const { widthPt, heightPt, blocks } = layoutCard(card, cardMeasure);
  const pxPerPt = DPI / 72;
  const canvas = createCanvas(Math.round(widthPt * pxPerPt), Math.round(heightPt * pxPerPt));
  const ctx = canvas.getContext('2d');
  ctx.fillStyle = INKS.paper;
  ctx.fillRect(0, 0, canvas.width, canvas.height);
  ctx.scale(pxPerPt, pxPerPt);
  const ops = blocks.flatMap(({ parts }) => parts.flatMap((part) => part.ops));
  paint(ops, pngPainter(ctx, await picturesOf(ops)), cardMeasure);
  // without a shop's own sign it is all in the card's inks: a fifth of the bytes
  return card.shop?.logo === undefined
    ? inkPng(ctx.getImageData(0, 0, canvas.width, canvas.height), PIXELS_PER_MM)
    : canvas.encode('png');
}

async function picturesOf(ops: readonly Op[]): Promise<Map<Picture, Image>> {
  const pictures = ops.flatMap((op) => (op.kind === 'picture' ? [op.picture] : []));
  return new Map(
    await Promise.all(
      pictures.map(async (picture) => [picture, await loadImage(picture.png)] as const),
    ),
  );
}

function pngPainter(ctx: SKRSContext2D, pictures: ReadonlyMap<Picture, Image>): Painter {
  const trace = (points: readonly PointPt[]): void => {
    for (const [i, [x, y]] of points.entries()) {
      if (i === 0) ctx.moveTo(x, y);
      else ctx.lineTo(x, y);
    }
  };
  return {
    text: ({ text, x, baseline, sizePt, weight, color, haloPt }: PaintedText) => {
      ctx.font = `${weight} ${sizePt}px ${FONT_FAMILY}`;
      if (haloPt !== undefined) {
        ctx.setLineDash([]);
        ctx.lineJoin = 'round';
        ctx.lineWidth = 2 * haloPt;
        ctx.strokeStyle = INKS.paper;
        ctx.strokeText(text, x, baseline);
      }
      ctx.fillStyle = color;
      ctx.fillText(text, x, baseline);
    },
    box: (x, y, width, height, color) => {
      ctx.fillStyle = color;
      ctx.fillRect(x, y, width, height);
    },
    area: (rings, color) => {
      ctx.beginPath();
      for (const ring of rings) {
        trace(ring);
        ctx.closePath();
      }
      ctx.fillStyle = color;
      ctx.fill('evenodd');
    },
    lines: (lines, { widthPt, color, dashPt }) => {
      ctx.beginPath();
      for (const line of lines) trace(line);
      ctx.lineWidth = widthPt;
      ctx.lineJoin = 'round';
      ctx.lineCap = 'butt';
      ctx.strokeStyle = color;
      ctx.setLineDash([...(dashPt ?? [])]);
      ctx.stroke();
    },
    picture: (picture, x, y, width, height) => {
      const image = pictures.get(picture);
      if (image !== undefined) ctx.drawImage(image, x, y, width, height);
    },
  };
}
