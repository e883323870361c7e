import { RoastError } from '@roastsim/core';
import { type CardModel, PAPERS } from './cardModel.js';
import { abreast, below, blockAt, type Group, type Tools } from './layoutBlocks.js';
import { chartBlock, chartWidth, roastBlock, sectionBlock, sectionWidth } from './layoutFigures.js';
import { headGroup, noteBlock, titleBlock } from './layoutHead.js';
import { keysBlock } from './layoutKeys.js';
import {
  cautionsBlock,
  factsBlock,
  footerBlock,
  guestsBlock,
  noticesBlock,
} from './layoutLists.js';
import { MARGIN_MM, sizesFor } from './layoutSizes.js';
import { stepsBlock } from './layoutSteps.js';
import { typesetter } from './layoutText.js';
import { type Block, type BlockName, type Measure, type Page, PT_PER_MM } from './page.js';

export type { Measure, Page } from './page.js';

/** A way to arrange the blocks: groups from the top down. */
type Arrangement = (card: CardModel, tools: Tools, width: number) => (Group | undefined)[];

/** What all cards begin with. */
const head: Arrangement = (card, tools, width) => [
  headGroup(card, tools, width),
  titleBlock(card, tools, width),
  noteBlock(card, tools, width),
  keysBlock(card, tools, width),
];

/** What all cards end with. */
const foot: Arrangement = (card, tools, width) => [
  guestsBlock(card, tools, width),
  noticesBlock(card, tools, width),
  cautionsBlock(card, tools, width),
  footerBlock(card, tools, width),
];

const FACTS_SHARE = 0.3; // of the width, where the facts stand beside the chart

/** The timetable and the roast over the whole width; cut face, chart and facts share a row. */
const wide: Arrangement = (card, tools, width) => {
  const gap = 1.6 * tools.sizes.bodyPt;
  const cut = sectionWidth(card, tools, 0.32 * width);
  const facts = FACTS_SHARE * width;
  const chart = chartWidth(card, tools, width - cut - facts - 2 * gap);
  return [
    ...head(card, tools, width),
    stepsBlock(card, tools, width),
    roastBlock(card, tools, width),
    abreast([
      [0, sectionBlock(card, tools, cut)],
      [cut + gap, chartBlock(card, tools, chart)],
      [cut + chart + 2 * gap, factsBlock(card, tools, width - cut - chart - 2 * gap)],
    ]),
    ...foot(card, tools, width),
  ];
};

/** The timetable on the left, chart and cut face on the right of it. */
const dense: Arrangement = (card, tools, width) => {
  const { sizes } = tools;
  const gap = 1.4 * sizes.bodyPt;
  const most = 0.42 * width;
  const right = Math.max(chartWidth(card, tools, most), sectionWidth(card, tools, most));
  return [
    ...head(card, tools, width),
    abreast([
      [0, stepsBlock(card, tools, width - right - gap)],
      [
        width - right,
        below(
          [chartBlock(card, tools, right), sectionBlock(card, tools, right)],
          0.6 * sizes.gapPt,
        ),
      ],
    ]),
    roastBlock(card, tools, width),
    factsBlock(card, tools, width),
    ...foot(card, tools, width),
  ];
};

const STEPS = 5; // halvings when looking for the roomiest that fits
const MOST_STRETCH = 2.2; // of a gap, where the page has room to spare
const WIDE_BONUS = 0.15; // of the room: what the dense arrangement must win to be taken

/**
 * Lays a card out on one page of its paper: the largest print that fits, nothing over anything else.
 *
 * @param measure - width of texts in the fonts it will be printed in
 * @throws RoastError `out-of-range`, path `['card']`, when its texts are too long for the paper even in the smallest print
 */
