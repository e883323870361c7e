import {
  CUT_NAMES,
  cautions,
  durationText,
  lengthOf,
  lengthText,
  massText,
  type Plan,
  riseText,
  type Slice,
  sayWarning,
  type TimedStep,
  temperatureText,
  type UnitSystem,
} from '@roastsim/core';
import type { Colors } from 'picocolors/types.js';
import type { Clock } from './clock.js';
import { lookMinutes, type Range, rangeText, spanText } from './range.js';
import { type Cell, initials, markOf, sectionOf } from './section.js';
import { type Row, timetableRows } from './timetable.js';
import { COLUMNS, paragraph } from './wrap.js';

/** What the report needs beside the plan. */
export interface ReportContext {
  readonly units: UnitSystem;
  readonly assumed: readonly string[];
  /** When the serving time is known. */
  readonly clock?: Clock;
  /** Who gets which slice, where there are guests. */
  readonly guests?: string;
  /** What the guests wish for, where they decided the pull: `3 rare, 4 medium-rare`. */
  readonly wanted?: string;
  /** Steps with how far they may slip; without them the timetable has no such column. */
  readonly steps?: readonly TimedStep[];
  /** What must be said before the timetable, a paragraph each. */
  readonly notices?: readonly string[];
  /** When the pull may come, where the thermometer decides. */
  readonly range?: Range;
  /** What came out of many simulated cooks. */
  readonly sure?: string;
  readonly colors: Colors;
}

const BATH = 'bath';

/** The plan as a cook reads it, 80 columns wide. */
export function planReport(plan: Plan, context: ReportContext): string {
  const parts = [
    headline(plan, context),
    ...(context.notices ?? []).map((text) => paragraph('! ', text)),
    timetable(plan, context),
    map(plan, context),
    ...(context.sure === undefined ? [] : [context.sure]),
    ...(context.guests === undefined ? [] : [context.guests]),
    figures(plan, context),
    ...plan.warnings.map((warning) => paragraph('! ', sayWarning(warning, context.units))),
    ['Take care', ...cautions(context.units).map(({ text }) => paragraph('  - ', text))].join('\n'),
    paragraph('', `Assumed: ${context.assumed.join(', ')}. Options change each: roastsim --help.`),
  ];
  return `${parts.join('\n\n')}\n`;
}

/** The plan in two lines, with the notice that must never be missing. */
export function shortReport(
  plan: Plan,
  { units, clock, range, notices = [] }: ReportContext,
): string {
  const { pull, peak } = plan;
  const when = [
    ...(range === undefined ? [] : [`${spanText(range)} min`]),
    ...(clock === undefined ? [] : [clock.at(pull.atMinutes)]),
  ].join(', ');
  const notice = plan.warnings
    .filter(({ code }) => code === 'below-guidance' || code === 'fold-below-guidance')
    .map((warning) => paragraph('! ', sayWarning(warning, units)));
  return [
    ...notices.map((text) => paragraph('! ', text)),
    `Pull at ${temperatureText(pull.centreC, units)} after ${durationText(pull.minutes)}${when === '' ? '' : ` (${when})`}; ` +
      `peak ${temperatureText(peak.centreC, units)}.`,
    ...notice,
    '',
  ].join('\n');
}

/** What the roast is, in plain words. */
export function roastTitle(plan: Pick<Plan, 'roast'>, units: UnitSystem): string {
  const { roast } = plan;
  const name = (CUT_NAMES[roast.cut] ?? roast.cut).replace(/^an? /, '');
  const how = [roast.folded ? 'tail folded' : '', roast.tied ? 'tied' : 'untied']
    .filter((word) => word !== '')
    .join(', ');
  return `${name.charAt(0).toUpperCase()}${name.slice(1)}, ${massText(roast.massKg, units)}, ${how}`;
}

function headline(plan: Plan, { units, colors, clock, wanted, range }: ReportContext): string {
  const { pull, peak, aim, history } = plan;
  const temp = (c: number): string => temperatureText(c, units);
  const where = aim.at === 'coldest' ? 'at its coldest spot' : `in ${WHERE[aim.at]}`;
  const heat = history.stages.find(({ stage }) => stage.kind === 'roast' || stage.kind === BATH);
  const place =
    heat === undefined ? 'of heat' : heat.stage.kind === BATH ? 'in the bath' : 'in the oven';
  const searLast = lastSear(plan) ? ' once seared and rested' : '';
  const after = Math.round(peak.atMinutes - pull.atMinutes);
  const climbs =
    peak.riseC < 0.5
      ? 'It climbs no further.'
      : `It climbs ${riseText(peak.riseC, units)} to ${temp(peak.centreC)} within ${after} min${searLast}` +
        `${plan.carving === undefined ? '; then carve.' : ' if left whole; carve as the table says.'}`;
  const at = clock === undefined ? '' : `, at ${clock.at(pull.atMinutes)}`;
  return [
    paragraph(
      '',
      `${roastTitle(plan, units)}; ` +
        (aim.at === 'coldest'
          ? `at least ${temp(aim.targetC)} throughout (strict safety rules)`
          : `wanted ${wanted ?? `${aim.band.name} (${temp(aim.targetC)})`}`),
    ),
    '',
    colors.bold(
      `  PULL at ${temp(pull.centreC)} ${where}, after ${durationText(pull.minutes)} ${place}${at}.`,
    ),
    ...(range === undefined
      ? []
      : [`  Could be ${rangeText(range)}; start checking at ${lookMinutes(plan)}.`]),
    paragraph('  ', climbs),
    paragraph('  ', `Thermometer: ${thermometer(plan, units)}`),
  ].join('\n');
}

