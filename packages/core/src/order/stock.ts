import { meets, tidy } from './counter.js';

/** Pieces chosen, newest first, as a chain that many sums share. */
interface Choice {
  readonly index: number;
  readonly count: number;
  readonly before: Choice | undefined;
}

const UNIT_KG = 0.005; // a counter's scale shows 5 g

/**
 * Pieces of a stock that meet a need with the least weight, and among those the fewest: sums are built up piece by piece (the
 * subset-sum table), each kept with the fewest pieces that reach it. Weights count down to the next 5 g.
 *
 * @param needKg - weight wanted in all [kg]
 * @returns places in `stockKg`, or `undefined` when all of it is too little
 */
export function fromStock(stockKg: readonly number[], needKg: number): number[] | undefined {
  const units = stockKg.map((massKg) => Math.floor(massKg / UNIT_KG + 1e-6));
  const done = (sum: number): boolean => meets(sum * UNIT_KG, needKg);
  const reached: (Choice | null)[] = [null]; // by sum; null at 0 stands for nothing chosen
  const has = (sum: number): boolean => sum === 0 || reached[sum] !== undefined;
  for (const [index, weight] of units.entries()) {
    // from above, so that no piece is taken twice
    for (let sum = reached.length - 1; sum >= 0; sum--) {
      if (!has(sum) || done(sum)) continue;
      const before = reached[sum] ?? undefined;
      const count = (before?.count ?? 0) + 1;
      const there = reached[sum + weight] ?? undefined;
      if (there === undefined || count < there.count) {
        reached[sum + weight] = { index, count, before };
      }
    }
  }
  for (let sum = 1; sum < reached.length; sum++) {
    if (!has(sum) || !done(sum)) continue;
    const chosen: number[] = [];
    for (let at = reached[sum] ?? undefined; at !== undefined; at = at.before)
      chosen.push(at.index);
    return chosen.sort((a, b) => stockKg[b] - stockKg[a]);
  }
  return undefined;
}

/** Share of a trimmed whole tenderloin that a centre cut or a butt end can have: half. Common practice, no source. */
export const CUT_SHARE = 0.5;

/**
 * Pieces cut from tenderloins of a stock, one from each, about equal, together at least the need; from as few as can be, the
 * largest first.
 *
 * @param usualKg - weights of the cut a counter meets [kg]; a tenderloin that cannot give the least is passed over
 * @param stepKg - step pieces are cut to [kg]
 * @returns weights [kg], heaviest first, or `undefined` when the stock is too little
 */
export function cutFromStock(
  stockKg: readonly number[],
  needKg: number,
  [lowKg, highKg]: readonly [number, number],
  stepKg: number,
): number[] | undefined {
  const least = Math.ceil(lowKg / stepKg - 1e-6);
  const gives = stockKg
    .map((massKg) => Math.floor(Math.min(CUT_SHARE * massKg, highKg) / stepKg + 1e-6))
    .filter((steps) => steps >= least)
    .sort((a, b) => b - a);
  let available = 0;
  let count = 0;
  while (count < gives.length && !meets(available * stepKg, needKg)) available += gives[count++];
  if (count === 0 || !meets(available * stepKg, needKg)) return undefined;
  let wanted = 0;
  while (!meets(wanted * stepKg, needKg)) wanted++;
  wanted = Math.max(wanted, count * least);
  // the smallest first: what it cannot give, the larger ones do
  const pieces: number[] = [];
  for (let i = count - 1; i >= 0; i--) {
    const piece = Math.max(least, Math.min(gives[i], Math.ceil(wanted / (i + 1))));
    pieces.push(piece);
    wanted -= piece;
  }
  return pieces.sort((a, b) => b - a).map((steps) => tidy(steps * stepKg));
}
