import { type Roast, searInPan, tenderloin } from '@roastsim/core';
import { CHARTS, middleOf, unionsOf } from '../charts.js';
import {
  type Ask,
  COARSE,
  cooked,
  cookTo,
  cylinder,
  diameterTaking,
  type Outcome,
  once,
} from '../cook.js';
import { bullets, fixed, page, percent, range, signed, span, table } from '../markdown.js';
import { measured } from '../measured.js';
import {
  type Allowance,
  distance,
  just,
  type Pair,
  type Row,
  type Section,
  share,
  spanOf,
} from '../row.js';
import { publishedText, VERDICT_HEAD, verdictText } from '../rowWords.js';
import { made, thicker, type Variant, variant } from '../variants.js';

/** One measured rise beside the model's: one or two runs where an input was not reported. */
interface RiseRow {
  readonly id: string;
  /** Reported rise [K], and what is special about it. */
  readonly reportedK: Pair;
  readonly remark?: string;
  readonly assumed: string;
  readonly model: readonly (number | undefined)[];
}

/** A kitchen thermometer, an assumed diameter; 3 K are what safety takes off anything after the pull. */
const RISE: Allowance = distance(1.5, 3);
/** The diameter was chosen to meet the last point, so the points between should be close. */
const CURVE: Allowance = share(0.05, 0.1);

const on = (axisC: number, ovenC: number, more: Partial<Ask> = {}): Ask => ({
  ovenC,
  reachesC: axisC,
  offAxis: 0,
  restMinutes: 70,
  options: COARSE,
  ...more,
});

/** Diameters the search may end at [mm]: up to where a piece of this weight is about as long as thick. */
const BLOCK_MM = [60, 115] as const;
const FAN_ROAST_MM = [60, 105] as const;

function block(): RiseRow & { readonly diameterMm: number } {
  const id = 'block-200C-1.5kg';
  const log = measured(id, 'mass_kg', 'oven_C', 'in_oven_min', 'removed_C', 'rise_K');
  const [startC] = measured('curve-200C-1.6kg', 'axis_C').axis_C;
  const make = (sizeMm: number): Roast => cylinder(log.mass_kg, sizeMm, startC);
  const ask = on(log.removed_C, log.oven_C);
  const diameterMm = diameterTaking(log.in_oven_min, BLOCK_MM, make, ask);
  return {
    id,
    reportedK: just(log.rise_K),
    assumed:
      `cylinder of ${fixed(diameterMm, 0)} mm, the one that takes the ${log.in_oven_min} min reported; start ` +
      `${fixed(startC, 1)} °C as in the same author's other log`,
    model: [cookTo(make(diameterMm), ask)?.axisRiseK],
    diameterMm,
  };
}

function lowe(id: string, sizeMm: number): RiseRow {
  const log = measured(id, 'mass_kg', 'removed_C', 'rise_K');
  return {
    id,
    reportedK: just(log.rise_K),
    assumed: `cylinder of ${sizeMm} mm; oven not reported: 163 and 200 °C`,
    model: [163, 200].map(
      (ovenC) => cookTo(cylinder(log.mass_kg, sizeMm), on(log.removed_C, ovenC))?.axisRiseK,
    ),
  };
}

function rump(): RiseRow {
  const id = 'rump-180C-0.8kg';
  const log = measured(id, 'mass_kg', 'oven_C', 'removed_C', 'rise_K');
  return {
    id,
    reportedK: just(log.rise_K),
    assumed: 'cylinder of 75 and 90 mm; start 20 °C',
    model: [75, 90].map(
      (sizeMm) =>
        cookTo(cylinder(log.mass_kg, sizeMm, 20), on(log.removed_C, log.oven_C))?.axisRiseK,
    ),
  };
}

function fanRoast(): RiseRow {
  const id = 'fan-180C-1.15kg';
  const log = measured(id, 'mass_kg', 'oven_C', 'in_oven_min', 'removed_C', 'rise_at_14_min_K');
  const make = (sizeMm: number): Roast => cylinder(log.mass_kg, sizeMm, 20);
  const ask: Ask = { ...on(log.removed_C, log.oven_C, { fan: true }), offAxis: 0.25 };
  const diameterMm = diameterTaking(log.in_oven_min, FAN_ROAST_MM, make, ask);
  return {
    id,
    reportedK: just(log.rise_at_14_min_K),
    remark: 'at 14 min, reading',
    assumed: `cylinder of ${fixed(diameterMm, 0)} mm, the one that takes the ${log.in_oven_min} min reported; start 20 °C`,
    model: [cookTo(make(diameterMm), ask)?.readingRiseAt(14)],
  };
}

