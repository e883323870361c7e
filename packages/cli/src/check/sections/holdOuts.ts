import { lengthOf } from '@roastsim/core';
import { CHARTS, type ChartRow, edition, middleOf, TENDERLOIN_ROWS } from '../charts.js';
import { COARSE, cookTo, cylinder, type Outcome, once } from '../cook.js';
import { chartRowOf, FLATTEST, HOLD_OUTS, type HoldOut } from '../holdOuts.js';
import { fixed, page, range, span, table } from '../markdown.js';
import { type Allowance, just, maybe, type Row, type Section, share } from '../row.js';
import { gapText, VERDICT_HEAD, verdictText } from '../rowWords.js';

/** In one kitchen minutes per kilogram scatter by 10 % (`fan-180C-series`); a guessed shape is worth as much again and more. */
const TIMES: Allowance = share(0.1, 0.25);

interface HoldOutLine {
  readonly of: HoldOut;
  readonly ovenC: number;
  /** With the section assumed, and as the library makes any round roast. */
  readonly own: Row;
  readonly round: Row;
}

const holdOutLines = once((): HoldOutLine[] =>
  HOLD_OUTS.map((of) => {
    const { oven_C, remove_C, time_min } = chartRowOf(of);
    const ask = { ovenC: oven_C, reachesC: remove_C };
    const row = (how: string, outcome: Outcome | undefined): Row => ({
      what: `${of.name} ${fixed(of.massKg, 2)} kg, ${fixed(oven_C, 0)} °C, ${how}`,
      kind: 'hold-out',
      must: false,
      published: time_min,
      model: maybe(outcome?.minutes),
      unit: 'min',
      decimals: 1,
      allow: TIMES,
      source: of.edition,
      note: `shape assumed: ${of.shape}`,
    });
    return {
      of,
      ovenC: oven_C,
      own: row('own section', cookTo({ ...of.roast, aspect: Math.max(FLATTEST, of.aspect) }, ask)),
      round: row('round', cookTo(of.roast, ask)),
    };
  }),
);

const holdOutCells = ({ of, ovenC, own, round }: HoldOutLine): string[] => [
  of.name,
  fixed(of.massKg, 2),
  of.shape,
  fixed(1000 * lengthOf(of.roast.profile), 0),
  fixed(ovenC, 0),
  range(own.published),
  ...[own, round].flatMap((row) => [fixed(row.model?.[0], 1), gapText(row), verdictText(row)]),
];

type WidthRow = ChartRow & Required<Pick<ChartRow, 'width_m' | 'time_min' | 'remove_C'>>;

const WIDTHS = edition('classic-325F-with-widths');
const RIB_KG = [1.814, 2.722];
const hasWidth = (row: ChartRow): row is WidthRow => row.width_m !== undefined;

interface Rib {
  readonly massKg: number;
  readonly reachesC: readonly number[];
  readonly diameterMm: number;
  readonly published: readonly number[];
  readonly model: readonly (Outcome | undefined)[];
}

/** The rolled rib of one weight, as a cylinder of its stated width. */
function rolledRib(massKg: number): Rib {
  const rows = WIDTHS.rows.filter(hasWidth).filter((row) => row.weight_kg[0] === massKg);
  const diameterMm = 1000 * middleOf(rows[0].width_m);
  const roast = cylinder(massKg, diameterMm);
  const ask = { restMinutes: 0, options: COARSE };
  return {
    massKg,
    reachesC: rows.map((row) => row.remove_C),
    diameterMm,
    published: rows.map((row) => row.time_min[0]),
    model: rows.map((row) => cookTo(roast, { ovenC: row.oven_C, reachesC: row.remove_C, ...ask })),
  };
}

const ribs = once(() => RIB_KG.map(rolledRib));

/** The chart has no known publisher, so times over the first time are compared beside the first time itself. */
const ribRows = once((): Row[] =>
  ribs().flatMap(({ massKg, diameterMm, reachesC, published, model }) => {
    const times = model.map((one) => one?.minutes);
    const row = (
      what: string,
      more: Pick<Row, 'published' | 'model' | 'unit' | 'decimals'>,
    ): Row => ({
      what: `rolled rib ${fixed(massKg, 2)} kg, ${fixed(diameterMm, 0)} mm, 163 °C${what}`,
      kind: 'hold-out',
      must: false,
      allow: TIMES,
      source: 'classic-325F-with-widths',
      note: 'publisher unknown',
      ...more,
    });
    const [first] = times;
    return reachesC.map((reached, i) => {
      const time = times[i];
      if (i === 0) {
        return row(` to ${fixed(reached, 0)} °C`, {
          published: just(published[0]),
          model: maybe(first),
          unit: 'min',
          decimals: 0,
        });
      }
      return row(`, time to ${fixed(reached, 0)} °C over that to ${fixed(reachesC[0], 0)} °C`, {
        published: just(published[i] / published[0]),
        model: maybe(time === undefined || first === undefined ? undefined : time / first),
        unit: '',
        decimals: 2,
      });
    });
  }),
);