const WHERE = { middle: 'the middle', thick: 'the thick end', thin: 'the thin end' } as const;

function thermometer(plan: Plan, units: UnitSystem): string {
  const { aim, history, pull } = plan;
  const off = riseText(pull.readingAtQuarterRadiusC - pull.centreC, units);
  const spot =
    aim.point.atMm === 'coldest'
      ? 'tip at the very centre where it reads lowest'
      : `tip at the very centre, ${lengthText(aim.point.atMm, units)} from the thick end`;
  const quarterMm = 250 * Math.max(...history.body.body.radiusM);
  const side =
    units === 'us' ? `${(quarterMm / 25.4).toFixed(1)} in` : `${Math.round(quarterMm)} mm`;
  return pull.readingAtQuarterRadiusC - pull.centreC < 1
    ? `${spot}.`
    : `${spot} (${side} off reads ${off} more).`;
}

const lastSear = ({ history, pull }: Plan): boolean =>
  history.stages.some(
    ({ stage, firstRow }) =>
      (stage.kind === 'pan-sear' || stage.kind === 'oven-sear') && firstRow > pull.row,
  );

function timetable(plan: Plan, context: ReportContext): string {
  const { clock, colors } = context;
  const rows = timetableRows(plan, context.units, context.steps, pullSpan(plan, context));
  const slack = ({ toleranceMinutes }: Row): string =>
    toleranceMinutes === undefined ? '' : `±${halves(toleranceMinutes)}`.padStart(6);
  const slackHead = context.steps === undefined ? '' : ' slack';
  const started = clock === undefined ? '' : dayText(clock);
  const head = `   min${clock === undefined ? '' : '  clock'}${slackHead}${started}`;
  return [
    colors.dim(head),
    ...rows.map((row) => {
      const { minutes, text, strong } = row;
      const at = clock === undefined ? '' : `  ${clock.at(minutes)}`;
      const mark = `${String(Math.round(minutes)).padStart(6)}${at}${slack(row)}   `;
      const line = paragraph(mark, text);
      return strong === true ? colors.bold(line) : line;
    }),
  ].join('\n');
}

/** `4.5` as `4½`. */
const halves = (minutes: number): string =>
  `${Math.floor(minutes) || ''}${minutes % 1 === 0 ? '' : '½'}`;
/** When the pull may come, in the columns of the timetable: `, between 58 and 77`. */
function pullSpan({ pull }: Plan, { range, clock }: ReportContext): string {
  if (range === undefined) return '';
  const before = pull.atMinutes - pull.minutes;
  const at = (minutes: number): string =>
    clock === undefined ? String(Math.round(minutes)) : clock.at(minutes);
  const low = at(before + Math.floor(range.lowMinutes));
  return Number.isFinite(range.highMinutes)
    ? `, between ${low} and ${at(before + Math.ceil(range.highMinutes))}`
    : `, from ${low} on`;
}

/** When the timetable starts, where the clock alone does not tell. */
function dayText({ day, daysBefore }: Clock): string {
  if (day !== undefined) return `   starts ${day}`;
  if (daysBefore === 0) return '';
  return `   starts ${daysBefore === 1 ? 'the day' : `${daysBefore} days`} before`;
}

const INSET = 2;

