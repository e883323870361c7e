import { RoastError } from '@roastsim/core';
import type { Command } from 'commander';
import pc from 'picocolors';
import type { Io } from '../io.js';
import { readChoice } from '../read/readChoice.js';
import { addOptions, type OptionLine } from './planOptionLines.js';

interface CheckArguments {
  readonly only?: string;
  readonly json?: boolean;
  readonly markdown?: boolean;
}

const EXAMPLES = `Examples:
  roastsim check
  roastsim check --only charts
  roastsim check --json > check.json
`;

const OPTIONS: readonly OptionLine[] = [
  ['The answer', '--only <group>', 'one group of rows: charts, lethality, plans, ...'],
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
  addOptions(command, OPTIONS);
  command.action((words: CheckArguments) => runCheck(words, io, version, fail));
}

/** Refuses to print the page beside anything that would cut it down. */
function refuseBesideMarkdown({ only, json }: CheckArguments): void {
  const beside = only !== undefined ? '--only' : json === true ? '--json' : undefined;
  if (beside === undefined) return;
  const accepted = 'one of the two';
  throw new RoastError(`${beside}: --markdown prints the whole page; accepted: ${accepted}`, {
    code: 'contradiction',
    path: [beside],
    found: only,
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
  const { only } = words;
  const group =
    only === undefined
      ? undefined
      : readChoice(
          only,
          SECTIONS.map(({ id }) => id),
          '--only',
        );
  const sections = SECTIONS.filter(({ id }) => group === undefined || id === group);
  if (words.markdown === true) io.out(validationReport());
  else if (words.json === true) io.out(`${JSON.stringify(checkDocument(sections, version))}\n`);
  else io.out(checkText(sections, pc.createColors(io.color)));
  if (mustFail(sections.flatMap((section) => section.rows()))) fail();
}
