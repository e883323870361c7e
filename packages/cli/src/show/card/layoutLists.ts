import type { CardGuest, CardModel } from './cardModel.js';
import {
  block,
  type Group,
  opsAt,
  piled,
  read,
  type Stack,
  set,
  type Tools,
} from './layoutBlocks.js';
import { firstBaseline, type Paragraph } from './layoutText.js';
import type { Op, Part } from './page.js';

/** Salt, twine, rest, leftovers: in columns, the label strong. */
export function factsBlock({ facts }: CardModel, tools: Tools, widthPt: number): Group | undefined {
  if (facts.length === 0) return undefined;
  const { bodyPt } = tools.sizes;
  const columnWidth = columnOf(widthPt, bodyPt, NARROWEST_EM * bodyPt);
  const entries = facts.map(({ label, text }) =>
    read(
      'paragraph',
      set(
        tools,
        [
          { text: `${label} `, weight: 700 },
          { text, weight: 400 },
        ],
        { sizePt: bodyPt, widthPt: columnWidth, hangPt: 0.9 * bodyPt },
      ),
    ),
  );
  return block('facts', widthPt, columns(entries, columnWidth, widthPt, 0.15 * bodyPt));
}

/** Who gets which slice: as a table, or where names are long with the slice below the name. */
export function guestsBlock(
  { guests }: CardModel,
  tools: Tools,
  widthPt: number,
): Group | undefined {
  if (guests.length === 0) return undefined;
  const { bodyPt, keyLabelPt } = tools.sizes;
  const gutter = GUTTER_EM * bodyPt;
  const widths = guests.length > 3 ? [widthPt, (widthPt - gutter) / 2] : [widthPt];
  const lists = widths.map((width) =>
    columns(guestEntries(guests, tools, width), width, widthPt, 0),
  );
  const list = lists.reduce((best, other) => (other.heightPt < best.heightPt ? other : best));
  const heading = read(
    'heading',
    set(tools, [{ text: 'Who gets which slice', weight: 600 }], { sizePt: keyLabelPt, widthPt }),
  );
  return block('guests', widthPt, piled([heading, list], 0));
}

function guestEntries(guests: readonly CardGuest[], tools: Tools, widthPt: number): Stack[] {
  const sizePt = tools.sizes.bodyPt;
  const indent = 0.9 * sizePt;
  const line = (text: string, weight: 400 | 600, room: number): Paragraph =>
    set(tools, [{ text, weight }], { sizePt, widthPt: room });
  const names = guests.map(({ guest }) => line(guest, 600, widthPt));
  const slices = guests.map(({ slice }) => line(slice, 400, widthPt - indent));
  const tab = Math.max(...names.map((name) => name.widthPt)) + sizePt;
  const table =
    tab + Math.max(...slices.map((slice) => slice.widthPt)) <= widthPt &&
    slices.every(({ lines }) => lines === 1);
  return guests.map(({ guest, slice }, i): Stack => {
    const [name, what] = [names[i], slices[i]];
    if (
      table ||
      (name.lines === 1 && name.widthPt + sizePt + what.widthPt <= widthPt && what.lines === 1)
    ) {
      const ops = [...name.ops, ...opsAt(what.ops, table ? tab : name.widthPt + sizePt, 0)];
      return { parts: [{ role: 'paragraph', ops }], heightPt: name.heightPt };
    }
    const runIn = set(
      tools,
      [
        { text: `${guest} `, weight: 600 },
        { text: slice, weight: 400 },
      ],
      { sizePt, widthPt, hangPt: indent },
    );
    if (runIn.lines < name.lines + what.lines) return read('paragraph', runIn);
    const ops = [...name.ops, ...opsAt(what.ops, indent, name.heightPt)];
    return { parts: [{ role: 'paragraph', ops }], heightPt: name.heightPt + what.heightPt };
  });
}

const MARK_EM = 1.1; // side of the square with the exclamation mark
const MARK_UP_EM = 0.88; // its top above the baseline: half of it is above the middle of a capital

