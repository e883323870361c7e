import type { CardModel, CardShop } from './cardModel.js';
import {
  abreast,
  baselineOf,
  below,
  block,
  type Group,
  opsAt,
  piled,
  read,
  type Stack,
  set,
  type Tools,
} from './layoutBlocks.js';
import type { Run } from './layoutText.js';
import type { Part } from './page.js';

const SHOP_SHARE = 0.56; // of the width, where shop and order both need more than there is
const WORTH_STACKING = 0.8; // of the height
const HAIR_PT = 0.01; // a line set in just its own width must not break by a rounding
const LOGO_WIDTH = 2.6; // at most, times its height

/** Who hands the card out, and for whom, when: side by side, or below each other where long texts take less room then. Nothing when neither is known. */
export function headGroup(card: CardModel, tools: Tools, width: number): Group | undefined {
  const { shop } = card;
  const gap = 2 * tools.sizes.bodyPt;
  const order = orderRuns(card);
  if (shop === undefined) {
    return order.length === 0 ? undefined : block('order', width, orderLine(order, tools, width));
  }
  if (order.length === 0) return block('shop', width, shopStack(shop, tools, width).stack);
  const free = width - gap;
  const shopNeeds = shopStack(shop, tools, free).widthPt;
  const orderNeeds = orderStack(order, tools, free).widthPt + HAIR_PT;
  const shopGets =
    shopNeeds + orderNeeds <= free
      ? free - orderNeeds
      : Math.max(SHOP_SHARE * free, free - orderNeeds);
  const beside = abreast([
    [0, block('shop', shopGets, shopStack(shop, tools, shopGets).stack)],
    [
      shopGets + gap,
      block('order', free - shopGets, orderStack(order, tools, free - shopGets).stack),
    ],
  ]);
  const stacked = below(
    [
      block('shop', width, shopStack(shop, tools, width).stack),
      block('order', width, orderLine(order, tools, width)),
    ],
    0.3 * tools.sizes.bodyPt,
  );
  return stacked.heightPt < WORTH_STACKING * beside.heightPt ? stacked : beside;
}

interface Sized {
  readonly stack: Stack;
  /** What it would fill. */
  readonly widthPt: number;
}

function shopStack({ name, address, logo }: CardShop, tools: Tools, width: number): Sized {
  const { shopPt, bodyPt, logoPt } = tools.sizes;
  const scale =
    logo === undefined ? 0 : Math.min(logoPt / logo.heightPx, (LOGO_WIDTH * logoPt) / logo.widthPx);
  const logoWidth = logo === undefined ? 0 : scale * logo.widthPx;
  const logoHeight = logo === undefined ? 0 : scale * logo.heightPx;
  const indent = logo === undefined ? 0 : logoWidth + 0.8 * bodyPt;
  const widthPt = width - indent;
  const lines = [
    set(tools, [{ text: name, weight: 700 }], { sizePt: shopPt, widthPt }),
    ...(address.length === 0
      ? []
      : [set(tools, [{ text: address.join(' · '), weight: 400 }], { sizePt: bodyPt, widthPt })]),
  ];
  const words = piled(
    lines.map((line) => read('paragraph', line, indent)),
    0,
  );
  const heightPt = Math.max(words.heightPt, logoHeight);
  const centred = (heightPt - words.heightPt) / 2;
  const picture: Part[] =
    logo === undefined
      ? []
      : [
          {
            role: 'figure',
            alt: logo.alt,
            ops: [
              { kind: 'picture', picture: logo, x: 0, y: 0, width: logoWidth, height: logoHeight },
            ],
          },
        ];
  return {
    stack: {
      parts: [
        ...picture,
        ...words.parts.map((part) => ({ ...part, ops: opsAt(part.ops, 0, centred) })),
      ],
      heightPt,
    },
    widthPt: indent + Math.max(...lines.map((line) => line.widthPt)),
  };
}

/** One line for each of: for whom, when it is picked up, when it is served. */
function orderRuns({ forWhom, pickUp, serve }: CardModel): Run[][] {
  return [
    ...(forWhom === undefined
      ? []
      : [[{ text: 'For ', weight: 400 } as const, { text: forWhom, weight: 700 } as const]]),
    ...(pickUp === undefined ? [] : [[{ text: `Pick up ${pickUp}`, weight: 400 } as const]]),
    ...(serve === undefined ? [] : [[{ text: serve, weight: 700 } as const]]),
  ];
}

function orderStack(order: readonly Run[][], tools: Tools, widthPt: number): Sized {
  const { bodyPt } = tools.sizes;
  const widest = Math.max(
    ...order.map((runs) => set(tools, runs, { sizePt: bodyPt, widthPt }).widthPt),
  );
  const lines = order.map((runs) => set(tools, runs, { sizePt: bodyPt, widthPt, align: 'right' }));
  return {
    stack: piled(
      lines.map((line) => read('paragraph', line)),
      0,
    ),
    widthPt: widest,
  };
}

/** The same one after the other, as many to a line as fit. */
function orderLine(order: readonly Run[][], tools: Tools, widthPt: number): Stack {
  const sizePt = tools.sizes.bodyPt;
  const gap = 1.6 * sizePt;
  const parts: Part[] = [];
  let [x, y, heightPt] = [0, 0, 0];
  for (const runs of order) {
    const line = set(tools, runs, { sizePt, widthPt });
    if (x > 0 && x + line.widthPt > widthPt) [x, y] = [0, heightPt];
    parts.push({ role: 'paragraph', ops: opsAt(line.ops, x, y) });
    heightPt = Math.max(heightPt, y + line.heightPt);
    x += line.widthPt + gap;
  }
  return { parts, heightPt };
}

/** What the roast is and how it is wanted: on one line where they fit. */
export function titleBlock({ title, wanted }: CardModel, tools: Tools, widthPt: number): Group {
  const { titlePt, keyLabelPt, leading } = tools.sizes;
  const name = set(tools, [{ text: title, weight: 700 }], { sizePt: titlePt, widthPt });
  const aim = set(tools, [{ text: wanted, weight: 600 }], { sizePt: keyLabelPt, widthPt });
  const oneLine =
    name.lines === 1 && aim.lines === 1 && name.widthPt + titlePt + aim.widthPt <= widthPt;
  if (!oneLine)
    return block('title', widthPt, piled([read('title', name), read('paragraph', aim)], 0));
  const drop = baselineOf(name) - baselineOf(aim);
  return block('title', widthPt, {
    parts: [
      { role: 'title', ops: name.ops },
      { role: 'paragraph', ops: opsAt(aim.ops, widthPt - aim.widthPt, drop) },
    ],
    heightPt: leading * titlePt,
  });
}

const NOTE_BAR_PT = 1.5;

/** What the shop wants to say to this customer. */
export function noteBlock({ note }: CardModel, tools: Tools, widthPt: number): Group | undefined {
  if (note === undefined) return undefined;
  const { bodyPt } = tools.sizes;
  const indent = NOTE_BAR_PT + 0.6 * bodyPt;
  const lines = note.split(/\r?\n/).filter((line) => line.trim() !== '');
  const { parts, heightPt } = piled(
    lines.map((line) =>
      read(
        'paragraph',
        set(tools, [{ text: line, weight: 400 }], { sizePt: bodyPt, widthPt: widthPt - indent }),
        indent,
      ),
    ),
    0,
  );
  const bar: Part = {
    role: 'ornament',
    ops: [{ kind: 'box', x: 0, y: 0, width: NOTE_BAR_PT, height: heightPt, ink: 'hairline' }],
  };
  return block('note', widthPt, { parts: [bar, ...parts], heightPt });
}
