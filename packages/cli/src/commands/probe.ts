import type { Command } from 'commander';
import type { Io } from '../io.js';
import { addOptions, type OptionLine, PLAN_OPTIONS } from './planOptionLines.js';
import type { ProbeArguments } from './runProbe.js';

const EXAMPLES = `Examples:
  roastsim probe log.csv --weight 2.2kg --oven 200C
  roastsim probe log.csv --weight 2.2kg --oven 200C --serve 19:00
  thermometer | roastsim probe - --weight 2.2kg --oven 200C --every 30s --json
`;

const LOG_OPTIONS: readonly OptionLine[] = [
  ['The log', '--log-units <units>', 'of bare numbers: F, C, min, s, or two of them: "F,min"'],
  [
    'The log',
    '--log-start <time>',
    'when it begins since the refrigerator (default: into the oven)',
  ],
  ['The answer', '--json', 'JSON: one document, or one a line as the log runs'],
  [
    'The answer',
    '--every <time>',
    'log time between two answers: 30s; follows a file as if it ran',
  ],
];

/** Adds `roastsim probe`. */
export function addProbeCommand(program: Command, io: Io): void {
  const command = program
    .command('probe')
    .description("Reads a thermometer's log, or follows one, and says what remains until the pull.")
    .argument('<log>', 'CSV file or JSON lines; - for standard input')
    .allowExcessArguments(false)
    .addHelpText('beforeAll', EXAMPLES);
  addOptions(command, [...PLAN_OPTIONS, ...LOG_OPTIONS]);
  command.action(async (log: string, words: ProbeArguments) => {
    const { runProbe } = await import('./runProbe.js');
    await runProbe(log, words, io);
  });
}
