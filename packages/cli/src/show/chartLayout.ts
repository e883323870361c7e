import type { SKRSContext2D } from '@napi-rs/canvas';
import type { ChartModel, ChartStage } from './chartModel.js';
import { type ChartStyle, labelFont } from './chartStyle.js';
import { spread } from './spread.js';

/** Room round the plot and its axes [CSS pixels]. */
export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** Widest name of a band. */
  readonly bands: number;
  readonly noticeLines: readonly string[];
  readonly stages: readonly PlacedStage[];
}

/** A stage's name where it goes: in its own stretch, or raised above it where that is too narrow; none where it has no room. */
export interface PlacedStage {
  readonly stage: ChartStage;
  readonly name?: string;
  readonly raisedX?: number;
}

/** Width of a text in a font [CSS pixels]. */
type Measure = (text: string, font: string) => number;

/** Measures all words and leaves them room. */
export function marginsOf(ctx: SKRSContext2D, model: ChartModel, style: ChartStyle): Margins {
  const measure: Measure = (text, font) => {
    ctx.font = font;
    return ctx.measureText(text).width;
  };
  const { edge, gap, fonts, width } = style;
  const lines = [...model.meat.lines, ...(model.around?.lines ?? [])];
  const labels = style.lineNames
    ? 2 * gap + Math.max(...lines.map(({ label, kind }) => measure(label, labelFont(kind, fonts))))
    : 0;
  const marks = Math.max(
    ...model.marks.flatMap(({ text, more = '' }) => [
      measure(text, fonts.strong),
      measure(more, fonts.small),
    ]),
  );
  const bands = Math.max(...model.stripes.map(({ name }) => measure(name, fonts.strong)));
  const left = edge + style.tickRoom;
  const bandsFrom =
    width - edge - (style.bandColumns === 0 ? 0 : 2 * gap + style.bandColumns * (bands + gap));
  const { minutesTitle } = style;
  const unit =
    minutesTitle.at === 'below' ? 0 : minutesTitle.gap + measure(minutesTitle.text, fonts.small);
  const plotTo = Math.min(
    bandsFrom - labels,
    width - edge - unit,
    // a mark at the end of the plot stands below the names of the bands
    style.marksAt === 'foot' ? width - edge - gap - marks : Number.POSITIVE_INFINITY,
  );
  const right = width - plotTo;
  const stages = placeStages(model, left, plotTo, style, measure);
  const raised = stages.some(({ raisedX }) => raisedX !== undefined);
  const notice = model.head?.notice;
  const noticeLines =
    notice === undefined
      ? []
      : wrapped(notice, width - 2 * edge, (text) => measure(text, fonts.small));
  return {
    left,
    right,
    top: style.stages.top + (raised ? style.stages.raised : 0) + style.stages.room,
    bottom: edge / 2 + style.line * noticeLines.length,
    bands,
    noticeLines,
    stages,
  };
}

function placeStages(
  { stages, minutes }: ChartModel,
  left: number,
  right: number,
  { fonts, gap, edge, width }: ChartStyle,
  measure: Measure,
): PlacedStage[] {
  const x = (at: number): number => left + ((right - left) * at) / minutes.to;
  const found: PlacedStage[] = stages.map((stage) => {
    const room = x(stage.to) - x(stage.from) - gap;
    const { length = '' } = stage;
    const name = stage.names.find(
      (candidate) =>
        Math.max(measure(candidate, fonts.strong), measure(length, fonts.small)) <= room,
    );
    if (name !== undefined) return { stage, name };
    return { stage, name: [stage.names[0], length].filter(Boolean).join(', '), raisedX: 0 };
  });
  const raised = found.filter(({ raisedX }) => raisedX !== undefined);
  const lengthOf = ({ name = '' }: PlacedStage): number => measure(name, fonts.text) + 2 * gap;
  const lasts = ({ stage }: PlacedStage): number => stage.to - stage.from;
  const total = (): number => raised.reduce((sum, placed) => sum + lengthOf(placed), 0);
  while (total() > width - edge - left) {
    const shortest = raised.reduce((a, b) => (lasts(b) < lasts(a) ? b : a));
    raised.splice(raised.indexOf(shortest), 1);
  }
  const middles = spread(
    raised.map((placed) => ({
      at: x((placed.stage.from + placed.stage.to) / 2),
      length: lengthOf(placed),
    })),
    left,
    width - edge,
  );
  return found.map((placed) => {
    if (placed.raisedX === undefined) return placed;
    const index = raised.indexOf(placed);
    return index < 0 ? { stage: placed.stage } : { ...placed, raisedX: middles[index] };
  });
}

/** Words in lines no wider than `room`. */
export function wrapped(text: string, room: number, width: (text: string) => number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && width(`${last} ${word}`) <= room) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(word);
  }
  return lines;
}
