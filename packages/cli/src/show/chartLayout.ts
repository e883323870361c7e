import type { SKRSContext2D } from '@napi-rs/canvas';
import type { ChartModel, ChartStage } from './chartModel.js';
import { CHART_SIZE, EDGE, FONTS, GAP, labelFont, NOTICE_LINE } from './chartStyle.js';
import { spread } from './spread.js';

/** Room round the plot and its axes [CSS pixels]. */
export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly noticeLines: readonly string[];
  readonly stages: readonly PlacedStage[];
}

/** A stage's name where it goes: in its own stretch, or raised above it where that is too narrow. */
export interface PlacedStage {
  readonly stage: ChartStage;
  readonly name: string;
  readonly raisedX?: number;
}

const TICK_ROOM = 46; // left of the plot, for the temperatures
/** Below the plot, for ticks and their title [CSS pixels]. */
export const MINUTES_ROOM = 44;
/** Baselines of the head, and room for the stages' names below it [CSS pixels]. */
export const HEAD = { title: 34, subtitle: 54, stages: 74, raised: 18, twoLines: 34 } as const;

/** Measures all words and leaves them room. */
export function marginsOf(ctx: SKRSContext2D, model: ChartModel): Margins {
  const width = (text: string, of: string): number => {
    ctx.font = of;
    return ctx.measureText(text).width;
  };
  const lines = [...model.meat.lines, ...(model.around?.lines ?? [])];
  const labels = Math.max(
    ...lines.map(({ label, kind }) => width(label, labelFont(kind))),
    ...model.marks.flatMap(({ text, more }) => [
      width(text, FONTS.strong),
      width(more, FONTS.small),
    ]),
  );
  const bands = Math.max(...model.stripes.map(({ name }) => width(name, FONTS.strong)));
  const left = EDGE + TICK_ROOM;
  const labelsTo = CHART_SIZE.width - EDGE - bands - 3 * GAP;
  const right = CHART_SIZE.width - (labelsTo - labels - 2 * GAP);
  const stages = placeStages(model, left, CHART_SIZE.width - right, width);
  const raised = stages.some(({ raisedX }) => raisedX !== undefined);
  const noticeLines =
    model.notice === undefined
      ? []
      : wrapped(model.notice, CHART_SIZE.width - 2 * EDGE, (text) => width(text, FONTS.small));
  return {
    left,
    right,
    top: HEAD.stages + (raised ? HEAD.raised : 0) + HEAD.twoLines,
    bottom: EDGE / 2 + NOTICE_LINE * noticeLines.length,
    noticeLines,
    stages,
  };
}

function placeStages(
  { stages, minutes }: ChartModel,
  left: number,
  right: number,
  width: (text: string, font: string) => number,
): PlacedStage[] {
  const x = (at: number): number => left + ((right - left) * at) / minutes.to;
  const found: PlacedStage[] = stages.map((stage) => {
    const room = x(stage.to) - x(stage.from) - GAP;
    const name = stage.names.find(
      (candidate) =>
        Math.max(width(candidate, FONTS.strong), width(stage.length, FONTS.small)) <= room,
    );
    return name === undefined
      ? { stage, name: `${stage.names[0]}, ${stage.length}`, raisedX: 0 }
      : { stage, name };
  });
  const raised = found.filter(({ raisedX }) => raisedX !== undefined);
  const middles = spread(
    raised.map(({ stage, name }) => ({
      at: x((stage.from + stage.to) / 2),
      length: width(name, FONTS.text) + 2 * GAP,
    })),
    left,
    CHART_SIZE.width - EDGE,
  );
  return found.map((placed) => {
    const index = raised.indexOf(placed);
    return index < 0 ? placed : { ...placed, raisedX: middles[index] };
  });
}

/** Words in lines no wider than `room`. */
function wrapped(text: string, room: number, width: (text: string) => number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && width(`${last} ${word}`) <= room) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(word);
  }
  return lines;
}
