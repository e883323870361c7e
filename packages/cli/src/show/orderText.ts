import {
  askText,
  type Candidate,
  counterText,
  durationText,
  inches,
  KG_PER_POUND,
  KNOT_MM,
  lengthText,
  massText,
  ORDER_CUT_NAMES,
  type Order,
  type OrderCut,
  piecesText,
  riseText,
  sayChildren,
  sayRecommendation,
  sayWarning,
  TRIM_NAMES,
  type Twine,
  type TyingReport,
  temperatureText,
  type UnitSystem,
  type Warning,
} from '@roastsim/core';
import type { Colors } from 'picocolors/types.js';
import { table } from './table.js';
import { COLUMNS, paragraph } from './wrap.js';

const INSET = '  ';

/** What the report needs beside the order. */
export interface OrderContext {
  readonly units: UnitSystem;
  readonly locale: string;
  readonly assumed: readonly string[];
  readonly colors: Colors;
  /** Children eat. */
  readonly children: number;
  /** How the whole and the recommended cut are tied, by cut. */
  readonly tying: ReadonlyMap<OrderCut, TyingReport>;
}

/** The order as somebody at a counter reads it, 80 columns wide. */
export function orderReport(order: Order, context: OrderContext): string {
  const parts = [
    headline(order, context),
    [paragraph('', forWhom(order, context)), '', ...candidateTable(order, context)].join('\n'),
    untrimmed(order, context),
    tying(order, context),
    ...notices(order, context, true), // the fold's stands with the fold
    paragraph(
      '',
      `Assumed: ${context.assumed.join('; ')}. Options change each: roastsim order --help.`,
    ),
  ];
  return `${parts.join('\n\n')}\n`;
}

/** What to ask for, in one line, with the notices that must never be missing. */
export function shortOrder(order: Order, context: OrderContext): string {
  const ask = `Ask for ${askText(recommended(order), context.units)}.`;
  return `${[paragraph('', ask), ...notices(order, context, false)].join('\n')}\n`;
}

/** The candidate the order recommends. */
export function recommended({ candidates, recommendation }: Order): Candidate {
  const taken = candidates.find(({ cut }) => cut === recommendation.cut);
  if (taken === undefined) throw new Error(`there is no candidate ${recommendation.cut}`);
  return taken;
}

/** Puts amounts of an order's currency into words. */
export function moneyText({ candidates }: Order, locale: string): (amount: number) => string {
  const currency = candidates.find(({ cost }) => cost !== undefined)?.cost?.currency;
  if (currency === undefined) return String;
  const format = new Intl.NumberFormat(locale, {
    style: 'currency',
    currency,
    currencyDisplay: 'narrowSymbol',
  });
  return (amount) => format.format(amount).replace(/[\u00a0\u202f]/g, ' ');
}

function headline(order: Order, { units, locale, colors }: OrderContext): string {
  const ask = paragraph('', `Ask for ${askText(recommended(order), units)}.`);
  return [
    ask
      .split('\n')
      .map((line) => colors.bold(line))
      .join('\n'),
    paragraph('  ', sayRecommendation(order, units, moneyText(order, locale))),
  ].join('\n');
}

const counted = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;

function forWhom({ need, cook, wishes }: Order, { units, children }: OrderContext): string {
  const guests = need.people - children;
  const eaters = [
    ...(guests > 0 ? [counted(guests, 'guest', 'guests')] : []),
    ...(children > 0 ? [counted(children, 'child', 'children')] : []),
  ].join(' and ');
  const portions = Number(need.portions.toFixed(2));
  const left =
    need.leftoversKg > 0 ? `, and ${massText(need.leftoversKg, units)} cooked for later` : '';
  const heat =
    cook.heat.kind === 'roast' ? ` in an oven at ${temperatureText(cook.heat.ovenC, units)}` : '';
  const doneness = cook.aim?.doneness ?? 'medium-rare';
  const wish = typeof doneness === 'number' ? temperatureText(doneness, units) : doneness;
  const all =
    wishes.length > 1
      ? `${wishes.map(({ band, count }) => `${count} ${band}`).join(', ')}; ${heat.trim()}`
      : `${wish}${heat}`;
  return (
    `For ${eaters}: ${counted(portions, 'portion', 'portions')} of ${massText(need.portionKg, units)} raw${left}; ` +
    `${all}. The ways to buy it:`
  );
}

