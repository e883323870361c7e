import { type Roast, tenderloin } from '@roastsim/core';
import { middleOf, tenderloinTo, unionsOf } from '../charts.js';
import { COARSE, cooked, cylinder } from '../cook.js';
import { DERIVED_END_C, DERIVED_LOSS, YIELDS } from '../losses.js';
import { against, fixed, page, range, table } from '../markdown.js';
import { measured } from '../measured.js';

const derived = [100 * DERIVED_LOSS.low, 100 * DERIVED_LOSS.high] as const;

/** Losses of centre cut and whole tenderloin [%], removed where the nutrient studies did. */
const lossesAt = (ovenC: number): number[] =>
  [['centre', 1.134] as const, ['whole', 2.041] as const].map(
    ([cut, massKg]) => 100 * tenderloinTo(cut, massKg, { ovenC, reachesC: DERIVED_END_C }).loss,
  );

function ovenRow(ovenC: number): string[] {
  const losses = lossesAt(ovenC);
  return [fixed(ovenC, 0), ...losses.flatMap((loss) => [fixed(loss, 1), against(loss, derived)])];
}

function reportedRows(): string[][] {
  const portion = measured('tenderloin-portion-rule', 'loss_pct');
  const ribeye = measured('ribeye-100C-1.6kg', 'loss_pct', 'mass_kg', 'oven_C', 'end_C');
  const centre = tenderloin({ massKg: 1.134, cut: 'centre' });
  const loss = (roast: Roast, ovenC: number, reachesC: number): string =>
    fixed(100 * cooked(roast, { ovenC, reachesC, options: COARSE }).loss, 1);
  return [
    [
      '`tenderloin-portion-rule`',
      fixed(portion.loss_pct, 1),
      'centre cut of 1.13 kg; 150 °C to 57.5 °C, the middles of 125-175 and 55-60 °C',
      loss(centre, 150, 57.5),
    ],
    [
      '`ribeye-100C-1.6kg`',
      fixed(ribeye.loss_pct, 1),
      'cylinder of 105 mm',
      loss(cylinder(ribeye.mass_kg, 105), ribeye.oven_C, ribeye.end_C),
    ],
  ];
}

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

/** Weight lost, beside what is known of it. */
export function lossSection(): string {
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
      ['oven °C', 'centre 1.13 kg %', '', 'whole 2.04 kg %', ''],
      [121, 149, 163, 177, 218.3].map(ovenRow),
    ),
    `At 425 °F to 57.2 °C a whole one loses ${fixed(100 * medium.loss, 1)} %, everyday figures are 15-25 % (common practice, no source). If those ` +
      `roasts were done at 325 °F, as such studies usually are (from memory), the model is off by ${lossesAt(
        163,
      )
        .map((loss) => against(loss, derived))
        .join(' and ')}.`,
    table(['record', 'reported %', 'assumed', 'model %'], reportedRows()),
    'Signs of effects, from abstracts:',
    table(['published', 'model', 'same sign'], signRows()),
    `Sources: ${YIELDS.source.replaceAll('thermal-properties.json', 'data/published/thermal-properties.json')}; measured-roasts.json.`,
  );
}
