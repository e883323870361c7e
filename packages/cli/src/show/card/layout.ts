import { RoastError } from '@roastsim/core';
import { type CardModel, PAPERS } from './cardModel.js';
import { ARRANGEMENTS, type Arrangement } from './layoutArrangements.js';
import { blockAt, type Group } from './layoutBlocks.js';
import { MARGIN_MM, sizesFor } from './layoutSizes.js';
import { typesetter } from './layoutText.js';
import { type Block, type BlockName, type Measure, type Page, PT_PER_MM } from './page.js';

export type { Measure, Page } from './page.js';

const STEPS = 5; // halvings when looking for the roomiest that fits
const MOST_STRETCH = 2.2; // of a gap, where the page has room to spare
const CLOSE_BELOW = 0.25; // room from which on lists run on, if that gives more of it
const CLOSE_COST = 0.4;

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
  const attempt = (arrangement: Arrangement, close: boolean, room: number): Attempt => {
    const tools = { sizes: sizesFor(card.paper, room), measure, typeset, close };
    const groups = arrangement(card, tools, width).filter((group) => group !== undefined);
    const gapPt = tools.sizes.gapPt;
    const filled = groups.reduce((sum, group) => sum + group.heightPt, 0);
    return { room, gapPt, groups, heightPt: filled + (groups.length - 1) * gapPt, score: 0 };
  };
  const tried = (close: boolean): Attempt[] =>
    ARRANGEMENTS.map(([arrangement, bonus]) => {
      const best = roomiest((room) => attempt(arrangement, close, room), height);
      return {
        ...best,
        score: best.room + bonus - (close ? CLOSE_COST : 0),
      };
    });
  const fits = ({ heightPt }: Attempt): boolean => heightPt <= height;
  let attempts = tried(false);
  if (!attempts.some((one) => fits(one) && one.room >= CLOSE_BELOW))
    attempts = [...attempts, ...tried(true)];
  const fitting = attempts.filter(fits);
  if (fitting.length === 0) {
    throw tooLong(
      card,
      attempts.reduce((a, b) => (b.heightPt < a.heightPt ? b : a)),
      height,
    );
  }
  const best = fitting.reduce((a, b) => (b.score > a.score ? b : a));
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
  /** Against other attempts that fit. */
  readonly score: number;
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
