import { lengthOf } from '@roastsim/core';
import { type ChartRow, edition, middleOf } from '../charts.js';
import { COARSE, cookTo, cylinder, type Outcome, once } from '../cook.js';
import { chartRowOf, FLATTEST, HOLD_OUTS, type HoldOut } from '../holdOuts.js';
import { against, fixed, page, range, span, table } from '../markdown.js';

function holdOutRow(one: HoldOut): string[] {
  const { oven_C, remove_C, time_min } = chartRowOf(one);
  const ask = { ovenC: oven_C, reachesC: remove_C };
  const round = cookTo(one.roast, ask);
  const own = cookTo({ ...one.roast, aspect: Math.max(FLATTEST, one.aspect) }, ask);
  return [
    one.name,
    fixed(one.massKg, 2),
    one.shape,
    fixed(1000 * lengthOf(one.roast.profile), 0),
    fixed(oven_C, 0),
    range(time_min),
    fixed(own?.minutes, 1),
    against(own?.minutes, time_min),
    fixed(round?.minutes, 1),
    against(round?.minutes, time_min),
  ];
}

type WidthRow = ChartRow & Required<Pick<ChartRow, 'width_m' | 'time_min' | 'remove_C'>>;

const WIDTHS = edition('classic-325F-with-widths');
const RIB_KG = [1.814, 2.722];
const hasWidth = (row: ChartRow): row is WidthRow => row.width_m !== undefined;

interface Rib {
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
    diameterMm,
    published: rows.map((row) => row.time_min[0]),
    model: rows.map((row) => cookTo(roast, { ovenC: row.oven_C, reachesC: row.remove_C, ...ask })),
  };
}

const ribs = once(() => RIB_KG.map((massKg) => ({ massKg, ...rolledRib(massKg) })));

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

function ribRow({
  massKg,
  diameterMm,
  published,
  model,
}: Rib & { readonly massKg: number }): string[] {
  const minutes = model.map((one) => one?.minutes);
  return [
    fixed(massKg, 2),
    fixed(diameterMm, 0),
    published.map((one) => fixed(one, 0)).join(' / '),
    minutes.map((one) => fixed(one, 0)).join(' / '),
    ratios(published),
    ratios(minutes),
    model.map((one) => fixed(one?.frontC, 0)).join(' / '),
  ];
}

/** Rows nothing was ever fitted to. */
export function holdOutSection(): string {
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
        'round roast min',
        'window',
      ],
      HOLD_OUTS.map(holdOutRow),
    ),
    'Flat, squat and fat-covered pieces are outside the shape the model was made for. The charts disagree among themselves by as ' +
      'much: eye of round of 0.9-1.4 kg at 325 °F is given 90-105 min (NCBA, commissaries) and 20-22 min per lb, that is 40-66 min ' +
      '(meat board, FoodSafety.gov), to the same 135-145 °F.',
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
      ],
      ribs().map(ribRow),
    ),
    `**The model fails this check.** The first time is near the chart, the later ones run away: from 140 to 170 °F it takes ${range(span(ribStretch()), 1)} times the ` +
      "chart's minutes. At 325 °F the modelled surface stays wet, and so cool, for hours (last column), and a centre above 70 °C has too little to be " +
      'driven by. Real surfaces dry out. It is the same fault as in the low ovens below, beyond the doneness a tenderloin is served at.',
    `Sources: \`ncba-2000s\`, \`checkoff-current\` as above; \`classic-325F-with-widths\`: ${WIDTHS.source}.`,
  );
}
