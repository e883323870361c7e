import type { CardModel } from './cardModel.js';
import {
  baselineOf,
  block,
  type Group,
  opsAt,
  piled,
  type Stack,
  set,
  type Tools,
} from './layoutBlocks.js';
import type { Op, Part } from './page.js';

const BAR_PT = 2.6; // beside the pull
const RULE_PT = 0.4;
const SLACK_PT = 0.3; // a space that must not break may be wider than one that may
const MOST_OF_WIDTH = 0.25; // for the clock, and for the minutes

/** The timetable: when by the clock, when since the refrigerator, what to do. */
export function stepsBlock({ steps }: CardModel, tools: Tools, widthPt: number): Group {
  const { stepPt, stepPad } = tools.sizes;
  const { measure } = tools;
  const clocks = steps.map(({ clock }) => clock ?? '');
  const minutes = steps.map((step) => `${step.minutes} min`);
  const widest = (texts: readonly string[]): number =>
    Math.min(
      MOST_OF_WIDTH * widthPt,
      Math.max(...texts.map((text) => Math.max(measure(text, 400), measure(text, 700)))) * stepPt +
        SLACK_PT,
    );
  const indent = BAR_PT + 0.45 * stepPt;
  const gap = 0.75 * stepPt;
  const [clockRoom, minutesRoom] = [widest(clocks), widest(minutes)];
  const clockWidth = clocks.some((text) => text !== '') ? clockRoom + gap : 0;
  const minutesEnd = indent + clockWidth + minutesRoom;
  const textX = minutesEnd + gap;
  const pad = stepPad * stepPt;
  const rows = steps.map(({ strong, text }, i): Stack => {
    const weight = strong ? 700 : 400;
    const words = set(tools, [{ text, weight }], { sizePt: stepPt, widthPt: widthPt - textX });
    const [clock, minute] = [clocks[i], minutes[i]].map((short, column) =>
      set(
        tools,
        [{ text: short, weight: strong ? 700 : column === 0 || clockWidth === 0 ? 600 : 400 }],
        {
          sizePt: stepPt,
          widthPt: column === 0 ? clockRoom : minutesRoom,
        },
      ),
    );
    const heightPt = Math.max(words.heightPt, clock.heightPt, minute.heightPt) + 2 * pad;
    const ground: Op[] = strong
      ? [
          { kind: 'box', x: 0, y: 0, width: widthPt, height: heightPt, ink: 'tint' },
          { kind: 'box', x: 0, y: 0, width: BAR_PT, height: heightPt, ink: 'accent' },
        ]
      : [];
    const rule: Op[] =
      i === 0
        ? []
        : [{ kind: 'box', x: 0, y: 0, width: widthPt, height: RULE_PT, ink: 'hairline' }];
    return {
      parts: [
        { role: 'ornament', ops: [...ground, ...rule] },
        {
          role: 'paragraph',
          ops: [
            ...opsAt(clock.ops, indent, pad),
            ...opsAt(minute.ops, minutesEnd - minute.widthPt, pad),
            ...opsAt(words.ops, textX, pad),
          ],
        },
      ],
      heightPt,
    };
  });
  return block('steps', widthPt, piled([stepsHeading(tools, widthPt), ...rows], 0));
}

/** What the list is, and where its minutes start. */
function stepsHeading(tools: Tools, widthPt: number): Stack {
  const { keyLabelPt, finePt } = tools.sizes;
  const title = set(tools, [{ text: 'Timetable', weight: 600 }], { sizePt: keyLabelPt, widthPt });
  const indent = title.widthPt + 0.8 * finePt;
  const remark = set(tools, [{ text: 'minutes since the refrigerator', weight: 400 }], {
    sizePt: finePt,
    widthPt: widthPt - indent,
  });
  const parts: Part[] = [
    { role: 'heading', ops: title.ops },
    { role: 'paragraph', ops: opsAt(remark.ops, indent, baselineOf(title) - baselineOf(remark)) },
  ];
  return { parts, heightPt: title.heightPt };
}