const ROW_NAMES: Readonly<Record<OrderCut, string>> = {
  centre: 'centre cut',
  butt: 'butt end',
  whole: 'whole',
  untrimmed: 'untrimmed',
};

function candidateTable(order: Order, { units, locale, colors }: OrderContext): string[] {
  const { candidates, recommendation, wishes } = order;
  const money = moneyText(order, locale);
  const mixed = wishes.length > 1;
  const guests = wishes.reduce((sum, { count }) => sum + count, 0);
  const cells = (text: (candidate: Candidate) => string): string[] => candidates.map(text);
  const missing = candidates.some(({ inStock }) => inStock === false);
  const priced = candidates.some(({ cost }) => cost !== undefined);
  const [head, ...rows] = table([
    {
      head: '',
      align: 'left',
      cells: cells(
        ({ cut, inStock }) =>
          `${cut === recommendation.cut ? '>' : ' '} ${ROW_NAMES[cut]}${inStock === false ? ' *' : ''}`,
      ),
    },
    { head: 'ask for', cells: cells(({ piecesKg }) => piecesText(piecesKg, units)) },
    { head: 'trimmed', cells: cells(({ trimmedKg }) => massText(trimmedKg, units)), spare: 3 },
    { head: 'cooked', cells: cells(({ servedKg }) => massText(servedKg, units)), spare: 1 },
    { head: 'portions', cells: cells(({ portions }) => String(portions)), spare: 2 },
    {
      head: 'as wished',
      cells: cells(({ evenness }) =>
        mixed ? `${evenness.wishesMet} of ${guests}` : `${evenness.inBand} of ${evenness.slices}`,
      ),
    },
    { head: 'spread', cells: cells(({ evenness }) => riseText(evenness.spreadK, units)) },
    ...(priced
      ? [
          { head: 'cost', cells: cells(({ cost }) => (cost ? money(cost.total) : '-')) },
          { head: 'each', cells: cells(({ cost }) => (cost ? money(cost.perPortion) : '-')) },
        ]
      : []),
  ]);
  const taken = candidates.findIndex(({ cut }) => cut === recommendation.cut);
  return [
    colors.dim(head),
    ...rows.map((line, i) => (i === taken ? colors.bold(line) : line)),
    '',
    paragraph(
      '  ',
      `${mixed ? 'As wished: guests who get a slice of their band, the pull chosen for them (roastsim --at guests)' : 'As wished: slices whose middle comes out so'}. ` +
        'Spread: from the coolest slice to the hottest, at their peaks.' +
        `${priced ? ' Each: a portion.' : ''}${missing ? ' * not from what the shop has.' : ''}`,
    ),
  ];
}

function untrimmed({ candidates, trims }: Order, { units }: OrderContext): string {
  const whole = candidates.find(({ cut }) => cut === 'untrimmed');
  if (whole === undefined) throw new Error('there is no untrimmed candidate');
  const { askKg, trimmedKg, trimmedLowKg, trimmedHighKg, comesOff } = whole;
  const rough = (massKg: number): string => roughText(massKg, units);
  const [, ...rows] = table(
    [
      { head: '', align: 'left', cells: comesOff.map(({ part }) => TRIM_NAMES[part].name) },
      { head: '', cells: comesOff.map(({ massKg }) => rough(massKg)) },
      {
        head: '',
        align: 'left',
        cells: comesOff.map(({ lowKg, highKg }) => `(${rough(lowKg)} to ${rough(highKg)})`),
        spare: 1,
      },
      { head: '', align: 'left', cells: comesOff.map(({ part }) => TRIM_NAMES[part].goodFor) },
    ],
    COLUMNS - INSET.length,
  );
  return [
    paragraph(
      '',
      `Untrimmed, about ${percent(trims.total.share)} comes off: of ${counterText(askKg, units)} stay about ` +
        `${massText(trimmedKg, units)} (${massText(trimmedLowKg, units)} to ${massText(trimmedHighKg, units)}). What comes ` +
        'off, and what it is good for:',
    ),
    ...rows.map((row) => INSET + row),
  ].join('\n');
}

