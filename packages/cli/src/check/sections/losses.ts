import { type Roast, tenderloin } from '@roastsim/core';
import { middleOf, tenderloinTo, unionsOf } from '../charts.js';
import { COARSE, cooked, cylinder, once } from '../cook.js';
import { DERIVED_END_C, DERIVED_LOSS, YIELDS } from '../losses.js';
import { fixed, page, range, table } from '../markdown.js';
import { measured } from '../measured.js';
import { type Allowance, distance, just, type Row, type Section } from '../row.js';
import { gapText, VERDICT_HEAD, verdictText } from '../rowWords.js';

const derived = [100 * DERIVED_LOSS.low, 100 * DERIVED_LOSS.high] as const;

/** Points of raw weight; the oven and the weighing of the roasts behind the figures were not seen. */
const LOSS: Allowance = distance(2.5, 5);
const OVENS_C = [121, 149, 163, 177, 218.3] as const;
const TENDERLOINS = [
  { cut: 'centre', massKg: 1.134 },
  { cut: 'whole', massKg: 2.041 },
] as const;

/** Losses of centre cut and whole tenderloin, removed where the nutrient studies did. */
const derivedRows = once((): Row[][] =>
  OVENS_C.map((ovenC) =>
    TENDERLOINS.map(({ cut, massKg }) => ({
      what: `${cut} ${fixed(massKg, 2)} kg, ${fixed(ovenC, 0)} °C to ${DERIVED_END_C} °C`,
      kind: 'check',
      must: false,
      published: derived,
      model: just(100 * tenderloinTo(cut, massKg, { ovenC, reachesC: DERIVED_END_C }).loss),
      unit: '%',
      decimals: 1,
      allow: LOSS,
      source: 'yields: cooking_yield',
      note: 'the oven behind the published figure was not seen',
    })),
  ),
);

const ovenCells = (rows: readonly Row[], i: number): string[] => [
  fixed(OVENS_C[i], 0),
  ...rows.flatMap((row) => [fixed(row.model?.[0], 1), gapText(row), verdictText(row)]),
];

interface ReportedLoss {
  readonly assumed: string;
  readonly row: Row;
}

const reported = once((): ReportedLoss[] => {
  const portion = measured('tenderloin-portion-rule', 'loss_pct');
  const ribeye = measured('ribeye-100C-1.6kg', 'loss_pct', 'mass_kg', 'oven_C', 'end_C');
  const line = (
    id: string,
    lossPercent: number,
    assumed: string,
    roast: Roast,
    ovenC: number,
    reachesC: number,
  ): ReportedLoss => ({
    assumed,
    row: {
      what: id,
      kind: 'check',
      must: false,
      published: just(lossPercent),
      model: just(100 * cooked(roast, { ovenC, reachesC, options: COARSE }).loss),
      unit: '%',
      decimals: 1,
      allow: LOSS,
      source: `measured-roasts: ${id}`,
      note: assumed,
    },
  });
  return [
    line(
      'tenderloin-portion-rule',
      portion.loss_pct,
      'centre cut of 1.13 kg; 150 °C to 57.5 °C, the middles of 125-175 and 55-60 °C',
      tenderloin({ massKg: 1.134, cut: 'centre' }),
      150,
      57.5,
    ),
    line(
      'ribeye-100C-1.6kg',
      ribeye.loss_pct,
      'cylinder of 105 mm',
      cylinder(ribeye.mass_kg, 105),
      ribeye.oven_C,
      ribeye.end_C,
    ),
  ];
});

