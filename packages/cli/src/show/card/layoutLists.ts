import type { CardModel } from './cardModel.js';
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
import { columns, columnsOf, GUTTER_EM } from './layoutColumns.js';
import { firstBaseline, type Run } from './layoutText.js';
import type { Op, Part } from './page.js';

/** Salt, twine, rest, leftovers: in columns, the label strong; close, one after the other. */
export function factsBlock({ facts }: CardModel, tools: Tools, widthPt: number): Group | undefined {
  if (facts.length === 0) return undefined;
  const { bodyPt } = tools.sizes;
  if (tools.close) {
    const runs = facts.flatMap(({ label, text }, i): Run[] => [
      { text: `${label} `, weight: 700 },
      { text: i < facts.length - 1 ? `${text}; ` : text, weight: 400 },
    ]);
    return block(
      'facts',
      widthPt,
      read('paragraph', set(tools, runs, { sizePt: bodyPt, widthPt })),
    );
  }
  const { count, width } = columnsOf(widthPt, bodyPt);
  const entries = facts.map(({ label, text }) =>
    read(
      'paragraph',
      set(
        tools,
        [
          { text: `${label} `, weight: 700 },
          { text, weight: 400 },
        ],
        { sizePt: bodyPt, widthPt: width, hangPt: 0.9 * bodyPt },
      ),
    ),
  );
  return block(
    'facts',
    widthPt,
    columns(entries, count, widthPt, GUTTER_EM * bodyPt, 0.15 * bodyPt),
  );
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

/** The usual cautions, in two columns; close, one after the other. */
export function cautionsBlock(
  { cautions }: CardModel,
  tools: Tools,
  widthPt: number,
): Group | undefined {
  if (cautions.length === 0) return undefined;
  const { finePt, keyLabelPt } = tools.sizes;
  if (tools.close) {
    const runs: Run[] = [
      { text: 'Take care ', weight: 600 },
      { text: cautions.map((text) => `–\u00a0${text}`).join(' '), weight: 400 },
    ];
    return block(
      'cautions',
      widthPt,
      read('paragraph', set(tools, runs, { sizePt: finePt, widthPt })),
    );
  }
  const { count, width } = columnsOf(widthPt, finePt);
  const entries = cautions.map((text): Stack => {
    const indent = HANG_EM * finePt;
    const words = set(tools, [{ text, weight: 400 }], { sizePt: finePt, widthPt: width - indent });
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
    piled([heading, columns(entries, count, widthPt, GUTTER_EM * finePt, 0.1 * finePt)], 0),
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
