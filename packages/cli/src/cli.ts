import { RoastError } from '@roastsim/core';
import { Command, CommanderError } from 'commander';
import { addCardCommand } from './commands/card.js';
import { addCardsCommand } from './commands/cards.js';
import { addCheckCommand } from './commands/check.js';
import { addCompareCommand } from './commands/compare.js';
import { addOrderCommand } from './commands/order.js';
import { addPlanCommand } from './commands/plan.js';
import { addProbeCommand } from './commands/probe.js';
import type { Io } from './io.js';
import { looseWord, unknownCommand } from './read/unknownCommand.js';

/** Exit codes: done, the work failed, the person's input is wrong. */
const DONE = 0;
const FAILED = 1;
const WRONG_INPUT = 2;

/** Runs the command line; returns the exit code. */
export async function runCli(
  argv: readonly string[],
  io: Io,
  manifest: { readonly version: string; readonly description: string },
): Promise<number> {
  const program = new Command('roastsim')
    .description(manifest.description)
    .version(manifest.version)
    .allowExcessArguments(false)
    .enablePositionalOptions()
    .exitOverride()
    .configureOutput({
      writeOut: io.out,
      writeErr: () => undefined, // told below, in one line
    });
  addPlanCommand(program, io, manifest.version);
  addCardCommand(program, io);
  addProbeCommand(program, io);
  let exitCode = DONE;
  const fail = (): void => {
    exitCode = FAILED;
  };
  addOrderCommand(program, io, manifest.version, fail);
  addCardsCommand(program, io, manifest.version, fail);
  addCheckCommand(program, io, manifest.version, fail);
  addCompareCommand(program, io, manifest.version, fail);
  try {
    await program.parseAsync(argv, { from: 'user' });
    return exitCode;
  } catch (error) {
    if (error instanceof CommanderError) {
      if (error.exitCode === 0) return DONE;
      const message = (misplacedWord(error, argv, program) ?? error).message.replace(
        /^error: /,
        '',
      );
      io.err(`roastsim: ${oneLine(message)}\n`);
      return WRONG_INPUT;
    }
    if (error instanceof RoastError) {
      io.err(`roastsim: ${oneLine(error.message)}\n`);
      return WRONG_INPUT;
    }
    io.err(`roastsim: this is a fault of the program, not yours: ${describe(error)}\n`);
    return FAILED;
  }
}

/** What is wrong with a word that is neither a command nor an option's value. */
function misplacedWord(
  { code }: CommanderError,
  [first]: readonly string[],
  { commands, args }: Command,
): RoastError | undefined {
  const names = commands.map((command) => command.name());
  const unknown = unknownCommand(first, names);
  if (unknown !== undefined) return unknown;
  const loose = code === 'commander.excessArguments' && !names.includes(args[0]);
  return loose ? looseWord(args[0]) : undefined;
}

const oneLine = (text: string): string => text.replace(/\s*\n\s*/g, ' ').trim();

const describe = (error: unknown): string =>
  error instanceof Error ? (error.stack ?? error.message) : String(error);
