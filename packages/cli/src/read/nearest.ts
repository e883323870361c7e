import { closest, distance } from 'fastest-levenshtein';

/** The one of `names` nearest to `typed` in spelling, unless more than half of what was typed would have to change. */
export function nearest(typed: string, names: readonly string[]): string | undefined {
  if (typed === '' || names.length === 0) return undefined;
  const name = closest(typed, names);
  return distance(typed, name) <= typed.length / 2 ? name : undefined;
}