/** The section with its slices below: number, peak and band of each. */
function map(plan: Plan, { units, colors }: ReportContext): string {
  const { slices, aim, roast } = plan;
  const columns = COLUMNS - 2 * INSET;
  const lengthMm = 1000 * lengthOf(roast.profile);
  const columnOf = (mm: number): number => Math.round((mm / lengthMm) * columns);
  const tint = [
    colors.magenta,
    colors.red,
    colors.red,
    colors.yellow,
    colors.yellow,
    colors.dim,
    colors.dim,
  ];
  const cells = sectionOf(plan, columns);
  const draw = (row: readonly Cell[]): string =>
    row
      .map((cell) =>
        cell === undefined ? ' ' : tint[Math.min(cell, tint.length - 1)](markOf(cell)),
      )
      .join('')
      .trimEnd();
  const used = [...new Set(cells.flat().filter((cell) => cell !== undefined))].sort(
    (a, b) => a - b,
  );
  const legend = used.map((index) => `${markOf(index)} ${aim.scale.bands[index].name}`).join('   ');
  const pad = ' '.repeat(INSET);
  const under = (label: (i: number) => string): string => {
    const line = new Array<string>(columns).fill(' ');
    for (const [i, slice] of slices.entries()) {
      const from = columnOf(slice.fromMm);
      const text = label(i);
      const start = Math.round((from + columnOf(slice.toMm)) / 2 - text.length / 2);
      for (let c = 0; c < text.length; c++) line[start + c] = text[c];
    }
    return pad + line.join('').trimEnd();
  };
  const cutLine = new Array<string>(columns).fill('─');
  for (const { toMm } of slices.slice(0, -1)) cutLine[columnOf(toMm)] = '┴';
  const degrees = (i: number): string =>
    temperatureText(slices[i].peakCentreC, units).replace(/ °[CF]$/, '');
  const narrow = slices.some(({ fromMm, toMm }) => columnOf(toMm) - columnOf(fromMm) < 4);
  return [
    `Along the roast, thick end left (${lengthText(lengthMm, units)} long, ` +
      `${aim.slice < 0 ? 'coldest spot aimed at' : `slice ${aim.slice + 1} aimed at`}):`,
    '',
    ...cells.map((row) => pad + draw(row)),
    pad + cutLine.join(''),
    ...(narrow
      ? sliceTable(plan, units)
      : [under((i) => String(i + 1)), under(degrees), under((i) => initials(slices[i].band))]),
    '',
    paragraph(pad, legend),
    paragraph(
      pad,
      `Below each slice: its number, the peak of its middle in °${units === 'us' ? 'F' : 'C'} and its band (${bandKey(plan)}).`,
    ),
  ].join('\n');
}

const bandKey = ({ slices, aim }: Plan): string => {
  const names = new Set(slices.map(({ band }) => band));
  return aim.scale.bands
    .filter(({ name }) => names.has(name))
    .map(({ name }) => `${initials(name)} ${name}`)
    .join(', ');
};

function sliceTable({ slices }: Plan, units: UnitSystem): string[] {
  const cells = slices.map(({ peakCentreC, band }, i) =>
    `${String(i + 1).padStart(2)}: ${temperatureText(peakCentreC, units).replace(/ °[CF]$/, '')} ${initials(band)}`.padEnd(
      12,
    ),
  );
  const perLine = Math.floor((COLUMNS - INSET) / 12);
  return Array.from({ length: Math.ceil(cells.length / perLine) }, (_, line) =>
    (' '.repeat(INSET) + cells.slice(line * perLine, (line + 1) * perLine).join('')).trimEnd(),
  );
}

function figures(plan: Plan, { units }: ReportContext): string {
  const { roast, loss, safety, slices, aim } = plan;
  const servedKg = roast.massKg * (1 - loss.fraction);
  const wanted = aim.slice < 0 ? undefined : slices[aim.slice];
  const lines = [
    `Served: about ${massText(servedKg, units)} of ${massText(roast.massKg, units)}; ` +
      `${(100 * loss.fraction).toFixed(0)} % cooks off (${massText(loss.evaporatedKg, units)} into the air, ` +
      `${massText(loss.drippedKg, units)} as drip).`,
    ...(wanted === undefined
      ? []
      : [
          `Slice ${aim.slice + 1}: ${Math.round(100 * wanted.evenness)} % of its cut face is ${wanted.band}, ${rimText(wanted, units)} is done through.`,
        ]),
    `Safety: coldest spot ${temperatureText(safety.coldestC, units)} at the pull, peak ` +
      `${temperatureText(safety.coldestPeakC, units)}; at room temperature ${durationText(safety.roomMinutes)} ` +
      `of ${durationText(safety.roomLimitMinutes)} allowed; ${killText(plan)}.`,
  ];
  return lines.map((line) => paragraph('', line)).join('\n');
}

/** What of a slice is done through: `the outer 9 mm`. */
const rimText = ({ rimMm, diameterMm }: Slice, units: UnitSystem): string =>
  rimMm >= diameterMm / 2
    ? 'all of it'
    : `the outer ${units === 'us' ? `${(rimMm / 25.4).toFixed(1)} in` : `${Math.round(rimMm)} mm`}`;

function killText({ safety }: Plan): string {
  const { logReduction, logReductionCapped } = safety;
  if (logReductionCapped) return 'Salmonella there falls by more than 6.5 powers of ten';
  if (logReduction < 0.5) return 'no kill of Salmonella is claimed there';
  return `Salmonella there falls by about ${logReduction.toFixed(1)} powers of ten`;
}
