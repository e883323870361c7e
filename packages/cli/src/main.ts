#!/usr/bin/env node
import manifest from '../package.json' with { type: 'json' };
import { runCli } from './cli.js';

/** Why results did not reach their reader. */
let unsaid: NodeJS.ErrnoException | undefined;

// a reader that closes the pipe early has seen enough
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  unsaid ??= error;
});
process.stderr.on('error', () => undefined); // nowhere is left to say so

// told at the very end, so that files are finished or dropped first
process.on('exit', () => {
  if (unsaid === undefined) return;
  const reason = unsaid.code === 'ENOSPC' ? 'the disk is full' : (unsaid.code ?? unsaid.message);
  process.stderr.write(`roastsim: the output could not be written: ${reason}\n`);
  process.exitCode = 1;
});

process.exitCode = await runCli(
  process.argv.slice(2),
  {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    now: () => new Date(),
    zone: () => Intl.DateTimeFormat().resolvedOptions().timeZone,
    color: process.stdout.isTTY === true && !process.env.NO_COLOR,
    terminal: process.stdout.isTTY === true,
    input: () => {
      let closed = false;
      process.once('SIGINT', () => {
        closed = true;
        process.stdin.destroy();
      });
      return { bytes: process.stdin, closed: () => closed };
    },
  },
  manifest,
);
