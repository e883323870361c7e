import type { CardModel } from './cardModel.js';
import { abreast, below, type Group, type Tools } from './layoutBlocks.js';
import { chartBlock, chartFor, roastBlock, sectionBlock, sectionWidth } from './layoutFigures.js';
import { guestsBlock } from './layoutGuests.js';
import { headGroup, noteBlock, titleBlock } from './layoutHead.js';
import { keysBlock } from './layoutKeys.js';
import { cautionsBlock, factsBlock, footerBlock, noticesBlock } from './layoutLists.js';
import { stepsBlock } from './layoutSteps.js';

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

const SECTION_SHARE = 0.32; // of the width, at most, where it stands beside the roast
const CHART_SHARE = 0.45; // of the width, at most, where it stands beside the timetable

/** Chart and cut face beside the timetable, the roast over the whole width; the facts below it, or below the timetable where that is shorter. */
const besideTimetable: Arrangement = (card, tools, width) => {
  const { gapPt, bodyPt } = tools.sizes;
  const gap = 1.4 * bodyPt;
  const chart = chartFor(card.charts, CHART_SHARE * width).leastWidthPt;
  const left = width - chart - gap;
  const steps = stepsBlock(card, tools, left);
  const figures = below(
    [chartBlock(card, tools, chart), sectionBlock(card, tools, sectionWidth(card, tools, chart))],
    0.6 * gapPt,
  );
  const beside = (group: Group): Group =>
    abreast([
      [0, group],
      [left + gap, figures],
    ]);
  const facts = factsBlock(card, tools, width);
  const apart = beside(steps);
  const narrow = factsBlock(card, tools, left);
  const under = narrow === undefined ? apart : beside(below([steps, narrow], gapPt));
  const isUnder = under.heightPt < apart.heightPt + gapPt + (facts?.heightPt ?? 0);
  return [
    ...head(card, tools, width),
    isUnder ? under : apart,
    roastBlock(card, tools, width),
    isUnder ? undefined : facts,
    ...foot(card, tools, width),
  ];
};

/** Beside the timetable a small chart and the facts, beside the roast its cut face: where nothing else fits. */
const dense: Arrangement = (card, tools, width) => {
  const gap = 1.4 * tools.sizes.bodyPt;
  const chart = chartFor(card.charts, CHART_SHARE * width).leastWidthPt;
  const cut = sectionWidth(card, tools, SECTION_SHARE * width);
  return [
    ...head(card, tools, width),
    abreast([
      [0, stepsBlock(card, tools, width - chart - gap)],
      [
        width - chart,
        below(
          [chartBlock(card, tools, chart), factsBlock(card, tools, chart)].filter(
            (group) => group !== undefined,
          ),
          0.6 * tools.sizes.gapPt,
        ),
      ],
    ]),
    abreast([
      [0, roastBlock(card, tools, width - cut - gap)],
      [width - cut, sectionBlock(card, tools, cut)],
    ]),
    ...foot(card, tools, width),
  ];
};

/** With what speaks for each of them where they do equally well. */
export const ARRANGEMENTS: readonly (readonly [Arrangement, bonus: number])[] = [
  [besideTimetable, 0.3],
  [dense, 0],
];
