import { type Roast, searInPan, tenderloin } from '@roastsim/core';
import { type Ask, COARSE, cookTo, cylinder, once } from '../cook.js';
import { fixed, page, range, span, table } from '../markdown.js';
import { measured } from '../measured.js';

interface OvenRow {
  readonly id: string;
  readonly reportedMin: number;
  readonly note?: string;
  readonly assumed: string;
  readonly roast: Roast;
  readonly ask: Ask;
}

const coarse = { restMinutes: 0, options: COARSE } as const;

function lowOvenRows(): OvenRow[] {
  const low = measured('tenderloin-100C-0.8kg', 'mass_kg', 'oven_C', 'end_C', 'min');
  const eye = measured('eye-round-93C-1.6kg', 'mass_kg', 'oven_C', 'end_C', 'min');
  const ribeye = measured('ribeye-100C-1.6kg', 'mass_kg', 'oven_C', 'end_C', 'min');
  const two = measured('two-tenderloins-218C', 'mass_kg', 'oven_C', 'min');
  const browned = tenderloin({ massKg: low.mass_kg, cut: 'centre', startC: 20 });
  const lowAsk = { ovenC: low.oven_C, reachesC: low.end_C, before: [searInPan()], ...coarse };
  const eyeAsk = { ovenC: eye.oven_C, reachesC: eye.end_C, ...coarse };
  return [
    {
      id: 'tenderloin-100C-0.8kg',
      reportedMin: low.min,
      assumed: 'centre cut, default shape, 20 °C, seared in a pan, still oven',
      roast: browned,
      ask: lowAsk,
    },
    {
      id: 'tenderloin-100C-0.8kg',
      reportedMin: low.min,
      assumed: 'the same, fan oven',
      roast: browned,
      ask: { ...lowAsk, fan: true },
    },
    {
      id: 'ribeye-100C-1.6kg',
      reportedMin: ribeye.min,
      assumed: 'cylinder of 105 mm, 4 °C, still oven',
      roast: cylinder(ribeye.mass_kg, 105),
      ask: { ovenC: ribeye.oven_C, reachesC: ribeye.end_C, ...coarse },
    },
    {
      id: 'eye-round-93C-1.6kg',
      reportedMin: eye.min,
      assumed: 'cylinder of 88 mm, 4 °C, still oven',
      roast: cylinder(eye.mass_kg, 88),
      ask: eyeAsk,
    },
    {
      id: 'eye-round-93C-1.6kg',
      reportedMin: eye.min,
      assumed: 'the same, fan oven',
      roast: cylinder(eye.mass_kg, 88),
      ask: { ...eyeAsk, fan: true },
    },
    {
      id: 'two-tenderloins-218C',
      reportedMin: two.min,
      note: ', to 51.7-60 °C',
      assumed: 'one centre cut to 57.2 °C, 10 °C for its hour out of the refrigerator',
      roast: tenderloin({ massKg: two.mass_kg, cut: 'centre', startC: 10 }),
      ask: { ovenC: two.oven_C, reachesC: 57.2, ...coarse },
    },
  ];
}

const lowOvens = once(() =>
  lowOvenRows().map((row) => ({ ...row, outcome: cookTo(row.roast, row.ask) })),
);

/** Modelled over reported minutes in still ovens below 120 °C. */
export const lowOvenFactors = (): number[] =>
  lowOvens()
    .filter(({ ask }) => ask.ovenC < 120 && ask.fan !== true)
    .map(({ outcome, reportedMin }) => (outcome?.minutes ?? Number.NaN) / reportedMin);

/** Fan against still, and ovens far from the ones the model was fitted in. */
export function ovenSection(): string {
  const pork = measured(
    'pork-fan-against-static-220C',
    'mass_kg',
    'oven_C',
    'end_C',
    'fan_over_static_time',
  );
  const small = tenderloin({ massKg: pork.mass_kg, cut: 'centre' });
  const ask = { ovenC: pork.oven_C, reachesC: pork.end_C };
  const [still, fan] = [false, true].map((on) => cookTo(small, { ...ask, fan: on }));
  const same = [
    { ovenC: 230, fan: false },
    { ovenC: 210, fan: true },
  ].map((oven) =>
    cookTo(tenderloin({ massKg: 2.2 }), { ...oven, reachesC: 52, offAxis: 0, options: COARSE }),
  );
  const ratio = (fan?.minutes ?? Number.NaN) / (still?.minutes ?? Number.NaN);
  return page(
    '## Fan ovens and low ovens',
    `Fan over still, ${pork.mass_kg} kg to ${pork.end_C} °C at ${pork.oven_C} °C: reported ${fixed(pork.fan_over_static_time, 2)} for pork ` +
      `(\`pork-fan-against-static-220C\`), modelled ${fixed(ratio, 2)} for tenderloin (${fixed(still?.minutes, 0)} to ${fixed(fan?.minutes, 0)} min). ` +
      `The reported fan oven is the faster one. Its loss was lower than the still oven's; the model's is ${fixed(100 * (fan?.loss ?? 0), 0)} against ` +
      `${fixed(100 * (still?.loss ?? 0), 0)} %, the other way round. The household rule "20 °C less with the fan" comes out: 2.2 kg to 52 °C on the axis takes ` +
      `${fixed(same[0]?.minutes, 1)} min at 230 °C still and ${fixed(same[1]?.minutes, 1)} min at 210 °C with the fan (common practice, no source).`,
    'Informal reports, mostly from low ovens, minutes in the oven:',
    table(
      ['record', 'reported min', 'assumed', 'model min', 'front at the end °C'],
      lowOvens().map(({ id, reportedMin, note = '', assumed, outcome }) => [
        `\`${id}\``,
        `${fixed(reportedMin, 0)}${note}`,
        assumed,
        fixed(outcome?.minutes, 0),
        fixed(outcome?.frontC, 0),
      ]),
    ),
    `**Low ovens are too slow here**, by ${range(span(lowOvenFactors()), 1)} times in the still ovens below 120 °C: the modelled surface sits near its wet bulb, and ` +
      'a target near that is crept up to for hours. Single kitchens, no diameters, but all on one side: do not trust times from an oven below 120 °C, least ' +
      'of all for targets above 55 °C; trust the thermometer.',
  );
}
