import { RoastError } from '@roastsim/core';
import { nearest } from './nearest.js';
import { printable } from './text.js';

/**
 * What is wrong with the first word of a command line that stands where a command does and is none.
 *
 * @param typed - the first word; with a dash in front it is an option
 * @param names - the commands there are
 */
export function unknownCommand(
  typed: string | undefined,
  names: readonly string[],
): RoastError | undefined {
  if (typed === undefined || typed.startsWith('-') || names.includes(typed)) return undefined;
  const near = typed === 'help' ? '--help' : nearest(typed.toLowerCase(), names);
  const accepted = `${names.join(', ')}, or a plan's options without a command`;
  return new RoastError(`there is no command "${printable(typed)}"; accepted: ${accepted}`, {
    code: 'unknown-name',
    path: ['command'],
    found: typed,
    accepted,
    ...(near === undefined ? {} : { hint: `did you mean ${near}?` }),
  });
}

/** What is wrong with a word behind a plan's options that belongs to none of them. */
export function looseWord(typed: string): RoastError {
  const accepted = 'options and their values; a value with a space in it needs quotes';
  return new RoastError(`"${printable(typed)}" belongs to no option; accepted: ${accepted}`, {
    code: 'unknown-name',
    path: ['arguments'],
    found: typed,
    accepted,
  });
}
