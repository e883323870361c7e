import { type Plan, planCook, RoastError } from '@roastsim/core';
import type { Command } from 'commander';
import pc from 'picocolors';
import type { Io } from '../io.js';
import { printable } from '../read/index.js';
import { type PlanWords, pointingAt, readPlanOptions } from '../read/planOptions.js';
import { clockFrom } from '../show/clock.js';
import { planReport, type ReportContext, shortReport } from '../show/text.js';
import { type Reserved, reserve } from '../wholeFile.js';

/** {@link PlanWords} and where the answer goes. */
interface PlanArguments extends PlanWords {
  readonly json?: boolean;
  readonly chart?: string;
  readonly quiet?: boolean;
}

const EXAMPLES = `Examples:
  roastsim --weight 2.2kg --oven 230C
  roastsim --weight "4lb 8oz" --oven 425F --doneness rare --serve 18:30
  roastsim --cut centre --weight 1.1kg --oven 120C --sear --sear-last
  roastsim --weight 2kg --oven 200C --fan --non-intact --json
`;

/** Options of the plan, in the groups the help shows. */
const OPTIONS: readonly (readonly [group: string, flags: string, help: string])[] = [
  ['The roast', '--weight <mass>', 'trimmed raw weight: 2.2kg, "4lb 8oz"'],
  ['The roast', '--cut <name>', 'whole (default), centre, butt, tail; other for any round roast'],
  ['The roast', '--length <length>', 'length as it goes in: 48cm'],
  [
    'The roast',
    '--girth <sizes>',
    'round the roast: 25cm, or "24cm@5cm, 26cm@20cm" from the thick end',
  ],
  ['The roast', '--diameter <sizes>', 'across the roast, the same way'],
  ['The roast', '--untied', 'no twine'],
  ['The roast', '--unfolded', 'thin tail not folded under'],
  ['The roast', '--fridge <temperature>', 'temperature it starts at (default 4C)'],
  ['The roast', '--non-intact', 'tenderised, injected or rolled meat: strict safety rules'],
  ['The heat', '--oven <temperature>', 'oven setting: 230C, 446F'],
  ['The heat', '--fan', 'fan on'],
  ['The heat', '--cold-oven', 'start in a cold oven'],
  ['The heat', '--temper <time>', 'time on the counter first (default 30min)'],
  ['The heat', '--sear [where]', 'brown it first: pan (default) or oven'],
  ['The heat', '--sear-pan <temperature>', 'brown it in a pan this hot (default 230C)'],
  ['The heat', '--sear-last', 'brown it after the oven instead'],
  ['The heat', '--rest <time>', 'rest after the pull (default 20min)'],
  ['The heat', '--open-rest', 'rest without foil'],
  ['The heat', '--bath <temperature>', 'water bath instead of the oven'],
  [
    'The aim',
    '--doneness <wish>',
    'a band, or the temperature of the middle (default medium-rare)',
  ],
  ['The aim', '--at <slice>', 'which slice gets it: middle (default), thick, thin'],
  ['The aim', '--pull <temperature>', 'simulate this pull instead of finding it'],
  ['The aim', '--time <time>', 'simulate this oven time instead'],
  ['The aim', '--scale <name>', 'words for doneness: kitchen (default), amsa'],
  ['The aim', '--at-risk', 'someone young, old, pregnant or unwell eats: strict safety rules'],
  ['The aim', '--serve <clock>', 'when to serve: 18:30; gives clock times'],
  ['The answer', '--json', 'one JSON document'],
  ['The answer', '--chart <file>', 'draw the temperatures as a PNG file'],
  ['The answer', '--units <system>', 'metric or us (default: as typed)'],
  ['The answer', '--quiet', 'only the pull, and the notice if it is rare'],
];

/** Puts the plan's options and action on a command. */
export function addPlanCommand(command: Command, io: Io, version: string): void {
  command.addHelpText('beforeAll', EXAMPLES);
  for (const [group, flags, help] of OPTIONS) {
    const option = command.createOption(flags, help);
    command.addOption(option.helpGroup(`${group}:`));
  }
  command.action(async (words: PlanArguments) => {
    await runPlan(words, io, version);
  });
}

async function runPlan(words: PlanArguments, io: Io, version: string): Promise<void> {
  const order = readPlanOptions(words);
  const chart = words.chart === undefined ? undefined : await reserveChart(words.chart);
  try {
    const plan = pointingAt(undefined, words, () => planCook(order.roast, order.request));
    if (chart !== undefined) {
      const { planChart } = await import('../show/chart.js');
      await chart.fill(await planChart(plan, order.units));
    }
    const clock =
      order.serveMinutes === undefined ? undefined : clockFrom(order.serveMinutes, lengthOf(plan));
    const context: ReportContext = {
      units: order.units,
      assumed: order.assumed,
      colors: pc.createColors(io.color),
      ...(clock === undefined ? {} : { clock }),
    };
    if (words.json === true) {
      const { planDocument } = await import('../show/planDocument.js');
      io.out(
        `${JSON.stringify(
          planDocument(plan, {
            version,
            units: order.units,
            assumed: order.assumed,
            ...(clock === undefined ? {} : { clock: clock.at }),
          }),
        )}\n`,
      );
    } else io.out(words.quiet === true ? shortReport(plan, context) : planReport(plan, context));
  } finally {
    await chart?.drop();
  }
}

/** Opens the chart's file before any work is done. */
function reserveChart(file: string): Promise<Reserved> {
  if (/[^/\\]\.png$/i.test(file)) return reserve(file, '--chart');
  const accepted = 'a file name that ends in .png';
  throw new RoastError(`--chart: read "${printable(file)}"; accepted: ${accepted}`, {
    code: 'unwritable',
    path: ['--chart'],
    found: file,
    accepted,
  });
}

/** Minutes from the refrigerator to the table. */
const lengthOf = ({ history }: Plan): number => history.seconds[history.rows - 1] / 60;