function ribInLowOven(): RiseRow {
  const id = 'rib-93C-3.46kg';
  const log = measured(id, 'mass_kg', 'oven_C', 'removed_C', 'rise_K');
  return {
    id,
    reportedK: just(log.rise_K),
    remark: 'at 60 min',
    assumed: 'cylinder of 120 and 150 mm',
    model: [120, 150].map((sizeMm) =>
      cookTo(
        cylinder(log.mass_kg, sizeMm),
        on(log.removed_C, log.oven_C, { fan: true }),
      )?.axisRiseAt(60),
    ),
  };
}

function largeRib(): RiseRow {
  const id = 'rib-104C-6.8kg';
  const log = measured(id, 'mass_kg', 'oven_C', 'rise_K');
  return {
    id,
    reportedK: just(log.rise_K),
    assumed: 'cylinder of 150 mm; removal not reported: 52 °C',
    model: [cookTo(cylinder(log.mass_kg, 150), on(52, log.oven_C))?.axisRiseK],
  };
}

function lowTenderloin(): RiseRow {
  return {
    id: 'tenderloin-100C',
    reportedK: [0, 2],
    assumed: 'whole of 2.2 kg, default shape, seared in a pan; removal not reported: 52 °C',
    model: [cookTo(tenderloin({ massKg: 2.2 }), on(52, 100, { before: [searInPan()] }))?.axisRiseK],
  };
}

function institute(): RiseRow {
  return {
    id: 'institute-180C',
    reportedK: [3, 5],
    assumed: 'cylinder of 1.59 kg, 106 mm; 60.5 °C taken for before the rest',
    model: [cookTo(cylinder(1.59, 106), on(60.5, 180))?.axisRiseK],
  };
}

function thicknessRule(): RiseRow {
  return {
    id: 'thickness-rule',
    reportedK: just(2.8),
    remark: 'below 76 mm, reading',
    assumed:
      'centre cut of 1.13 kg (68 mm) removed at a reading of 60 °C; oven not stated: 163 and 218 °C',
    model: [163, 218.3].map(
      (ovenC) =>
        cookTo(tenderloin({ massKg: 1.134, cut: 'centre' }), {
          ovenC,
          reachesC: 60,
          options: COARSE,
        })?.readingRiseK,
    ),
  };
}

const rises = once((): { readonly of: RiseRow; readonly row: Row }[] =>
  [
    block(),
    lowe('lowe-rib-medium', 140),
    lowe('lowe-rib-well-done', 135),
    rump(),
    fanRoast(),
    ribInLowOven(),
    largeRib(),
    lowTenderloin(),
    institute(),
    thicknessRule(),
  ].map((of) => ({
    of,
    row: {
      what: of.remark === undefined ? of.id : `${of.id}, ${of.remark}`,
      kind: 'check',
      must: false,
      published: of.reportedK,
      model: spanOf(of.model),
      unit: 'K',
      decimals: 1,
      allow: RISE,
      source: `measured-roasts: ${of.id}`,
      note: `assumed: ${of.assumed}`,
    },
  })),
);

const riseCells = ({ of, row }: ReturnType<typeof rises>[number]): string[] => [
  `\`${of.id}\``,
  `${publishedText(row)}${of.remark === undefined ? '' : ` ${of.remark}`}`,
  of.assumed,
  of.model.map((one) => fixed(one, 1)).join(' and '),
  verdictText(row),
];

const CASE = { massKg: 2.2, ovenC: 230, pullC: 52 } as const;

/** What a variant does to the roast the carryover is discussed on, and to two checks at lower oven temperatures. */
interface Effect {
  readonly hot: Outcome;
  readonly lowMinutes: number | undefined;
  readonly ribRatio: number | undefined;
}

const LOW = measured('tenderloin-100C-0.8kg', 'mass_kg', 'oven_C', 'end_C', 'min');

