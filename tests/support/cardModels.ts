import type { Planned } from '../../packages/cli/src/ask/planned.js';
import { planFor } from '../../packages/cli/src/ask/planning.js';
import { type PlanWords, readPlanOptions } from '../../packages/cli/src/read/planOptions.js';
import { buildCard, type CardOrder } from '../../packages/cli/src/show/card/buildCard.js';
import type {
  CardGuest,
  CardModel,
  Paper,
  Picture,
} from '../../packages/cli/src/show/card/cardModel.js';

// Cards of real plans. Shops and people are invented. The chart on them needs the fonts in packages/cli/dist, as `pnpm build` or
// `pnpm test` leaves them.

/** A quarter of a second for each plan: each is made once. */
const plans = new Map<string, Promise<{ readonly order: CardOrder; readonly planned: Planned }>>();

async function plannedOnce(
  words: PlanWords,
): Promise<{ readonly order: CardOrder; readonly planned: Planned }> {
  const order = { words, order: readPlanOptions(words) };
  return { order, planned: await planFor(words, order.order) };
}

function plannedFrom(
  words: PlanWords,
): Promise<{ readonly order: CardOrder; readonly planned: Planned }> {
  const key = JSON.stringify(words);
  const known = plans.get(key) ?? plannedOnce(words);
  plans.set(key, known);
  return known;
}

async function built(words: PlanWords, more: Partial<CardOrder>): Promise<CardModel> {
  const { order, planned } = await plannedFrom(words);
  return buildCard({ ...order, ...more }, planned);
}

/** A square of black and paper: an invented sign. */
const LOGO: Picture = {
  png: Buffer.from(
    'iVBORw0KGgoAAAANSUhEUgAAAAIAAAACAQAAAABazTCJAAAADElEQVR4nGNoYHAAAAHEAMFJRLcHAAAAAElFTkSuQmCC',
    'base64',
  ),
  widthPx: 2,
  heightPx: 2,
  alt: 'Sign of the shop',
};

/** What a person types first: a weight and an oven. */
export const plainCard = (paper: Paper = 'a5'): Promise<CardModel> =>
  built({ weight: '2.2kg', oven: '230C' }, { paper });

const SHOP_WORDS = { weight: '2.2kg', oven: '230C', serve: '18:30' };
const SHOP_ORDER = { forWhom: 'A. Lindqvist', pickUp: '2026-12-24T16:00' };
const SHOP = {
  name: 'Quillfeather & Daughters, Butchers',
  address: ['12 Mill Lane', 'Oxbarrow', 'Tel. 0100 555 0100'],
  footer: 'Questions? Ring us until six.',
  logo: LOGO,
};

/** A customer's order at a shop. */
export const shopCard = async (paper: Paper = 'a5'): Promise<CardModel> => ({
  ...(await built(SHOP_WORDS, { paper, ...SHOP_ORDER })),
  shop: SHOP,
});

const LONGEST_NAME = 60;

/** A name filled up to the longest plausible. */
export const longName = (start: string): string =>
  `${start} Featherstonehaugh-Wolverhampton of the Upper Marshlands by the Sea`
    .slice(0, LONGEST_NAME)
    .trim();

const FIRST_NAMES = [
  'Ada',
  'Bertil',
  'Chloë',
  'Dimitri',
  'Eszter',
  'Fergus',
  'Guðrún',
  'Hana',
  'Ilse',
  'Jörg',
  'Kateřina',
  'Łukasz',
  'Μαρία',
  'Наталья',
] as const;

/** How the guests at a table are called. */
export type Names = 'none' | 'short' | 'long';

/** A guest for each slice of a plan: most get what they asked for. */
function guestsOf({ slices }: Planned['plan'], names: Names): CardGuest[] {
  return slices.map(({ band, peakCentreC }, i): CardGuest => {
    const first = FIRST_NAMES[i % FIRST_NAMES.length];
    return {
      ...(names === 'none' ? {} : { name: names === 'short' ? first : longName(first) }),
      wish: i % 5 === 4 ? 'rare' : band,
      slice: i + 1,
      band,
      peakC: peakCentreC,
    };
  });
}

/** {@link shopCard} for a table of so many guests. */
export async function tableCard(
  count: number,
  names: Names,
  paper: Paper = 'a5',
): Promise<CardModel> {
  const words = { ...SHOP_WORDS, portion: `${Math.ceil(2200 / count)}g` };
  const card = await built(words, { paper, ...SHOP_ORDER });
  return { ...card, shop: SHOP, guests: guestsOf((await plannedFrom(words)).planned.plan, names) };
}

/** A card as long as one may plausibly get: the longest names and note, a sear, a sear last, and a table of fourteen. */
export async function fullCard(paper: Paper = 'a4'): Promise<CardModel> {
  const words: PlanWords = {
    weight: '2.4kg',
    oven: '120C',
    portion: '172g', // fourteen slices
    sear: true,
    searLast: true,
    serve: '18:30',
  };
  const card = await built(words, {
    paper,
    forWhom: longName('Bartholomew'),
    pickUp: '2026-12-24T16:00',
    note:
      'We left the silver skin on the thick end as you asked, and packed the trimmings apart in the small bag. ' +
      'The bones for your stock are kept in the cold room under your name; ask for them when you come.',
  });
  return {
    ...card,
    shop: {
      name: longName('Quillfeather'),
      address: [longName('Butchers'), longName('Mill Lane')],
      footer: `${longName('Questions?')} ${longName('Ring')}`,
      logo: LOGO,
    },
    guests: guestsOf((await plannedFrom(words)).planned.plan, 'long'),
  };
}
