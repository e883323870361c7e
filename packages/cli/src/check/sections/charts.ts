import {
  answer,
  CHARTS,
  edition,
  GROUPS,
  type Group,
  middleOf,
  TENDERLOIN_ROWS,
  type TenderloinRow,
  type Union,
  unionsOf,
} from '../charts.js';
import { once } from '../cook.js';
import { bullets, fixed, page, range, signed, table } from '../markdown.js';
import {
  type Allowance,
  distance,
  just,
  type Kind,
  type Pair,
  type Row,
  type Section,
  share,
} from '../row.js';
import { gapText, VERDICT_HEAD, verdictText } from '../rowWords.js';

const TENDERLOIN_RISE_K = 5.6; // 10 °F, the trade's tenderloin instructions
const CUT_NAMES = { whole: 'whole', centre: 'centre or half' } as const;

const REMARKS: Readonly<Record<Group, string>> = {
  trade: 'fitted on',
  government: 'not fitted on',
  'cold oven': 'not fitted on; oven cold',
  'no temperature': 'no temperature printed, 57.2 °C taken',
};

const KIND_OF: Readonly<Record<Group, Kind>> = {
  trade: 'fit',
  government: 'check',
  'cold oven': 'check',
  'no temperature': 'check',
};

/** Inside the printed window, or outside it by no more than the tenth that rounding and padding are worth. */
const WINDOW: Allowance = share(0, 0.1);
/** A thermometer's position and the rest's cover are nowhere stated; 3 K are what safety takes off anything after the pull. */
const RISE: Allowance = distance(1.5, 3);

interface ChartLine {
  readonly of: TenderloinRow;
  /** Minutes to the reading for the lightest, middle and heaviest weight, and to the axis for the middle one. */
  readonly readings: readonly [number, number, number];
  readonly axis: number;
  readonly row: Row;
}

const chartLines = once((): ChartLine[] =>
  TENDERLOIN_ROWS.map((of) => {
    const { weightKg, minutes } = of;
    const middle = middleOf(weightKg);
    const at = (kg: number): number => answer(of, kg).minutes;
    const readings = [at(weightKg[0]), at(middle), at(weightKg[1])] as const;
    return {
      of,
      readings,
      axis: answer(of, middle, 0).minutes,
      row: {
        what: `${of.edition}: ${CUT_NAMES[of.cut]} ${range(weightKg, 2)} kg to ${fixed(of.removeC, 1)} °C`,
        kind: KIND_OF[of.group],
        must: false,
        published: minutes,
        model: just(readings[1]),
        unit: 'min',
        decimals: 1,
        allow: WINDOW,
        source: of.edition,
        ...(of.group === 'trade' ? {} : { note: REMARKS[of.group] }),
      },
    };
  }),
);

function chartCells({ of, readings, axis, row }: ChartLine): string[] {
  return [
    of.edition,
    CUT_NAMES[of.cut],
    range(of.weightKg, 2),
    fixed(of.removeC, 1),
    range(of.minutes),
    `${fixed(readings[0], 1)} / **${fixed(readings[1], 1)}** / ${fixed(readings[2], 1)}`,
    fixed(axis, 1),
    gapText(row),
    REMARKS[of.group],
    verdictText(row),
  ];
}

interface UnionLine {
  readonly of: Union;
  readonly middleKg: number;
  readonly row: Row;
}

const unionLines = once((): UnionLine[] =>
  (['trade', 'government'] as const).flatMap((group) =>
    unionsOf(group).map((of) => {
      const middleKg = middleOf(of.rows[0].weightKg);
      return {
        of,
        middleKg,
        row: {
          what: `${group}, all editions: ${CUT_NAMES[of.cut]} ${fixed(middleKg, 2)} kg to ${fixed(of.removeC, 1)} °C`,
          kind: KIND_OF[group],
          must: group === 'trade',
          published: of.minutes,
          model: just(answer(of.rows[0], middleKg).minutes),
          unit: 'min',
          decimals: 1,
          allow: WINDOW,
          source: of.editions.join(', '),
        },
      };
    }),
  ),
);

const unionCells = ({ of, middleKg, row }: UnionLine): string[] => [
  of.group,
  CUT_NAMES[of.cut],
  fixed(of.removeC, 1),
  range(of.minutes),
  range(of.widened, 1),
  `${fixed(middleKg, 2)} kg: **${fixed(row.model?.[0], 1)}**`,
  gapText(row),
  verdictText(row),
];

/** Rows of the trade removed at 57.2 °C, for which a rise is printed. */
const medium = (): TenderloinRow[] =>
  unionsOf('trade')
    .filter(({ removeC }) => removeC === 57.2)
    .map(({ rows }) => rows[0]);

