import { type Roast, searInPan, tenderloin } from '@roastsim/core';
import { type Ask, COARSE, cookTo, cylinder, once } from '../cook.js';
import { fixed, page, range, span, table } from '../markdown.js';
import { measured } from '../measured.js';
import { type Allowance, just, maybe, type Row, type Section, share } from '../row.js';
import { VERDICT_HEAD, verdictText } from '../rowWords.js';

/** In one kitchen minutes per kilogram scatter by 10 % (`fan-180C-series`), and no diameter was measured. */
const TIMES: Allowance = share(0.1, 0.25);

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
  lowOvenRows().map((of) => {
    const outcome = cookTo(of.roast, of.ask);
    const row: Row = {
      what: `${of.id}${of.ask.fan === true ? ', taken as fan' : ''}`,
      kind: 'hold-out',
      must: false,
      published: just(of.reportedMin),
      model: maybe(outcome?.minutes),
      unit: 'min',
      decimals: 0,
      allow: TIMES,
      source: `measured-roasts: ${of.id}`,
      note: `assumed: ${of.assumed}`,
    };
    return { ...of, outcome, row };
  }),
);

const PORK = 'pork-fan-against-static-220C';

/** The small roast in a still oven and with the fan. */
const pair = once(() => {
  const pork = measured(PORK, 'mass_kg', 'oven_C', 'end_C', 'fan_over_static_time');
  const small = tenderloin({ massKg: pork.mass_kg, cut: 'centre' });
  const ask = { ovenC: pork.oven_C, reachesC: pork.end_C };
  const [still, fan] = [false, true].map((on) => cookTo(small, { ...ask, fan: on }));
  const ratio = (fan?.minutes ?? Number.NaN) / (still?.minutes ?? Number.NaN);
  const row: Row = {
    what: 'fan over still time',
    kind: 'hold-out',
    must: false,
    published: just(pork.fan_over_static_time),
    model: just(ratio),
    unit: '',
    decimals: 2,
    allow: TIMES,
    source: `measured-roasts: ${PORK}`,
    note: 'measured on pork',
  };
  return { pork, still, fan, row };
});

/** Modelled over reported minutes in still ovens below 120 °C. */
export const lowOvenFactors = (): number[] =>
  lowOvens()
    .filter(({ ask }) => ask.ovenC < 120 && ask.fan !== true)
    .map(({ outcome, reportedMin }) => (outcome?.minutes ?? Number.NaN) / reportedMin);

function ovenPage(): string {
  const { pork, still, fan, row } = pair();
  const same = [
    { ovenC: 230, fan: false },
    { ovenC: 210, fan: true },
  ].map((oven) =>
    cookTo(tenderloin({ massKg: 2.2 }), { ...oven, reachesC: 52, offAxis: 0, options: COARSE }),
  );
  return page(
    '## Fan ovens and low ovens',
    `Fan over still, ${pork.mass_kg} kg to ${pork.end_C} °C at ${pork.oven_C} °C: reported ${fixed(pork.fan_over_static_time, 2)} for pork ` +
      `(\`${PORK}\`), modelled ${fixed(row.model?.[0], 2)} for tenderloin (${fixed(still?.minutes, 0)} to ${fixed(fan?.minutes, 0)} min; ${verdictText(row)}). ` +
      `The reported fan oven is the faster one. Its loss was lower than the still oven's; the model's is ${fixed(100 * (fan?.loss ?? 0), 0)} against ` +
      `${fixed(100 * (still?.loss ?? 0), 0)} %, the other way round. The household rule "20 °C less with the fan" comes out: 2.2 kg to 52 °C on the axis takes ` +
      `${fixed(same[0]?.minutes, 1)} min at 230 °C still and ${fixed(same[1]?.minutes, 1)} min at 210 °C with the fan (common practice, no source).`,
    'Informal reports, mostly from low ovens, minutes in the oven:',
    table(
      ['record', 'reported min', 'assumed', 'model min', 'front at the end °C', VERDICT_HEAD],
      lowOvens().map(({ id, reportedMin, note = '', assumed, outcome, row: low }) => [
        `\`${id}\``,
        `${fixed(reportedMin, 0)}${note}`,
        assumed,
        fixed(outcome?.minutes, 0),
        fixed(outcome?.frontC, 0),
        verdictText(low),
      ]),
    ),
    `**Low ovens are too slow here**, by ${range(span(lowOvenFactors()), 1)} times in the still ovens below 120 °C: the modelled surface sits near its wet bulb, and ` +
      'a target near that is crept up to for hours. Single kitchens, no diameters, but all on one side: do not trust times from an oven below 120 °C, least ' +
      'of all for targets above 55 °C; trust the thermometer. Not compared: `fan-180C-series`, five roasts of one kitchen without diameters, 43-52 min per kg.',
  );
}

/** Fan against still, and ovens far from the ones the model was fitted in. */
export const ovenSection: Section = {
  id: 'ovens',
  title: 'Fan ovens and low ovens',
  rows: () => [pair().row, ...lowOvens().map(({ row }) => row)],
  page: ovenPage,
};
