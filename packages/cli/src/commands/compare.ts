import {
  commonWays,
  compareWays,
  cutsOf,
  type PlanRequest,
  type Roast,
  settleAim,
} from '@roastsim/core';
import type { Command } from 'commander';
import pc from 'picocolors';
import type { Io } from '../io.js';
import { readChoice } from '../read/index.js';
import { type PlanWords, pointingAt, readPlanOptions } from '../read/planOptions.js';
import { readWays } from '../read/readWays.js';
import { lineUnits } from '../read/stageLine.js';
import { type Comparison, isCooked } from '../show/comparison.js';
import { reserveChart, settled } from './plan.js';
import { addOptions, type OptionLine, PLAN_OPTIONS } from './planOptionLines.js';

/** {@link PlanWords} and the ways to compare. */
interface CompareArguments extends PlanWords {
  readonly settings?: string;
  readonly way?: readonly string[];
  readonly json?: boolean;
  readonly chart?: string;
}

const EXAMPLES = `Examples:
  roastsim compare --weight 2.2kg
  roastsim compare --weight 2.2kg --doneness rare --chart ways.png
  roastsim compare --weight 1.1kg --cut centre --way "oven 230C, rest 20min" \\
    --way "Sunday: oven 120C to pull, pan 250C 4x45s, rest 10min"
`;

/** Options of a plan that are no matter of a comparison: each way says its own heat, and nobody is seated. */
const NOT_HERE = /^--(pull|time|serve|at) /;

const HERE: readonly OptionLine[] = [
  ...PLAN_OPTIONS.filter(
    ([group, flags]) => group !== 'The heat' && group !== 'The guests' && !NOT_HERE.test(flags),
  ),
  ['The aim', '--at <slice>', 'which slice gets it: middle (default), thick, thin'],
];

const ANSWER_OPTIONS: readonly OptionLine[] = [
  ['The answer', '--json', 'one JSON document'],
  ['The answer', '--chart <file>', 'draw the centres of all ways as a PNG file'],
];

/**
 * Adds `roastsim compare`.
 *
 * @param fail - called when none of the ways came out
 */
export function addCompareCommand(
  program: Command,
  io: Io,
  version: string,
  fail: () => void,
): void {
  const command = program
    .command('compare')
    .description('Holds several ways to cook one roast side by side.')
    .allowExcessArguments(false)
    .addHelpText('beforeAll', EXAMPLES);
  command.addOption(
    command
      .createOption('--way <line>', 'a way as a stage line, with a name in front if you like')
      .argParser((line: string, before: readonly string[] = []) => [...before, line])
      .helpGroup('The ways:'),
  );
  addOptions(command, [...HERE, ...ANSWER_OPTIONS]);
  command.action(async (words: CompareArguments) => {
    if (!(await run(words, io, version))) fail();
  });
}

const SOME_HEAT = 'oven 230C to pull'; // read and dropped: the ways have their own

/** Whether any way came out. */
async function run(typed: CompareArguments, io: Io, version: string): Promise<boolean> {
  if (typed.at !== undefined) readChoice(typed.at, ['middle', 'thick', 'thin'], '--at');
  const { words } = await settled({ ...typed, stages: SOME_HEAT });
  const typedUnits = typed.way?.map(lineUnits).find((system) => system !== undefined);
  const { roast, request, units, assumed } = readPlanOptions({
    ...words,
    ...(words.units === undefined && words.weight === undefined && typedUnits !== undefined
      ? { units: typedUnits }
      : {}),
  });
  const chart = words.chart === undefined ? undefined : await reserveChart(words.chart);
  try {
    const aim = pointingAt(undefined, words, () => aimOf(roast, request));
    const ways = typed.way === undefined ? commonWays(aim.targetC) : readWays(typed.way, aim.point);
    const comparison: Comparison = {
      roast,
      aim,
      ways: compareWays(roast, ways, request),
      units,
      assumed: [...(typed.way === undefined ? ['the usual five ways'] : []), ...assumed],
    };
    if (chart !== undefined) {
      const { compareChart } = await import('../show/compareChart.js');
      await chart.fill(await compareChart(comparison));
    }
    if (typed.json === true) {
      const { compareDocument } = await import('../show/compareDocument.js');
      io.out(`${JSON.stringify(compareDocument(comparison, version))}\n`);
    } else {
      const { compareReport } = await import('../show/compareText.js');
      io.out(compareReport(comparison, pc.createColors(io.color)));
    }
    return comparison.ways.some(isCooked);
  } finally {
    await chart?.drop();
  }
}

const aimOf = (roast: Roast, { aim, atRisk, portionKg }: PlanRequest) =>
  settleAim(roast, cutsOf(roast, portionKg), aim ?? {}, atRisk ?? false);