/** Weights nobody can foretell to the gram: to 10 g, or to an ounce. */
function roughText(massKg: number, units: UnitSystem): string {
  const stepKg = units === 'us' ? KG_PER_POUND / 16 : 0.01;
  return massText(stepKg * Math.round(massKg / stepKg), units);
}

/** `6.1 m` or `20 ft`: long lengths, rounded up, because a short end is no use. */
const twineText = ({ lengthMm }: Twine, units: UnitSystem): string =>
  units === 'us'
    ? `${Math.ceil(inches(lengthMm) / 12)} ft`
    : `${(Math.ceil(lengthMm / 100) / 10).toFixed(1)} m`;

const WAYS: Readonly<Record<TyingReport['ways'][number]['how'], string>> = {
  'as-cut': 'as it is cut',
  tied: 'tied only',
  folded: 'tail folded',
  'folded-tied': 'folded and tied',
};

const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** How to tie the recommended cut, and how to fold and tie a whole one. */
function tying(order: Order, { units, colors, tying: reports }: OrderContext): string {
  const parts: string[] = [];
  for (const [cut, report] of reports) {
    const { fold, twine, massKg, ways } = report;
    const name = ORDER_CUT_NAMES[cut].one.replace(/^an? /, '');
    const tie =
      `${twine.atMm.length} ties, ${lengthText(twine.spacingMm, units)} apart, take ${twineText(twine, units)} of twine ` +
      `(${lengthText(KNOT_MM, units)} for each knot)`;
    if (fold === undefined) {
      parts.push(paragraph('', `Tying the ${name} of ${counterText(massKg, units)}: ${tie}.`));
      continue;
    }
    const { usual, best, practice, flatLengthMm } = fold;
    const tail = (at: number): string => lengthText((1 - at) * flatLengthMm, units);
    const rows = table(
      [
        { head: '', align: 'left', cells: ways.map(({ how }) => WAYS[how]) },
        { head: 'thickness varies', cells: ways.map(({ variation }) => percent(variation)) },
        { head: 'slices spread', cells: ways.map(({ spreadK }) => riseText(spreadK, units)) },
        { head: 'in the oven', cells: ways.map(({ ovenMinutes }) => durationText(ovenMinutes)) },
      ],
      COLUMNS - INSET.length,
    );
    parts.push(
      [
        paragraph(
          '',
          `Folding and tying a ${name} of ${counterText(massKg, units)}: fold the last ${tail(usual.foldAt)} of its ` +
            `${lengthText(flatLengthMm, units)} under; ${tie}. Most even would be ${tail(best.foldAt)} (thickness varies by ` +
            `${percent(best.variation)}); where it narrows, as cooks do it, is the last ${tail(practice.foldAt)} ` +
            `(${percent(practice.variation)}).`,
        ),
        colors.dim(INSET + rows[0]),
        ...rows.slice(1).map((row) => INSET + row),
      ].join('\n'),
    );
    for (const warning of folds(order)) parts.push(paragraph('! ', sayWarning(warning, units)));
  }
  return parts.join('\n\n');
}

const isFold = ({ code }: Warning): boolean => code === 'fold-below-guidance';

/** What is to be said of a whole tenderloin's folded tail. */
const folds = ({ candidates }: Order): readonly Warning[] =>
  (candidates.find(({ cut }) => cut === 'whole')?.warnings ?? []).filter(isFold);

/** Warnings of the recommended cut, and what children need. */
function notices(order: Order, { units, children }: OrderContext, foldSaid: boolean): string[] {
  const warnings = recommended(order).warnings.filter((warning) => !(foldSaid && isFold(warning)));
  return [
    ...warnings.map((warning) => paragraph('! ', sayWarning(warning, units))),
    ...(children > 0 ? [paragraph('! ', sayChildren(units))] : []),
  ];
}