function effectOf(of: Variant, { tented = true } = {}): Effect {
  const { options } = of;
  const rib = made(cylinder(1.814, 120.65), of);
  const ribTo = (reachesC: number): number | undefined =>
    cookTo(rib, { ovenC: 162.8, reachesC, restMinutes: 0, options })?.minutes;
  const [rare, medium] = [ribTo(60), ribTo(71.1)];
  return {
    hot: cooked(made(tenderloin({ massKg: CASE.massKg }), of), {
      ovenC: CASE.ovenC,
      reachesC: CASE.pullC,
      offAxis: 0,
      restMinutes: 40,
      tented,
      options,
    }),
    lowMinutes: cookTo(made(tenderloin({ massKg: LOW.mass_kg, cut: 'centre', startC: 20 }), of), {
      ovenC: LOW.oven_C,
      reachesC: LOW.end_C,
      before: [searInPan()],
      restMinutes: 0,
      options,
    })?.minutes,
    ribRatio: rare === undefined || medium === undefined ? undefined : medium / rare,
  };
}

const VARIANTS: readonly Variant[] = [
  variant('more juice lost (0.32 kg/kg instead of 0.22)', { amplitude: 0.32 }),
  variant('juice leaves faster (300 s instead of 1200 s)', { delayS: 300 }),
  variant('conductivity 8 % lower', { conductivity: 0.92 }),
  variant('heat capacity 5 % higher', { heatCapacity: 1.05 }),
  variant('vent flow 3e-4 kg/s (default 7e-4)', { ventKgPerS: 3e-4 }),
  variant('vent flow 1.4e-3 kg/s', { ventKgPerS: 1.4e-3 }),
  variant('vent flow 5e-3 kg/s', { ventKgPerS: 5e-3 }),
  variant("crust's vapour resistance x 0.1: wetter", { vapour: 0.1 }),
  variant("crust's vapour resistance x 0.5", { vapour: 0.5 }),
  variant("crust's vapour resistance x 2: drier", { vapour: 2 }),
  variant("crust's vapour resistance x 6", { vapour: 6 }),
  variant("crust's heat resistance x 2", { heat: 2 }),
];
const BASE = variant('default');
const WET = variant('wet and vented: vapour resistance x 0.1, vent 5e-3 kg/s', {
  vapour: 0.1,
  ventKgPerS: 5e-3,
});
const DRY = variant('drier crust, quicker juice: vapour resistance x 6, juice 300 s', {
  vapour: 6,
  delayS: 300,
});

function effectRow(name: string, { hot, lowMinutes, ribRatio }: Effect, base: Effect): string[] {
  return [
    name,
    fixed(hot.minutes, 1),
    percent(hot.minutes / base.hot.minutes - 1),
    fixed(hot.frontC, 0),
    fixed(hot.axisRiseK, 1),
    fixed(hot.readingRiseK, 1),
    fixed(100 * hot.loss, 1),
    fixed(lowMinutes, 0),
    fixed(ribRatio, 2),
  ];
}

function otherPullsAndOvens(): string[][] {
  const roast = tenderloin({ massKg: CASE.massKg });
  const run = (ovenC: number, reachesC: number): string[] => {
    const outcome = cooked(roast, {
      ovenC,
      reachesC,
      offAxis: 0,
      restMinutes: 40,
      options: COARSE,
    });
    return [
      fixed(ovenC, 0),
      fixed(reachesC, 0),
      fixed(outcome.minutes, 1),
      fixed(outcome.frontC, 0),
      fixed(outcome.meanC, 0),
      fixed(outcome.axisRiseK, 1),
      fixed(outcome.readingRiseK, 1),
      fixed(outcome.axisPeakMinutes, 0),
    ];
  };
  return [
    ...[120, 150, 180, 230].map((ovenC) => run(ovenC, CASE.pullC)),
    ...[40, 46, 57].map((pullC) => run(CASE.ovenC, pullC)),
  ];
}

/** Share of the usual diameters at which a variant takes as long as the default on the whole roast to 57.2 °C. */
function diameterHiding(of: Variant): number {
  const [whole] = unionsOf('trade').filter(
    ({ cut, removeC }) => cut === 'whole' && removeC === 57.2,
  );
  const massKg = middleOf(whole.rows[0].weightKg);
  const ask = { ovenC: 218.3, reachesC: 57.2, options: of.options };
  const usual = cooked(tenderloin({ massKg }), { ...ask, options: COARSE }).minutes;
  const make = (percentOfUsual: number): Roast =>
    made(thicker({ massKg, cut: 'whole' }, percentOfUsual / 100), of);
  let low = 80;
  let high = 110;
  while (high - low > 0.05) {
    const middle = (low + high) / 2;
    const outcome = cooked(make(middle), { ...ask, restMinutes: 0 });
    if (outcome.minutes < usual) low = middle;
    else high = middle;
  }
  return low / 100;
}

