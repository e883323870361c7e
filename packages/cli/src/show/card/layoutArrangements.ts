import type { CardModel } from './cardModel.js';
import { abreast, below, type Group, type Tools } from './layoutBlocks.js';
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
import { CHART_READABLE_MM } from './layoutSizes.js';
import { stepsBlock } from './layoutSteps.js';
import { PT_PER_MM } from './page.js';

/** A way to arrange the blocks: groups from the top down. */
export type Arrangement = (card: CardModel, tools: Tools, width: number) => (Group | undefined)[];

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

const SECTION_SHARE = 0.32; // of the width, at most, where it stands beside the chart

/** Cut face and chart share a row: on large paper, and where small paper must hold much. */
const sideBySide: Arrangement = (card, tools, width) => {
  const gap = 1.6 * tools.sizes.bodyPt;
  const cut = sectionWidth(card, tools, SECTION_SHARE * width);
  return [
    ...head(card, tools, width),
    stepsBlock(card, tools, width),
    roastBlock(card, tools, width),
    abreast([
      [0, sectionBlock(card, tools, cut)],
      [cut + gap, chartBlock(card, tools, chartWidth(card, tools, width - cut - gap))],
    ]),
    factsBlock(card, tools, width),
    ...foot(card, tools, width),
  ];
};

const FACTS_SHARE = 0.25; // of the width, where they stand beside the chart

/** Cut face, chart and facts share a row. */
const inOneRow: Arrangement = (card, tools, width) => {
  const gap = 1.4 * tools.sizes.bodyPt;
  const cut = sectionWidth(card, tools, SECTION_SHARE * width);
  const chart = chartWidth(card, tools, (1 - FACTS_SHARE) * width - cut - 2 * gap);
  const facts = width - cut - chart - 2 * gap;
  return [
    ...head(card, tools, width),
    stepsBlock(card, tools, width),
    roastBlock(card, tools, width),
    abreast([
      [0, sectionBlock(card, tools, cut)],
      [cut + gap, chartBlock(card, tools, chart)],
      [width - facts, factsBlock(card, tools, facts)],
    ]),
    ...foot(card, tools, width),
  ];
};

/** The chart over the whole width, the facts beside the cut face: on small paper. */
const inStrips: Arrangement = (card, tools, width) => {
  const gap = 2 * tools.sizes.bodyPt;
  const cut = sectionWidth(card, tools, 0.5 * width);
  return [
    ...head(card, tools, width),
    stepsBlock(card, tools, width),
    roastBlock(card, tools, width),
    abreast([
      [0, sectionBlock(card, tools, cut)],
      [cut + gap, factsBlock(card, tools, width - cut - gap)],
    ]),
    chartBlock(card, tools, stripWidth(tools, width)),
    ...foot(card, tools, width),
  ];
};

/** From readable to all there is. */
function stripWidth({ sizes }: Tools, width: number): number {
  const least = Math.min(width, CHART_READABLE_MM * PT_PER_MM);
  return least + sizes.room * (width - least);
}

/** The timetable on the left, a small chart and the cut face on the right of it: where nothing else fits. */
const dense: Arrangement = (card, tools, width) => {
  const gap = 1.4 * tools.sizes.bodyPt;
  const right = sectionWidth(card, tools, 0.42 * width);
  return [
    ...head(card, tools, width),
    abreast([
      [0, stepsBlock(card, tools, width - right - gap)],
      [
        width - right,
        below(
          [chartBlock(card, tools, right), sectionBlock(card, tools, right)],
          0.6 * tools.sizes.gapPt,
        ),
      ],
    ]),
    roastBlock(card, tools, width),
    factsBlock(card, tools, width),
    ...foot(card, tools, width),
  ];
};

/** With what speaks for each of them where they do equally well. */
export const ARRANGEMENTS: readonly (readonly [Arrangement, bonus: number])[] = [
  [sideBySide, 0.1],
  [inOneRow, 0],
  [inStrips, 0],
  [dense, 0],
];