/** Warnings of this plan, each with a mark that nobody overlooks. */
export function noticesBlock(
  { notices }: CardModel,
  tools: Tools,
  widthPt: number,
): Group | undefined {
  if (notices.length === 0) return undefined;
  const { bodyPt, leading } = tools.sizes;
  const side = MARK_EM * bodyPt;
  const indent = side + 0.6 * bodyPt;
  const baseline = firstBaseline(bodyPt, leading);
  const mark = tools.measure('!', 700) * bodyPt;
  const entries = notices.map((text): Stack => {
    const words = read(
      'paragraph',
      set(tools, [{ text, weight: 600 }], { sizePt: bodyPt, widthPt: widthPt - indent }),
      indent,
    );
    const sign: Part = {
      role: 'ornament',
      ops: [
        {
          kind: 'box',
          x: 0,
          y: baseline - MARK_UP_EM * bodyPt,
          width: side,
          height: side,
          ink: 'accent',
        },
        {
          kind: 'text',
          text: '!',
          x: (side - mark) / 2,
          baseline,
          sizePt: bodyPt,
          weight: 700,
          ink: 'paper',
        },
      ],
    };
    return { parts: [sign, ...words.parts], heightPt: words.heightPt };
  });
  return block('notices', widthPt, piled(entries, 0.3 * bodyPt));
}

const HANG_EM = 0.85;

/** The usual cautions, in two columns. */
export function cautionsBlock(
  { cautions }: CardModel,
  tools: Tools,
  widthPt: number,
): Group | undefined {
  if (cautions.length === 0) return undefined;
  const { finePt, keyLabelPt } = tools.sizes;
  const columnWidth = columnOf(widthPt, finePt, NARROWEST_EM * finePt);
  const entries = cautions.map((text): Stack => {
    const indent = HANG_EM * finePt;
    const words = set(tools, [{ text, weight: 400 }], {
      sizePt: finePt,
      widthPt: columnWidth - indent,
    });
    const dash = set(tools, [{ text: '–', weight: 400 }], { sizePt: finePt, widthPt: indent });
    return {
      parts: [
        { role: 'ornament', ops: dash.ops },
        { role: 'paragraph', ops: opsAt(words.ops, indent, 0) },
      ],
      heightPt: words.heightPt,
    };
  });
  const heading = read(
    'heading',
    set(tools, [{ text: 'Take care', weight: 600 }], { sizePt: keyLabelPt, widthPt }),
  );
  return block(
    'cautions',
    widthPt,
    piled([heading, columns(entries, columnWidth, widthPt, 0.1 * finePt)], 0),
  );
}

/** The shop's last line. */
export function footerBlock({ shop }: CardModel, tools: Tools, widthPt: number): Group | undefined {
  if (shop?.footer === undefined) return undefined;
  const { finePt } = tools.sizes;
  const rule: Op = { kind: 'box', x: 0, y: 0, width: widthPt, height: 0.5, ink: 'hairline' };
  const words = set(tools, [{ text: shop.footer, weight: 400 }], { sizePt: finePt, widthPt });
  return block('footer', widthPt, {
    parts: [
      { role: 'ornament', ops: [rule] },
      { role: 'paragraph', ops: opsAt(words.ops, 0, 2) },
    ],
    heightPt: words.heightPt + 2,
  });
}

const GUTTER_EM = 2;
const NARROWEST_EM = 17; // of a column; about 36 characters

/** Width of a column: half of what there is, or all of it where halves would be narrow. */
function columnOf(widthPt: number, sizePt: number, narrowestPt: number): number {
  const half = (widthPt - GUTTER_EM * sizePt) / 2;
  return half >= narrowestPt ? half : widthPt;
}

/** Entries in one column, or in two as even as their order allows. */
function columns(
  entries: readonly Stack[],
  columnWidth: number,
  widthPt: number,
  gapPt: number,
): Stack {
  const whole = piled(entries, gapPt);
  if (columnWidth >= widthPt || entries.length < 2) return whole;
  let best: readonly [Stack, Stack] | undefined;
  let bestHeight = Number.POSITIVE_INFINITY;
  for (let count = 1; count < entries.length; count++) {
    const halves = [
      piled(entries.slice(0, count), gapPt),
      piled(entries.slice(count), gapPt),
    ] as const;
    const height = Math.max(halves[0].heightPt, halves[1].heightPt);
    if (height < bestHeight) [best, bestHeight] = [halves, height];
  }
  if (best === undefined) return whole;
  const [left, right] = best;
  return {
    parts: [
      ...left.parts,
      ...right.parts.map((part) => ({ ...part, ops: opsAt(part.ops, widthPt - columnWidth, 0) })),
    ],
    heightPt: bestHeight,
  };
}