function sixRows(of: Variant, factor: number): Outcome[] {
  return unionsOf('trade').map(({ cut, removeC, rows }) =>
    cooked(made(thicker({ massKg: middleOf(rows[0].weightKg), cut }, factor), of), {
      ovenC: 218.3,
      reachesC: removeC,
      options: of.options,
    }),
  );
}

function rivalRows(): string[][] {
  const unions = unionsOf('trade');
  return [BASE, WET, DRY].map((of) => {
    const factor = of === BASE ? 1 : diameterHiding(of);
    const outcomes = sixRows(of, factor);
    const inside = outcomes.filter(
      ({ minutes }, i) => minutes >= unions[i].widened[0] && minutes <= unions[i].widened[1],
    ).length;
    return [
      of.name,
      fixed(factor, 2),
      outcomes.map(({ minutes }) => fixed(minutes, 0)).join(' / '),
      `${inside} of ${unions.length}`,
      range(span(outcomes.map(({ readingRiseK }) => readingRiseK)), 1),
      range(span(outcomes.map(({ loss }) => 100 * loss))),
    ];
  });
}

const curve = once(() => {
  const id = 'curve-200C-1.6kg';
  const { time_min, axis_C, oven_C, mass_kg } = measured(
    id,
    'time_min',
    'axis_C',
    'oven_C',
    'mass_kg',
  );
  const [startC] = axis_C;
  const last = time_min.length - 1;
  const make = (sizeMm: number): Roast => cylinder(mass_kg, sizeMm, startC);
  const ask = on(axis_C[last], oven_C);
  const diameterMm = diameterTaking(time_min[last], BLOCK_MM, make, ask);
  const rows = axis_C.slice(1, last).map((axisC, i): Row => {
    const { minutes } = cooked(make(diameterMm), { ...ask, reachesC: axisC, restMinutes: 0 });
    return {
      what: `${id}, to ${fixed(axisC, 1)} °C`,
      kind: 'check',
      must: false,
      published: just(time_min[i + 1]),
      model: just(minutes),
      unit: 'min',
      decimals: 1,
      allow: CURVE,
      source: `measured-roasts: ${id}`,
      note: `cylinder of ${fixed(diameterMm, 0)} mm, which meets the last point`,
    };
  });
  return { axis_C, diameterMm, rows };
});

function curveText(): string {
  const { axis_C, diameterMm, rows } = curve();
  const gaps = rows.map(
    (row, i) =>
      `${fixed(axis_C[i + 1], 1)} °C after ${fixed(row.published[0], 0)} min logged, ${fixed(row.model?.[0], 1)} modelled (${verdictText(row)})`,
  );
  return (
    `The one logged curve (\`curve-200C-1.6kg\`, a block of beef at 200 °C) gives no diameter; with the cylinder that reaches its last ` +
    `point in time (${fixed(diameterMm, 0)} mm) the points between are met thus: ${gaps.join('; ')}. The shape of the curve is right.`
  );
}

