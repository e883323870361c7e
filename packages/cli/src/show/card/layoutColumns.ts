import { opsAt, piled, type Stack } from './layoutBlocks.js';

/** Between columns, times the size of their texts. */
export const GUTTER_EM = 2;
const NARROWEST_EM = 17; // of a column; about 36 characters

/** Two columns and their width, or one where two would be narrow. */
export function columnsOf(
  widthPt: number,
  sizePt: number,
): { readonly count: 1 | 2; readonly width: number } {
  const half = (widthPt - GUTTER_EM * sizePt) / 2;
  return half >= NARROWEST_EM * sizePt ? { count: 2, width: half } : { count: 1, width: widthPt };
}

/** Entries in columns as even as their order allows. */
export function columns(
  entries: readonly Stack[],
  count: number,
  widthPt: number,
  gutterPt: number,
  gapPt: number,
): Stack {
  const heights = entries.map(({ heightPt }) => heightPt + gapPt);
  const ends = evenEnds(heights, Math.max(1, Math.min(count, entries.length)));
  const stacks = ends.map((end, i) => piled(entries.slice(i === 0 ? 0 : ends[i - 1], end), gapPt));
  const step = (widthPt + gutterPt) / count;
  return {
    parts: stacks.flatMap(({ parts }, column) =>
      parts.map((part) => ({ ...part, ops: opsAt(part.ops, column * step, 0) })),
    ),
    heightPt: Math.max(0, ...stacks.map(({ heightPt }) => heightPt)),
  };
}

/** Where to end each column so that the highest is as low as can be: the least height into which greedy filling fits them. */
function evenEnds(heights: readonly number[], count: number): number[] {
  let best = Number.POSITIVE_INFINITY;
  for (let from = 0; from < heights.length; from++) {
    for (let to = from, sum = 0; to < heights.length; to++) {
      sum += heights[to];
      if (sum < best && endsWithin(heights, sum).length <= count) best = sum;
    }
  }
  return endsWithin(heights, best);
}

function endsWithin(heights: readonly number[], most: number): number[] {
  const ends: number[] = [];
  let sum = 0;
  for (const [i, height] of heights.entries()) {
    if (i > 0 && sum + height > most + ROUNDING_PT) {
      ends.push(i);
      sum = 0;
    }
    sum += height;
  }
  return [...ends, heights.length];
}

const ROUNDING_PT = 1e-6;
