import type { Sizes } from './layoutSizes.js';
import type { Paragraph, Run, Setting, Typesetter } from './layoutText.js';
import {
  type Block,
  type BlockName,
  type Measure,
  moved,
  type Op,
  type Part,
  type Role,
} from './page.js';

/** What the blocks of a card are built with. */
export interface Tools {
  readonly sizes: Sizes;
  readonly measure: Measure;
  readonly typeset: Typesetter;
  /** Whether lists run on in paragraphs: fewer lines, harder to look through. */
  readonly close: boolean;
}

/** A paragraph in the fonts and the leading of the card. */
export const set = (
  { typeset, sizes }: Tools,
  runs: readonly Run[],
  setting: Omit<Setting, 'leading'>,
): Paragraph => typeset(runs, { leading: sizes.leading, ...setting });

/** Of the first line of a paragraph. */
export const baselineOf = ({ ops }: Paragraph): number =>
  ops[0]?.kind === 'text' ? ops[0].baseline : 0;

/** Parts at the origin and the height they take. */
export interface Stack {
  readonly parts: readonly Part[];
  readonly heightPt: number;
}

/** A paragraph as a part to be read out. */
export const read = (role: Role, { ops, heightPt }: Paragraph, dx = 0): Stack => ({
  parts: [{ role, ops: opsAt(ops, dx, 0) }],
  heightPt,
});

/** Stacks below each other. */
export function piled(stacks: readonly Stack[], gapPt: number): Stack {
  const parts: Part[] = [];
  let y = 0;
  for (const [i, stack] of stacks.entries()) {
    if (i > 0) y += gapPt;
    parts.push(...partsAt(stack.parts, 0, y));
    y += stack.heightPt;
  }
  return { parts, heightPt: y };
}

/** Blocks at the origin, beside or below each other. */
export interface Group {
  readonly blocks: readonly Block[];
  readonly heightPt: number;
}

/** One block as a group. */
export const block = (name: BlockName, width: number, { parts, heightPt }: Stack): Group => ({
  blocks: [{ name, x: 0, y: 0, width, height: heightPt, parts }],
  heightPt,
});

/** Groups beside each other, their tops level. */
export const abreast = (
  columns: readonly (readonly [x: number, group: Group | undefined])[],
): Group => ({
  blocks: columns.flatMap(([x, group]) =>
    (group?.blocks ?? []).map((placed) => blockAt(placed, x, 0)),
  ),
  heightPt: Math.max(0, ...columns.map(([, group]) => group?.heightPt ?? 0)),
});

/** Groups below each other. */
export function below(groups: readonly Group[], gapPt: number): Group {
  const blocks: Block[] = [];
  let y = 0;
  for (const [i, group] of groups.entries()) {
    if (i > 0) y += gapPt;
    blocks.push(...group.blocks.map((placed) => blockAt(placed, 0, y)));
    y += group.heightPt;
  }
  return { blocks, heightPt: y };
}

/** A block elsewhere, with all it holds. */
export const blockAt = (placed: Block, dx: number, dy: number): Block => ({
  ...placed,
  x: placed.x + dx,
  y: placed.y + dy,
  parts: partsAt(placed.parts, dx, dy),
});

/** Things elsewhere. */
export const opsAt = (ops: readonly Op[], dx: number, dy: number): readonly Op[] =>
  dx === 0 && dy === 0 ? ops : ops.map((op) => moved(op, dx, dy));

const partsAt = (parts: readonly Part[], dx: number, dy: number): Part[] =>
  parts.map((part) => ({ ...part, ops: opsAt(part.ops, dx, dy) }));