function carryoverPage(): string {
  const base = effectOf(BASE);
  const open = effectOf(BASE, { tented: false });
  const wet = effectOf(WET);
  const dry = effectOf(DRY);
  return page(
    '## Carryover',
    'Measured or reported rises (data/published/measured-roasts.json: thin evidence, mostly single kitchens). **No diameter was ' +
      'measured**; each row says what was assumed, or which diameter makes the model take the minutes reported. Rise of the axis in ' +
      `kelvin, tented, unless said otherwise; ${COARSE.stations} stations and ${COARSE.shells} shells.`,
    table(['record', 'reported K', 'assumed', 'model K', VERDICT_HEAD], rises().map(riseCells)),
    curveText(),
    `Published rises: ${CHARTS.carryover
      .filter(({ rise_K }) => rise_K !== undefined)
      .map(({ what, rise_K }) => {
        const [low, high] = rise_K ?? [0, 0];
        return `${what}, ${high === null ? `${fixed(low, 1)} or more` : range([low, high], 1)} K`;
      })
      .join(
        '; ',
      )}; average roasts 5.6-8.3 K and very large ones 13.9 K (a cookery textbook); a large roast 0-11 K (\`handbook-large-roast\`).`,
    '### What would make it smaller or larger',
    `Whole tenderloin of ${CASE.massKg} kg, still oven at ${CASE.ovenC} °C, pulled when the axis of its thickest part is at ` +
      `${CASE.pullC} °C, 40 min of rest, ${COARSE.stations} stations and ${COARSE.shells} shells. Two more checks stand beside each change: minutes for ${LOW.mass_kg} kg of browned tenderloin ` +
      `at ${LOW.oven_C} °C to ${LOW.end_C} °C (reported: ${LOW.min}), and the rolled rib's ratio of times to 160 and 140 °F (published: 1.18).`,
    table(
      [
        'change',
        'oven min',
        'time',
        'front at the pull °C',
        'axis rises K',
        'reading rises K',
        'loss %',
        'low oven min',
        'rib ratio',
      ],
      [
        effectRow('none', base, base),
        effectRow('rest uncovered', open, base),
        ...VARIANTS.map((of) => effectRow(of.name, effectOf(of), base)),
        effectRow(WET.name, wet, base),
        effectRow(DRY.name, dry, base),
      ],
    ),
    'Other ovens and pulls, nothing else changed:',
    table(
      [
        'oven °C',
        'pull at °C',
        'oven min',
        'front at the pull °C',
        'mean at the pull °C',
        'axis rises K',
        'reading rises K',
        'peak after min',
      ],
      otherPullsAndOvens(),
    ),
    '**What this says.** The rise follows the temperature of the evaporation front at the pull. Once the front is at 85-90 °C and the axis ' +
      'at 52 °C, the heat between them has to go somewhere, and conduction leaves no choice: no plausible conductivity, heat capacity or ' +
      'resting cover changes the rise by more than about 1 K. The one strong lever is how wet the surface stays. A wetter surface in a better ' +
      `vented oven brings the rise from ${fixed(base.hot.axisRiseK, 1)} to ${fixed(wet.hot.axisRiseK, 1)} K, but slows the roast by ` +
      `${fixed(100 * (wet.hot.minutes / base.hot.minutes - 1), 0)} %, which thinner roasts would hide, since no chart states a diameter:`,
    table(
      [
        'model',
        'diameters x',
        'six trade rows, reading min',
        'inside the rule',
        'reading rises K',
        'loss %',
      ],
      rivalRows(),
    ),
    bullets(
      'At 425 °F alone the charts can hardly tell wet from dry. Lower ovens can: with the wet, vented surface neither the tenderloin at 100 °C nor the ' +
        'rolled rib **ever** gets done (last two columns above), and the default is too slow there already. That evidence asks for a drier surface.',
      `A drier crust with quicker juice (last row) meets the six rows as well, comes much nearer to the low ovens, and moves the rise on the axis by ${signed(dry.hot.axisRiseK - base.hot.axisRiseK, 1)} K. ` +
        'So the trade between wetness and diameter is open in that direction too: none of these constants is a measured property.',
      'The measured rises lie on both sides of the model: it is low for the early pull from a hot oven (`block-200C-1.5kg`) and for the rib in ' +
        'the low oven, high for `rump-180C-0.8kg`, `fan-180C-1.15kg` and against the 5.6 K printed for this very roast.',
      'So the carryover was not tuned towards the smaller figures of kitchen lore.',
    ),
    '**What it means.** For a cook: if the model errs in a hot oven by predicting too much, its advice pulls early, and a roast pulled early can go ' +
      'back in; for an early pull from a hot oven the one log says the error may run the other way, and the roast overshoots. For safety a rise ' +
      'predicted too large is on the wrong side, so nothing predicted after the pull counts in full: 3 K are taken off it before it is held against any limit.',
  );
}

/** What happens after the pull, the model's weakest number. */
export const carryoverSection: Section = {
  id: 'carryover',
  title: 'Carryover, rise after the pull',
  rows: () => [...rises(), ...curve().rows.map((row) => ({ row }))].map(({ row }) => row),
  page: carryoverPage,
};
