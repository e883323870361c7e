import { RoastError } from '../errors.js';

type Path = readonly (string | number)[];

/** Changes of one letter that turn one word into the other (Levenshtein 1966). A few words, now and then: no package for that. */
function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 0; i < a.length; i++) {
    const next = [i + 1];
    for (let j = 0; j < b.length; j++) {
      next.push(Math.min(row[j] + (a[i] === b[j] ? 0 : 1), row[j + 1] + 1, next[j] + 1));
    }
    row = next;
  }
  return row[b.length];
}

const LONGEST_NAME = 40; // what is longer is no slip of the finger

/** The one of `names` nearest in spelling, unless more than half of what was found would have to change. */
function nearestName(found: string, names: readonly string[]): string | undefined {
  if (found.length > LONGEST_NAME) return undefined;
  const typed = found.toLowerCase();
  let best: string | undefined;
  let least = typed.length / 2;
  for (const name of names) {
    const away = distance(typed, name.toLowerCase());
    if (away > least || (away === least && best !== undefined)) continue;
    least = away;
    best = name;
  }
  return best;
}

/** What was found, for a sentence: short, and never a stack of brackets. */
const foundText = (found: unknown): string =>
  typeof found === 'string'
    ? `"${found.slice(0, LONGEST_NAME)}"`
    : typeof found === 'object' && found !== null
      ? Array.isArray(found)
        ? 'a list'
        : 'an object'
      : typeof found === 'function'
        ? 'a function'
        : String(found);

/**
 * One of a few names, as it was handed in.
 *
 * @param what - begins the sentence: `the cut`
 * @throws RoastError `missing` or `unknown-name`, with the nearest right spelling
 */
export function checkName<T extends string>(
  found: unknown,
  names: readonly T[],
  path: Path,
  what: string,
): T {
  const name = names.find((each) => each === found);
  if (name !== undefined) return name;
  const accepted = names.join(', ');
  const near = typeof found === 'string' ? nearestName(found, names) : undefined;
  throw new RoastError(
    found === undefined
      ? `${what} is missing; it can be ${accepted}`
      : `${what} is ${foundText(found)}; it can be ${accepted}`,
    {
      code: found === undefined ? 'missing' : 'unknown-name',
      path,
      found,
      accepted,
      ...(near === undefined ? {} : { hint: `did you mean ${near}?` }),
    },
  );
}

/**
 * A number in a range, both ends included.
 *
 * @throws RoastError `missing`, `not-a-number` or `out-of-range`
 */
export function checkNumber(
  found: unknown,
  [low, high]: readonly [number, number],
  path: Path,
  what: string,
  unit = '',
): number {
  if (typeof found === 'number' && found >= low && found <= high) return found;
  const accepted = `${low} to ${high} ${unit}`.trim();
  throw new RoastError(
    found === undefined
      ? `${what} is missing; it can be ${accepted}`
      : `${what} is ${`${foundText(found)} ${typeof found === 'number' ? unit : ''}`.trim()}; it can be ${accepted}`,
    {
      code:
        found === undefined ? 'missing' : Number.isFinite(found) ? 'out-of-range' : 'not-a-number',
      path,
      found,
      accepted,
    },
  );
}

/**
 * An object with fields, a list being none.
 *
 * @throws RoastError `missing`, or `unreadable` for anything else
 */
export function checkObject(found: unknown, path: Path, what: string, accepted: string): void {
  if (typeof found === 'object' && found !== null && !Array.isArray(found)) return;
  throw new RoastError(
    `${what} is ${found === undefined ? 'missing' : foundText(found)}; accepted is ${accepted}`,
    { code: found === undefined ? 'missing' : 'unreadable', path, found, accepted },
  );
}

/**
 * A list.
 *
 * @throws RoastError `missing`, or `unreadable` for anything else
 */
export function checkList(found: unknown, path: Path, what: string, accepted: string): void {
  if (Array.isArray(found)) return;
  throw new RoastError(
    `${what} ${found === undefined ? 'are missing' : `are ${foundText(found)}`}; accepted is ${accepted}`,
    { code: found === undefined ? 'missing' : 'unreadable', path, found, accepted },
  );
}
