import type { Command } from 'commander';
import type { Io } from '../io.js';
import { addOptions, type OptionLine, PLAN_OPTIONS } from './planOptionLines.js';
import type { CompareArguments } from './runCompare.js';

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
    const { runCompare } = await import('./runCompare.js');
    if (!(await runCompare(words, io, version))) fail();
  });
}
