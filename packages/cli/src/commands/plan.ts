import {
  type Plan,
  type PriorChanges,
  RoastError,
  timetable,
  type UnitSystem,
  withEarlierLook,
} from '@roastsim/core';
import type { Command } from 'commander';
import pc from 'picocolors';
import type { Forecast } from '../ask/forecast.js';
import { forecastOf, goesByClock } from '../ask/forecasting.js';
import type { GuestTable } from '../ask/planned.js';
import { planFor } from '../ask/planning.js';
import type { Io } from '../io.js';
import { type PlanOrder, type PlanWords, readPlanOptions } from '../read/planOptions.js';
import { readLevel } from '../read/readLevel.js';
import { planReport, type ReportContext, shortReport } from '../show/text.js';
import { type Reserved, reserveNamed } from '../wholeFile.js';
import { addOptions, type OptionLine, PLAN_OPTIONS } from './planOptionLines.js';
import {
  readServing,
  reserveCalendar,
  SERVING_OPTIONS,
  type ServingWords,
  servedPlan,
} from './serving.js';

/** {@link PlanWords}, when to serve and where the answer goes. */
interface PlanArguments extends PlanWords, ServingWords {
  readonly settings?: string;
  readonly sure?: string;
  readonly json?: boolean;
  readonly chart?: string;
  readonly quiet?: boolean;
}

const EXAMPLES = `Examples:
  roastsim --weight 2.2kg --oven 230C
  roastsim --weight "4lb 8oz" --oven 425F --doneness rare --serve 18:30
  roastsim --cut centre --weight 1.1kg --oven 120C --sear --sear-last
  roastsim --weight 2.2kg --oven 230C --guests "3 rare, 5 medium" --at guests
  roastsim --weight 2kg --oven 200C --fan --non-intact --json
`;

const ANSWER_OPTIONS: readonly OptionLine[] = [
  ['The answer', '--sure <share>', 'the range that covers this share of all cooks: 80%'],
  ['The answer', '--json', 'one JSON document'],
  ['The answer', '--chart <file>', 'draw the temperatures as a PNG file'],
  ['The answer', '--quiet', 'only the pull, and the notice if it is rare'],
];

/** Puts the plan's options and action on a command. */
export function addPlanCommand(command: Command, io: Io, version: string): void {
  command.addHelpText('before', EXAMPLES); // its own: a subcommand has others
  addOptions(command, [...PLAN_OPTIONS, ...ANSWER_OPTIONS, ...SERVING_OPTIONS]);
  command.action(async (words: PlanArguments) => {
    await runPlan(words, io, version);
  });
}

async function runPlan(typed: PlanArguments, io: Io, version: string): Promise<void> {
  const { words, priors } = await settled(typed);
  const order = readPlanOptions(words);
  const sure = readSure(words, order);
  const serving = await readServing(words, order, io);
  const calendar = await reserveCalendar(words.calendar);
  let chart: Reserved | undefined;
  try {
    chart = words.chart === undefined ? undefined : await reserveChart(words.chart);
    const { plan: found, table } = await planFor(words, order);
    const forecast = goesByClock(order)
      ? undefined
      : await forecastOf(found, { ...priors, ...sure });
    if (forecast === undefined && sure.sure !== undefined) io.err(NOTHING_SURE);
    const plan = forecast === undefined ? found : withEarlierLook(found, forecast.interval);
    if (chart !== undefined) {
      const { planChart } = await import('../show/chart.js');
      await chart.fill(await planChart(plan, order.units));
    }
    const told = words.quiet !== true || words.json === true;
    const times = told || serving !== undefined ? timetable(plan) : undefined;
    const served =
      serving === undefined || times === undefined
        ? undefined
        : await servedPlan(plan, order, times, serving, io.now());
    if (calendar !== undefined && served !== undefined) {
      const { planCalendar } = await import('../show/calendar.js');
      const { clock } = served;
      await calendar.fill(planCalendar(plan, { units: order.units, clock, created: io.now() }));
    }
    const context: ReportContext = {
      units: order.units,
      assumed: order.assumed,
      colors: pc.createColors(io.color),
      ...(forecast === undefined ? {} : await forecastTexts(plan, forecast, order.units)),
      ...(table === undefined ? {} : await guestTexts(plan, table, order.units)),
      ...(times === undefined ? {} : { steps: times.steps }),
      ...(served === undefined ? {} : { clock: served.clock, notices: served.notices }),
    };
    if (words.json === true) {
      const { planDocument } = await import('../show/planDocument.js');
      io.out(
        `${JSON.stringify(
          planDocument(plan, {
            version,
            units: order.units,
            assumed: order.assumed,
            ...(table === undefined ? {} : { table }),
            ...(times === undefined ? {} : { steps: times.steps }),
            ...(served === undefined ? {} : { served, clock: served.clock.at }),
            ...(forecast === undefined ? {} : { forecast }),
          }),
        )}\n`,
      );
    } else io.out(words.quiet === true ? shortReport(plan, context) : planReport(plan, context));
  } finally {
    await calendar?.drop();
    await chart?.drop();
  }
}

/** Words with what a settings file adds; the file's reader is only loaded when there is one. */
export async function settled<T extends PlanWords & { readonly settings?: string }>(
  words: T,
): Promise<{ readonly words: T; readonly priors: { readonly priors?: PriorChanges } }> {
  if (words.settings === undefined) return { words, priors: {} };
  const { priorChanges, readSettings, withSettings } = await import('../read/settings.js');
  const settings = await readSettings(words.settings);
  return { words: withSettings(words, settings), priors: priorChanges(settings) };
}

const NOTHING_SURE = 'roastsim: --sure: the pull comes too early for a range of minutes\n';

function readSure({ sure, time }: PlanArguments, order: PlanOrder): { readonly sure?: number } {
  if (sure === undefined) return {};
  if (!goesByClock(order)) return { sure: readLevel(sure, '--sure') };
  const accepted =
    time === undefined ? '--sure with stages that end "to pull"' : '--sure or --time';
  throw new RoastError(`--sure: the time is given, nothing is in doubt; accepted: ${accepted}`, {
    code: 'contradiction',
    path: ['--sure'],
    found: sure,
    accepted,
  });
}

/** What the report says of the forecast. */
async function forecastTexts(
  plan: Plan,
  { interval, sure }: Forecast,
  units: UnitSystem,
): Promise<Pick<ReportContext, 'range' | 'sure'>> {
  if (sure === undefined) return { range: interval };
  const { sureReport } = await import('../show/sure.js');
  return { range: interval, sure: sureReport(plan, { interval, sure }, units) };
}

/** What the report says of the guests. */
async function guestTexts(
  plan: Plan,
  table: GuestTable,
  units: UnitSystem,
): Promise<Pick<ReportContext, 'guests' | 'wanted'>> {
  const { guestReport, wishesText } = await import('../show/guests.js');
  const guests = guestReport(plan, table, units);
  return table.search === undefined
    ? { guests }
    : { guests, wanted: wishesText(table.wishes, units) };
}

/** Opens the chart's file before any work is done. */
export const reserveChart = (file: string): Promise<Reserved> =>
  reserveNamed(file, '.png', '--chart');
