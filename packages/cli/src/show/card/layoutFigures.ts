import type { CardModel, ChartPicture } from './cardModel.js';
import type { Drawing } from './drawing.js';
import {
  baselineOf,
  block,
  type Group,
  opsAt,
  piled,
  read,
  type Stack,
  set,
  type Tools,
} from './layoutBlocks.js';
import type { Run } from './layoutText.js';
import { type Part, PT_PER_MM } from './page.js';

/** The roast from the side, as wide as the page, with the meaning of its letters above it. */
export function roastBlock(card: CardModel, tools: Tools, widthPt: number): Group {
  const { keyLabelPt, finePt } = tools.sizes;
  const { roast, legend } = card;
  const heading = set(tools, [{ text: 'The roast', weight: 600 }], { sizePt: keyLabelPt, widthPt });
  const indent = heading.widthPt + 1.6 * finePt;
  const letters = set(tools, legendRuns(legend), {
    sizePt: finePt,
    widthPt: widthPt - indent,
    align: 'right',
  });
  const drop = Math.max(0, baselineOf(heading) - baselineOf(letters));
  const top: Stack = {
    parts: [
      { role: 'heading', ops: heading.ops },
      { role: 'paragraph', ops: opsAt(letters.ops, indent, drop) },
    ],
    heightPt: Math.max(heading.heightPt, drop + letters.heightPt),
  };
  const scale = scaleTo(roast, widthPt, tools.sizes.roastPt);
  return block('roast', widthPt, piled([top, figure(roast, scale, widthPt)], 1));
}

/** `MR medium-rare`, the letter strong, unbroken; wider spaces between. */
function legendRuns(legend: readonly string[]): Run[] {
  return legend.flatMap((entry, i): Run[] => {
    const [letter, ...name] = entry.split(' ');
    const end = i < legend.length - 1 ? '\u00a0 ' : '';
    return [
      { text: letter, weight: 700 },
      { text: `\u00a0${name.join('\u00a0')}${end}`, weight: 400 },
    ];
  });
}

/** The cut face of the slice aimed at. */
export function sectionBlock(
  { section, sectionTitle }: CardModel,
  tools: Tools,
  widthPt: number,
): Group {
  const scale = scaleTo(section, widthPt, tools.sizes.sectionPt);
  return block(
    'section',
    widthPt,
    piled([caption(sectionTitle, tools, widthPt), figure(section, scale)], 1),
  );
}

/** Width the cut face takes at its height [pt]. */
export const sectionWidth = ({ section }: CardModel, { sizes }: Tools, most: number): number =>
  scaleTo(section, most, sizes.sectionPt) * section.widthMm * PT_PER_MM;

/** The form with most words whose words can be read at a width; the one with fewest where none can. */
export const chartFor = (charts: readonly ChartPicture[], widthPt: number): ChartPicture =>
  charts.find(({ leastWidthPt }) => leastWidthPt <= widthPt + ROUNDING_PT) ??
  charts[charts.length - 1];

const ROUNDING_PT = 1e-6;

/** Temperatures over time, as wide as told. */
export function chartBlock({ charts }: CardModel, tools: Tools, width: number): Group {
  const chart = chartFor(charts, width);
  const height = (width * chart.heightPx) / chart.widthPx;
  const picture: Stack = {
    parts: [
      {
        role: 'figure',
        alt: chart.alt,
        ops: [{ kind: 'picture', picture: chart, x: 0, y: 0, width, height }],
      },
    ],
    heightPt: height,
  };
  return block('chart', width, piled([caption('Temperatures', tools, width), picture], 1));
}

const caption = (text: string, tools: Tools, widthPt: number): Stack =>
  read('heading', set(tools, [{ text, weight: 600 }], { sizePt: tools.sizes.keyLabelPt, widthPt }));

/** As large as fits. */
function scaleTo({ widthMm, heightMm }: Drawing, widthPt: number, heightPt: number): number {
  return Math.min(widthPt / (widthMm * PT_PER_MM), heightPt / (heightMm * PT_PER_MM));
}

/** A drawing, in the middle of a width. */
function figure(drawing: Drawing, scale: number, widthPt?: number): Stack {
  const x = widthPt === undefined ? 0 : (widthPt - scale * drawing.widthMm * PT_PER_MM) / 2;
  const part: Part = {
    role: 'figure',
    alt: drawing.alt,
    ops: [{ kind: 'drawing', drawing, x, y: 0, scale }],
  };
  return { parts: [part], heightPt: scale * drawing.heightMm * PT_PER_MM };
}