/** Minutes from the first to the last removal temperature, over the chart's. */
export const ribStretch = (): number[] =>
  ribs().map(({ published, model }) => {
    const [first, last] = [model[0], model[model.length - 1]];
    return (
      ((last?.minutes ?? Number.NaN) - (first?.minutes ?? Number.NaN)) /
      (published[published.length - 1] - published[0])
    );
  });

const ratios = (minutes: readonly (number | undefined)[]): string =>
  minutes
    .map((one) => {
      const [first] = minutes;
      return one === undefined || first === undefined ? 'never' : fixed(one / first, 2);
    })
    .join(' : ');

function ribCells({ massKg, diameterMm, published, model }: Rib): string[] {
  const minutes = model.map((one) => one?.minutes);
  const verdicts = ribRows().filter(({ what }) => what.includes(` ${fixed(massKg, 2)} kg`));
  return [
    fixed(massKg, 2),
    fixed(diameterMm, 0),
    published.map((one) => fixed(one, 0)).join(' / '),
    minutes.map((one) => fixed(one, 0)).join(' / '),
    ratios(published),
    ratios(minutes),
    model.map((one) => fixed(one?.frontC, 0)).join(' / '),
    verdicts.map(verdictText).join(' / '),
  ];
}

/** Chart lines of other cuts for which no shape is known or assumed, so that nothing can be computed. */
const notCompared = (): number =>
  CHARTS.editions.reduce((sum, { rows }) => sum + rows.length, 0) -
  TENDERLOIN_ROWS.length -
  HOLD_OUTS.length -
  ribs().reduce((sum, { published }) => sum + published.length, 0);

function holdOutPage(): string {
  return page(
    '## Hold-outs: other cuts, never fitted on',
    'Time to a reading of 57.2 °C, from 4 °C, preheated still oven, meat of the default composition, no fat cover. No chart gives a ' +
      'shape: those below are guesses. Thickness is the area-equivalent diameter, the square root ' +
      'of width times height; "own section" takes the assumed height over width (not below ' +
      `${FLATTEST}, where the fit of the equivalent line ends: the strip roast is flatter), "round roast" what the library takes for ` +
      'any roast that is not a tenderloin, 0.85. The length follows from the weight where the shape is a cylinder.',
    table(
      [
        'cut',
        'kg',
        'section assumed',
        'length mm',
        'oven °C',
        'chart min',
        'own section min',
        'window',
        VERDICT_HEAD,
        'round roast min',
        'window',
        VERDICT_HEAD,
      ],
      holdOutLines().map(holdOutCells),
    ),
    'Flat, squat and fat-covered pieces are outside the shape the model was made for. The charts disagree among themselves by as ' +
      'much: eye of round of 0.9-1.4 kg at 325 °F is given 90-105 min (NCBA, commissaries) and 20-22 min per lb, that is 40-66 min ' +
      `(meat board, FoodSafety.gov), to the same 135-145 °F. ${notCompared()} more chart lines are of other cuts; no shape is known ` +
      'for them, and they are not compared.',
    'The only chart with widths: rolled rib at 325 °F (162.8 °C), minutes to a reading of 140 / 160 / 170 °F (60.0 / 71.1 / 76.7 °C), ' +
      `cylinder of the middle width, ${COARSE.stations} stations and ${COARSE.shells} shells. Its publisher is unknown, so the ratios ` +
      'count, not the minutes.',
    table(
      [
        'kg',
        'across mm',
        'chart min',
        'model min',
        'chart ratio',
        'model ratio',
        'front at the pull °C',
        VERDICT_HEAD,
      ],
      ribs().map(ribCells),
    ),
    `**The model fails this check.** The first time is near the chart, the later ones run away: from 140 to 170 °F it takes ${range(span(ribStretch()), 1)} times the ` +
      "chart's minutes. At 325 °F the modelled surface stays wet, and so cool, for hours (last but one column), and a centre above 70 °C has too little to be " +
      'driven by. Real surfaces dry out. It is the same fault as in the low ovens below, beyond the doneness a tenderloin is served at.',
    `Sources: \`ncba-2000s\`, \`checkoff-current\` as above; \`classic-325F-with-widths\`: ${WIDTHS.source}.`,
  );
}

/** Rows nothing was ever fitted to. */
export const holdOutSection: Section = {
  id: 'other-cuts',
  title: 'Other cuts',
  rows: () => [...holdOutLines().flatMap(({ own, round }) => [own, round]), ...ribRows()],
  page: holdOutPage,
};