/** What is published for rises, and for which roasts. */
const RISES: readonly (readonly [of: string, K: Pair])[] = [
  ['this roast', just(TENDERLOIN_RISE_K)],
  ['beef roasts', [2.8, 5.6]],
  ['average roasts', [5.6, 8.3]],
];

const riseRows = once((): Row[] =>
  RISES.flatMap(([printedFor, publishedK]) =>
    medium().map((of) => ({
      what: `${CUT_NAMES[of.cut]}, rise of the reading, printed for ${printedFor}`,
      kind: 'check',
      must: false,
      published: publishedK,
      model: just(answer(of, middleOf(of.weightKg)).readingRiseK),
      unit: 'K',
      decimals: 1,
      allow: RISE,
      source: 'roasting-charts: carryover',
    })),
  ),
);

function riseCells(row: TenderloinRow): string[] {
  const outcome = answer(row, middleOf(row.weightKg));
  return [
    CUT_NAMES[row.cut],
    fixed(row.removeC, 1),
    fixed(outcome.readingRiseK, 1),
    fixed(outcome.axisRiseK, 1),
    fixed(outcome.axisPeakMinutes, 0),
    fixed(outcome.frontC, 0),
    fixed(100 * outcome.loss, 1),
    fixed(100 * outcome.evaporatedShare, 0),
  ];
}

const risesIn = (what: string): string =>
  CHARTS.carryover
    .filter((record) => record.what === what)
    .map(({ source }) => source)
    .join('; ');

function chartPage(): string {
  const trade = unionsOf('trade');
  const risen = riseRows().slice(0, medium().length);
  const rises = risen.map(({ model }) => model?.[0] ?? Number.NaN);
  return page(
    '## Tenderloin at 425 °F: the charts',
    'Straight from the refrigerator (4 °C, no tempering), still oven preheated to 218.3 °C, the roast tied, a whole one with its ' +
      'tail folded. "Reading" is the time at which a thermometer a quarter of the radius off the axis, in the thickest part clear ' +
      'of the ends, shows the removal temperature, for the lightest, **middle** and heaviest weight of the row; "axis" is the time ' +
      'at which the true axis gets there, for the middle weight. "window" holds the middle reading against the ' +
      "row's own printed window.",
    table(
      [
        'edition',
        'cut',
        'kg',
        'to °C',
        'chart min',
        'reading min',
        'axis min',
        'window',
        'remark',
        VERDICT_HEAD,
      ],
      chartLines().map(chartCells),
    ),
    'The rule the tests hold (`tests/published/charts.test.ts`): for one cut and removal temperature, all editions of the trade ' +
      'together, widened by a tenth at both ends, contain the reading of the middle weight. The government charts, which print ' +
      'the same minutes for 145 °F that others print for 135 °F, are held against their own window and only reported.',
    table(
      [
        'charts',
        'cut',
        'to °C',
        'all editions min',
        'widened',
        'reading min',
        'window',
        VERDICT_HEAD,
      ],
      unionLines().map(unionCells),
    ),
    'Rise while standing (30 min under loose foil) after removal by that reading, middle weight; loss at the end of the rest:',
    table(
      [
        'cut',
        'removed at °C',
        'rise of the reading K',
        'rise of the axis K',
        'axis peaks after min',
        'front at the pull °C',
        'loss %',
        'of it evaporated %',
      ],
      trade.map((union) => riseCells(union.rows[0])),
    ),
    'Published for a tenderloin at 425 °F: 5.6 K; for roasts 2.8-5.6 K; for average roasts 5.6-8.3 K. The tests ask of the reading 2.8-8.3 K ' +
      `(5-15 °F) at 57.2 °C. The model's ${rises.map((rise) => fixed(rise, 1)).join(' and ')} K are ` +
      `${rises.map((rise) => signed(rise - TENDERLOIN_RISE_K, 1)).join(' and ')} K off the one figure printed for this very roast (${risen.map(verdictText).join(', ')}). The axis rises more than a ` +
      'thermometer beside it, about which the charts say nothing.',
    'Sources (data/published/roasting-charts.json):',
    bullets(
      ...Object.keys(GROUPS).map((id) => `\`${id}\`: ${edition(id).source}.`),
      `rises: ${risesIn('rise while standing, tenderloin at 425 F')}; ${risesIn('rise while standing, beef roasts')}; ` +
        `${risesIn('carry-over by size')}.`,
    ),
  );
}

/** The main job: a tenderloin at 425 °F. */
export const chartSection: Section = {
  id: 'charts',
  title: 'Roasting charts, tenderloin at 425 °F',
  rows: () => [...unionLines(), ...chartLines()].map(({ row }) => row).concat(riseRows()),
  page: chartPage,
};