function signRows(): string[][] {
  const { minutes: slow, loss: little } = cooked(cylinder(1, 80), on(175));
  const { minutes: fast, loss: much } = cooked(cylinder(1, 80), on(225));
  const sized = [0.5, 1, 2].map((massKg) => 100 * cooked(cylinder(massKg, 100), on(135)).loss);
  const similar = [0.5, 1, 2].map(
    (massKg) => 100 * cooked(cylinder(massKg, 100 * Math.cbrt(massKg)), on(135)).loss,
  );
  const whole = tenderloin({ massKg: 2.041 });
  const foil = cooked(whole, on(180));
  const bare = cooked(whole, { ...on(180), tented: false });
  const list = (values: readonly number[]): string => values.map((v) => fixed(v, 1)).join(', ');
  return [
    [
      'a hotter oven, 175 against 225 °C: shorter time, greater loss (Bengtsson et al. 1976)',
      `${fixed(slow, 0)} to ${fixed(fast, 0)} min, ${fixed(100 * little, 1)} to ${fixed(100 * much, 1)} %`,
      fast < slow && much > little ? 'yes' : 'no',
    ],
    [
      'a larger roast loses a smaller share, 1 kg and over against 0.5 kg (Rodas-Gonzalez et al. 2015; shapes not seen)',
      `0.5, 1, 2 kg of one thickness: ${list(sized)} %; of one shape: ${list(similar)} %`,
      similar[2] < similar[0] ? 'yes' : sized[2] < sized[0] ? 'only of one thickness' : 'no',
    ],
    [
      'foil leaves the maximum unchanged and raises the loss (pork on a hot tray, J. Cookery Sci. Japan 2011-2016)',
      `axis ${fixed(foil.axisRiseK - bare.axisRiseK, 1)} K higher under foil, loss ${fixed(100 * foil.loss, 1)} against ${fixed(100 * bare.loss, 1)} %`,
      Math.abs(foil.axisRiseK - bare.axisRiseK) < 0.3 && foil.loss > bare.loss ? 'yes' : 'no',
    ],
  ];
}

const on = (ovenC: number) => ({ ovenC, reachesC: DERIVED_END_C, options: COARSE }) as const;

function lossPage(): string {
  const whole = unionsOf('trade').find(({ cut, removeC }) => cut === 'whole' && removeC === 57.2);
  const massKg = middleOf(whole?.rows[0].weightKg ?? [0, 0]);
  const medium = tenderloinTo('whole', massKg, { ovenC: 218.3, reachesC: 57.2 });
  return page(
    '## Loss of weight',
    `Protein stays while water goes, so the USDA compositions of raw and roasted tenderloin give the weight left: ${YIELDS.rows
      .map(({ yield_by_protein }) => fixed(100 * yield_by_protein, 1))
      .join(
        ', ',
      )} %, a loss of ${range(derived, 1)} %. Their roasts were cooked to about ${DERIVED_END_C} °C before standing (from ` +
      'memory); the oven was not seen. The model, removed at a reading of 60 °C, rested 30 min, against that range:',
    table(
      [
        'oven °C',
        'centre 1.13 kg %',
        'off by',
        VERDICT_HEAD,
        'whole 2.04 kg %',
        'off by',
        VERDICT_HEAD,
      ],
      derivedRows().map(ovenCells),
    ),
    `At 425 °F to 57.2 °C a whole one loses ${fixed(100 * medium.loss, 1)} %, everyday figures are 15-25 % (common practice, no source). If those ` +
      `roasts were done at 325 °F, as such studies usually are (from memory), the model is off by ${derivedRows()[OVENS_C.indexOf(163)].map(gapText).join(' and ')}.`,
    table(
      ['record', 'reported %', 'assumed', 'model %', VERDICT_HEAD],
      reported().map(({ assumed, row }) => [
        `\`${row.what}\``,
        fixed(row.published[0], 1),
        assumed,
        fixed(row.model?.[0], 1),
        verdictText(row),
      ]),
    ),
    'Signs of effects, from abstracts:',
    table(['published', 'model', 'same sign'], signRows()),
    `Sources: ${YIELDS.source.replaceAll('thermal-properties.json', 'data/published/thermal-properties.json')}; measured-roasts.json. Not compared: yields of other cuts (\`ribeye-roasted-yield\`) and moistures (\`three-muscles-moisture\`), whose roasts are not described.`,
  );
}

/** Weight lost, beside what is known of it. */
export const lossSection: Section = {
  id: 'losses',
  title: 'Loss of weight',
  rows: () => [...derivedRows().flat(), ...reported().map(({ row }) => row)],
  page: lossPage,
};
