import type { CookWay, Point, Roast } from '@roastsim/core';
import { cookOf } from './planOptions.js';
import { readStageLine } from './stageLine.js';
import { LIST_LIMIT, plainText, printable, type Reading, refuse } from './text.js';

const OPTION = '--way';
const ACCEPTED = 'a stage line, like "oven 230C, rest 20min" or "Sunday: oven 120C, rest 10min"';
const WAYS = [2, 8] as const;
const LONGEST_NAME = 30;

const NAME = /^([^:,;]*):(?!\d)(.*)$/; // the colon of 1:20 names nothing
const TWO_PIECES = /^ ?(?:(?:cut )?in(?:to)? )?two pieces ?[,;]/i;

/**
 * Reads ways to compare: stage lines, each with a name in front if it is to have one, and `two pieces` before its first stage when
 * the roast is cut in two.
 *
 * @param probe - where the thermometer stands
 * @throws RoastError naming `--way`, what was read and what is accepted
 */
export function readWays(texts: readonly string[], probe: Point, roast?: Roast): CookWay[] {
  const [least, most] = WAYS;
  if (texts.length < least || texts.length > most) {
    const fault =
      texts.length < least ? 'one way has nothing beside it' : `there are ${texts.length} ways`;
    const accepted = `--way ${least} to ${most} times`;
    refuse({ option: OPTION, text: texts[0] ?? '', accepted }, 'out-of-range', fault);
  }
  return texts.map((text) => readWay(text, probe, roast));
}

function readWay(text: string, probe: Point, roast: Roast | undefined): CookWay {
  const reading = { option: OPTION, text, accepted: ACCEPTED };
  const tidy = plainText(reading, LIST_LIMIT);
  const [, name, named] = NAME.exec(tidy) ?? [];
  if (named === undefined && /:(?!\d)/.test(tidy)) {
    const fault =
      'what stands before a colon is a name, and a name has neither comma nor semicolon';
    refuse(reading, 'out-of-range', fault);
  }
  const whole = named ?? tidy;
  const line = whole.replace(TWO_PIECES, '');
  const cook = cookOf(readStageLine(line, OPTION, probe, roast), OPTION);
  return {
    name: name === undefined ? '' : readName(name, reading),
    ...cook,
    ...(line === whole ? {} : { pieces: 2 }),
  };
}

function readName(text: string, reading: Reading): string {
  const name = text.trim();
  if (name === '' || [...name].length > LONGEST_NAME) {
    refuse(reading, 'out-of-range', `a name has 1 to ${LONGEST_NAME} characters`);
  }
  return printable(name);
}
