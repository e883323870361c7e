import {
  fahrenheit,
  type History,
  type Plan,
  seriesAt,
  stationsAround,
  temperatureText,
  upperEdge,
  type WarningCode,
} from '@roastsim/core';
import type { ChartAxis, ChartPoint } from './chartModel.js';
import {
  aimText,
  type Comparison,
  hoursText,
  isCooked,
  letterOf,
  warningsSaid,
  wayLine,
} from './comparison.js';
import { aimedPlaceMm } from './planDocument.js';
import { roastTitle } from './text.js';

/** The centre of a way, or of one of its two pieces, over time. */
export interface WayLine {
  /** Place of the way, which decides the stroke. */
  readonly way: number;
  /** `A`, or `E1` and `E2` for pieces. */
  readonly mark: string;
  readonly points: readonly ChartPoint[];
  readonly pull: ChartPoint;
}

/** What stands beside the plot for each way. */
export interface WayLegend {
  readonly way: number;
  readonly letter: string;
  /** The way's name, else its stage line without what a line may leave out. */
  readonly name: string;
  readonly named: boolean;
  readonly lines: readonly string[];
}

/** Everything a chart of ways shows, computed; temperatures in printed units, times in minutes since the refrigerator. */
export interface CompareChartModel {
  readonly title: string;
  readonly subtitle: string;
  /** Warnings about all ways, and those that meat stays below guidance. */
  readonly notices: readonly string[];
  readonly unit: '°C' | '°F';
  readonly minutes: ChartAxis;
  readonly temperature: ChartAxis;
  /** The band aimed at. */
  readonly band: { readonly name: string; readonly from: number; readonly to: number };
  readonly lines: readonly WayLine[];
  readonly legend: readonly WayLegend[];
}

/** Warnings that stand on the chart whichever ways they are about. */
const GUIDANCE: readonly WarningCode[] = ['below-guidance', 'fold-below-guidance'];

/** Of a roast cut in two, from its first end. */
const PIECES = ['thick', 'thin'] as const;

const MOST_POINTS = 400; // of a line: one on each pixel or so
const MINUTE_STEPS = [5, 10, 15, 20, 30, 60, 120, 180, 240, 480] as const;
const MOST_TICKS = 12;
const AXES = { metric: { step: 10, above: 5 }, us: { step: 20, above: 10 } } as const;

/** What a chart of ways shows. */
export function compareChartModel(comparison: Comparison): CompareChartModel {
  const { roast, aim, ways, units } = comparison;
  const printed = (tempC: number): number => (units === 'us' ? fahrenheit(tempC) : tempC);
  const lines = ways.flatMap((way, i): WayLine[] =>
    isCooked(way)
      ? way.pieces.map(({ plan }, piece) => ({
          way: i,
          mark: `${letterOf(i)}${way.pieces.length > 1 ? piece + 1 : ''}`,
          points: centre(plan, printed),
          pull: { x: plan.pull.atMinutes, y: printed(plan.pull.centreC) },
        }))
      : [],
  );
  const all = lines.flatMap(({ points }) => points);
  const { step, above } = AXES[units];
  const ends = (of: (point: ChartPoint) => number): number[] => all.map(of);
  const longest = Math.max(1, ...ends(({ x }) => x));
  const hottest = Math.max(printed(aim.targetC), ...ends(({ y }) => y)) + above;
  const coldest = Math.min(printed(roast.startC), ...ends(({ y }) => y));
  const temperature = {
    from: step * Math.floor(coldest / step),
    to: step * Math.ceil(hottest / step),
    step,
  };
  const within = (tempC: number): number =>
    Math.min(temperature.to, Math.max(temperature.from, printed(tempC)));
  const { bands } = aim.scale;
  const cooked = ways.filter(isCooked).length;
  const notices = warningsSaid(comparison).filter(
    ({ code, letters }) => GUIDANCE.includes(code) || letters.length === cooked,
  );
  return {
    title: roastTitle({ roast }, units),
    subtitle: `Centres of ${ways.length} ways; wanted ${aimText(comparison)} (scale: ${aim.scale.name})`,
    notices: notices.map(({ letters, text }) => `${letters.join(', ')}: ${text}`),
    unit: units === 'us' ? '°F' : '°C',
    minutes: {
      from: 0,
      to: longest,
      step: MINUTE_STEPS.find((minutes) => longest / minutes <= MOST_TICKS) ?? 480,
    },
    temperature,
    band: {
      name: aim.band.name,
      from: within(aim.band.fromC),
      to: within(upperEdge(aim.scale, bands.indexOf(aim.band))),
    },
    lines,
    legend: ways.map((way, i) => ({
      way: i,
      letter: letterOf(i),
      name: way.way.name === '' ? shortLine(wayLine(way.way, comparison)) : way.way.name,
      named: way.way.name !== '',
      lines: isCooked(way)
        ? [
            ...way.pieces.map(({ plan: { pull } }, piece) => {
              const which =
                way.pieces.length > 1 ? `${letterOf(i)}${piece + 1}, ${PIECES[piece]}: ` : '';
              return `${which}pull ${temperatureText(pull.centreC, units)} after ${hoursText(pull.minutes)} h`;
            }),
            `${hoursText(way.figures.totalMinutes)} h in all`,
          ]
        : ['cannot be done'],
    })),
  };
}

/** A line without the words that say what is so anyway. */
const shortLine = (line: string): string => line.replace(/ (?:to pull|foil)(?=,|$)/g, '');

/** The aimed-at axis of a plan. */
function centre(plan: Plan, printed: (tempC: number) => number): ChartPoint[] {
  const { history } = plan;
  const at = stationsAround(history.body, aimedPlaceMm(plan));
  return drawnRows(history, plan).map((row) => ({
    x: history.seconds[row] / 60,
    y: printed(seriesAt(history.axisC, history.body.body.stations, row, at)),
  }));
}

/** Rows so far apart that none lies on its neighbour, the pull, the peak and the end among them. */
function drawnRows({ seconds, rows }: History, { pull, peak }: Plan): number[] {
  const apartS = seconds[rows - 1] / MOST_POINTS;
  const drawn: number[] = [];
  let nextS = 0;
  for (let row = 0; row < rows; row++) {
    const kept = row === pull.row || row === peak.row || row === rows - 1;
    if (seconds[row] < nextS && !kept) continue;
    drawn.push(row);
    nextS = seconds[row] + apartS;
  }
  return drawn;
}
