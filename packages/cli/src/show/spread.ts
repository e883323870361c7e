/** Something with an extent along one direction: where it wants its middle, and how long it is. */
export interface Wanted {
  readonly at: number;
  readonly length: number;
}

/** Things side by side, in the order of their wishes. */
interface Group {
  readonly members: readonly number[];
  readonly start: number;
  readonly length: number;
}

/**
 * Middles for things that must not overlap: each as near to its wish as its neighbours and the ends `from` and `to` let it.
 * What does not fit between the ends sticks out beyond `to`.
 *
 * @returns middles, in the order of `wanted`
 */
export function spread(wanted: readonly Wanted[], from: number, to: number): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a].at - wanted[b].at);
  const groups: Group[] = [];
  for (const index of order) {
    let group = placed(wanted, [index], from, to);
    for (
      let before = groups.at(-1);
      before !== undefined && before.start + before.length > group.start;
      before = groups.at(-1)
    ) {
      groups.pop();
      group = placed(wanted, [...before.members, ...group.members], from, to);
    }
    groups.push(group);
  }
  const middles = wanted.map(({ at }) => at);
  for (const { members, start } of groups) {
    let next = start;
    for (const index of members) {
      middles[index] = next + wanted[index].length / 2;
      next += wanted[index].length;
    }
  }
  return middles;
}

/** Members side by side where the sum of their squared moves is least, then moved between the ends. */
function placed(wanted: readonly Wanted[], members: readonly number[], from: number, to: number) {
  let length = 0;
  let starts = 0;
  for (const index of members) {
    starts += wanted[index].at - wanted[index].length / 2 - length;
    length += wanted[index].length;
  }
  const start = Math.max(from, Math.min(starts / members.length, to - length));
  return { members, start, length };
}
