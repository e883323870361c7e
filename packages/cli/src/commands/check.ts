import { RoastError } from '@roastsim/core';
import type { Command } from 'commander';
import pc from 'picocolors';
import { GROUPS, type GroupName } from '../check/groups.js';
import type { Io } from '../io.js';
import { readChoice } from '../read/readChoice.js';
import { refuse } from '../read/text.js';
import { addOptions, type OptionLine } from './planOptionLines.js';

interface CheckArguments {
  readonly only?: readonly string[];
  readonly json?: boolean;
  readonly markdown?: boolean;
}

const EXAMPLES = `Examples:
  roastsim check
  roastsim check --only charts
  roastsim check --only charts --only lethality
  roastsim check --json > check.json
`;

const OPTIONS: readonly OptionLine[] = [
  ['The answer', '--json', 'one JSON document'],
  ['The answer', '--markdown', 'the page docs/validation.md, with all its explanations'],
];

/** Adds `roastsim check`. */
export function addCheckCommand(program: Command, io: Io, version: string, fail: () => void): void {
  const command = program
    .command('check')
    .description('Holds the simulator against published figures, on this machine, row by row.')
    .allowExcessArguments(false)
    .addHelpText('beforeAll', EXAMPLES);
  command.addOption(
    command
      .createOption('--only <group>', `one group of rows, may be repeated: ${GROUPS.join(', ')}`)
      .argParser((name: string, before: readonly string[] = []) => [...before, name])
      .helpGroup('The rows:'),
  );
  addOptions(command, OPTIONS);
  command.action((words: CheckArguments) => runCheck(words, io, version, fail));
}

function readGroup(text: string): GroupName {
  if (!text.includes(',')) return readChoice(text, GROUPS, '--only');
  const reading = { option: '--only', text, accepted: '--only charts --only lethality' };
  return refuse(reading, 'unknown-name', 'it takes one name, and may be repeated');
}

/** Refuses to print the page beside anything that would cut it down. */
function refuseBesideMarkdown({ only, json }: CheckArguments): void {
  const beside = only !== undefined ? '--only' : json === true ? '--json' : undefined;
  if (beside === undefined) return;
  const accepted = 'one of the two';
  throw new RoastError(`${beside}: --markdown prints the whole page; accepted: ${accepted}`, {
    code: 'contradiction',
    path: [beside],
    found: beside === '--only' ? only : json,
    accepted,
  });
}

async function runCheck(
  words: CheckArguments,
  io: Io,
  version: string,
  fail: () => void,
): Promise<void> {
  if (words.markdown === true) refuseBesideMarkdown(words);
  // the published tables travel with this part of the program
  const { SECTIONS, checkDocument, checkText, mustFail, validationReport } = await import(
    '../check/index.js'
  );
  const groups = (words.only ?? GROUPS).map(readGroup);
  const sections = SECTIONS.filter(({ id }) => groups.includes(id));
  if (words.markdown === true) io.out(validationReport());
  else if (words.json === true) io.out(`${JSON.stringify(checkDocument(sections, version))}\n`);
  else io.out(checkText(sections, pc.createColors(io.color)));
  if (mustFail(sections.flatMap((section) => section.rows()))) fail();
}