export function layoutCard(card: CardModel, measure: Measure): Page {
  const paper = PAPERS[card.paper];
  const marginPt = MARGIN_MM[card.paper] * PT_PER_MM;
  const [widthPt, heightPt] = [paper.widthMm * PT_PER_MM, paper.heightMm * PT_PER_MM];
  const width = widthPt - 2 * marginPt;
  const height = heightPt - 2 * marginPt;
  const typeset = typesetter(measure);
  const attempt = (arrangement: Arrangement, room: number): Attempt => {
    const tools = { sizes: sizesFor(card.paper, room), measure, typeset };
    const groups = arrangement(card, tools, width).filter((group) => group !== undefined);
    const gapPt = tools.sizes.gapPt;
    return { room, gapPt, groups, heightPt: below(groups, gapPt).heightPt };
  };
  const [airy, packed] = [wide, dense].map((arrangement) =>
    roomiest((room) => attempt(arrangement, room), height),
  );
  const best =
    packed.heightPt <= height && (airy.heightPt > height || packed.room > airy.room + WIDE_BONUS)
      ? packed
      : airy;
  if (best.heightPt > height) throw tooLong(card, packed, height);
  return {
    widthPt,
    heightPt,
    marginPt,
    blocks: spreadOut(best, height).map((placed) => blockAt(placed, marginPt, marginPt)),
  };
}

interface Attempt {
  readonly room: number;
  readonly gapPt: number;
  readonly groups: readonly Group[];
  readonly heightPt: number;
}

/** The roomiest attempt that fits, or the tightest when none does. */
function roomiest(attempt: (room: number) => Attempt, height: number): Attempt {
  const full = attempt(1);
  if (full.heightPt <= height) return full;
  let best = attempt(0);
  if (best.heightPt > height) return best;
  let above = 1;
  for (let i = 0; i < STEPS; i++) {
    const middle = attempt((best.room + above) / 2);
    if (middle.heightPt <= height) best = middle;
    else above = middle.room;
  }
  return best;
}

/** Gives height to spare to the gaps, and the rest to the one above the cautions, which stand at the foot of the page. */
function spreadOut({ groups, gapPt, heightPt }: Attempt, height: number): Block[] {
  const gaps = groups.length - 1;
  const stretch = Math.min((height - heightPt) / gaps, (MOST_STRETCH - 1) * gapPt);
  const rest = height - heightPt - gaps * stretch;
  const foot = groups.findIndex(({ blocks }) => FOOT.has(blocks[0].name));
  let y = 0;
  return groups.flatMap(({ blocks, heightPt: own }, i) => {
    if (i === foot) y += rest;
    const placed = blocks.map((one) => blockAt(one, 0, y));
    y += own + gapPt + stretch;
    return placed;
  });
}

const FOOT: ReadonlySet<BlockName> = new Set(['cautions', 'footer']);

/** What takes the room when a card does not fit, in words, tallest first. */
function tooLong(card: CardModel, { groups, heightPt }: Attempt, height: number): RoastError {
  const mm = (pt: number): string => `${Math.ceil(pt / PT_PER_MM)} mm`;
  const tallest = groups
    .flatMap(({ blocks }) => blocks)
    .filter(({ name }) => WORDS[name] !== undefined)
    .sort((a, b) => b.height - a.height)
    .slice(0, 3)
    .map(({ name, height: own }) => `${WORDS[name]} ${mm(own)}`);
  const larger = card.paper === 'a5' ? 'a larger paper (a4 or letter) or ' : '';
  const accepted = `${larger}shorter texts`;
  return new RoastError(
    `the card is ${mm(heightPt - height)} too long for one page of ${card.paper} even in the smallest print; ` +
      `most room goes to: ${tallest.join(', ')}; accepted: ${accepted}`,
    { code: 'out-of-range', path: ['card'], found: `${mm(heightPt)} of texts`, accepted },
  );
}

/** Blocks that grow with their texts. */
const WORDS: Readonly<Partial<Record<BlockName, string>>> = {
  shop: 'the name and address of the shop',
  order: 'for whom and when',
  title: 'the title',
  note: 'the note',
  keys: 'the three numbers',
  steps: 'the timetable',
  facts: 'salt, twine and rest',
  guests: 'the guests',
  notices: 'the warnings',
  cautions: 'the cautions',
  footer: 'the footer of the shop',
};
