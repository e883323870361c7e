import type { CardModel } from './cardModel.js';
import { baselineOf, block, type Group, opsAt, set, type Tools } from './layoutBlocks.js';
import type { Op, Part } from './page.js';

const RULE_PT = 1.4; // above and below
const HAIRLINE_PT = 0.6; // between
const SMALLEST_VALUE_PT = 14;
const LEAST_SHARE = 0.26; // of the width, for each number
/** Digits rise this much above their line [em]; nothing in a value goes below it but a comma. From the font. */
const DIGIT_RISE = 0.69;
const VALUE_DROP = 0.17;
const LABEL_GAP = 0.1; // below the label, times the size of the number

/** The three numbers a card is read for, in the largest print of the page; the pull alone in the accent. */
export function keysBlock({ keys }: CardModel, tools: Tools, widthPt: number): Group {
  const { sizes, measure } = tools;
  const pad = 0.9 * sizes.bodyPt;
  const inner = widthPt - 4 * pad;
  const em = keys.map(({ value }) => measure(value, 700));
  const widths = shares(em).map((share) => share * inner);
  const valuePt = Math.max(
    SMALLEST_VALUE_PT,
    Math.min(sizes.keyValuePt, ...em.map((width, i) => widths[i] / width)),
  );
  const top = RULE_PT + 0.3 * pad;
  let x = 0;
  const cells = keys.map(({ label, value, detail }, i) => {
    const width = widths[i];
    const [labelSet, valueSet, detailSet] = [
      set(tools, [{ text: label, weight: 600 }], { sizePt: sizes.keyLabelPt, widthPt: width }),
      set(tools, [{ text: value, weight: 700, ink: i === 2 ? 'accent' : 'text' }], {
        sizePt: valuePt,
        widthPt: width,
      }),
      set(tools, [{ text: detail, weight: 400 }], { sizePt: sizes.keyDetailPt, widthPt: width }),
    ];
    const left = x;
    x += width + 2 * pad;
    return { left, labelSet, valueSet, detailSet };
  });
  const highest = (heights: readonly number[]): number => Math.max(...heights);
  const labelHeight = highest(cells.map(({ labelSet }) => labelSet.heightPt));
  const valueTop = top + labelHeight + LABEL_GAP * valuePt;
  const valueLines = highest(cells.map(({ valueSet }) => valueSet.lines));
  const lineHeight = sizes.leading * valuePt;
  const valueHeight = (valueLines - 1) * lineHeight + (DIGIT_RISE + VALUE_DROP) * valuePt;
  const detailTop = valueTop + valueHeight;
  const detailHeight = highest(cells.map(({ detailSet }) => detailSet.heightPt));
  const heightPt = detailTop + detailHeight + 0.4 * pad + RULE_PT;
  const words = cells.map(({ left, labelSet, valueSet, detailSet }): Part => {
    const up = baselineOf(valueSet) - DIGIT_RISE * valuePt;
    return {
      role: 'paragraph',
      ops: [
        ...opsAt(labelSet.ops, left, top),
        ...opsAt(valueSet.ops, left, valueTop - up),
        ...opsAt(detailSet.ops, left, detailTop),
      ],
    };
  });
  return block('keys', widthPt, {
    parts: [{ role: 'ornament', ops: rules(cells.slice(1), widthPt, heightPt, pad) }, ...words],
    heightPt,
  });
}

/** Shares of the width by what each number needs, none below the least. */
function shares(needs: readonly number[]): number[] {
  const free = 1 - LEAST_SHARE * needs.length;
  const total = needs.reduce((sum, need) => sum + need, 0);
  return needs.map((need) => LEAST_SHARE + (free * need) / total);
}

function rules(
  cells: readonly { readonly left: number }[],
  width: number,
  height: number,
  pad: number,
): Op[] {
  return [
    { kind: 'box', x: 0, y: 0, width, height: RULE_PT, ink: 'text' },
    { kind: 'box', x: 0, y: height - RULE_PT, width, height: RULE_PT, ink: 'text' },
    ...cells.map(
      ({ left }): Op => ({
        kind: 'box',
        x: left - pad - HAIRLINE_PT / 2,
        y: RULE_PT,
        width: HAIRLINE_PT,
        height: height - 2 * RULE_PT,
        ink: 'text',
      }),
    ),
  ];
}
