import type { CardModel } from './cardModel.js';
import { type GuestGroup, type GuestLine, guestGroups, guestLines } from './guestLines.js';
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
import { columns, GUTTER_EM } from './layoutColumns.js';
import type { Paragraph, Run } from './layoutText.js';

/** Who gets which slice: as a table in columns, or where names are long with the slice below the name; close, in one paragraph. */
export function guestsBlock(card: CardModel, tools: Tools, widthPt: number): Group | undefined {
  const { guests, units } = card;
  if (guests.length === 0) return undefined;
  const { bodyPt, keyLabelPt } = tools.sizes;
  const heading = read(
    'heading',
    set(tools, [{ text: 'Who gets which slice', weight: 600 }], { sizePt: keyLabelPt, widthPt }),
  );
  const list = tools.close
    ? read(
        'paragraph',
        set(tools, guestRuns(guestGroups(guests, units)), { sizePt: bodyPt, widthPt }),
      )
    : guestTable(guestLines(guests, units), tools, widthPt);
  return block('guests', widthPt, piled([heading, list], 0));
}

const MOST_COLUMNS = 3;
const WORTH_A_COLUMN = 0.85; // of the height: a column more breaks more lines

function guestTable(lines: readonly GuestLine[], tools: Tools, widthPt: number): Stack {
  const gutter = GUTTER_EM * tools.sizes.bodyPt;
  const counts = Array.from({ length: Math.min(MOST_COLUMNS, lines.length) }, (_, i) => i + 1);
  return counts
    .map((count) => {
      const width = (widthPt - (count - 1) * gutter) / count;
      return columns(guestEntries(lines, tools, width), count, widthPt, gutter, 0);
    })
    .reduce((best, other) => (other.heightPt < WORTH_A_COLUMN * best.heightPt ? other : best));
}

/** Bands strong, a slice and its guest unbroken. */
function guestRuns(groups: readonly GuestGroup[]): Run[] {
  return groups.flatMap(({ what, who }, i): Run[] => {
    const names = who.map((entry) => entry.replace(/^([\d to]+) /, '$1\u00a0')).join(', ');
    const end = i < groups.length - 1 ? '; ' : '';
    return [
      { text: `${what}: `, weight: 600 },
      { text: `${names}${end}`, weight: 400 },
    ];
  });
}

function guestEntries(lines: readonly GuestLine[], tools: Tools, widthPt: number): Stack[] {
  const sizePt = tools.sizes.bodyPt;
  const indent = 0.9 * sizePt;
  const line = (text: string, weight: 400 | 600, room: number): Paragraph =>
    set(tools, [{ text, weight }], { sizePt, widthPt: room });
  const names = lines.map(({ who }) => line(who, 600, widthPt));
  const slices = lines.map(({ what }) => line(what, 400, widthPt - indent));
  const tab = Math.max(...names.map((name) => name.widthPt)) + sizePt;
  const table =
    tab + Math.max(...slices.map((slice) => slice.widthPt)) <= widthPt &&
    slices.every((slice) => slice.lines === 1);
  return lines.map(({ who, what: gets }, i): Stack => {
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
        { text: `${who} `, weight: 600 },
        { text: gets, weight: 400 },
      ],
      { sizePt, widthPt, hangPt: indent },
    );
    if (runIn.lines < name.lines + what.lines) return read('paragraph', runIn);
    const ops = [...name.ops, ...opsAt(what.ops, indent, name.heightPt)];
    return { parts: [{ role: 'paragraph', ops }], heightPt: name.heightPt + what.heightPt };
  });
}
