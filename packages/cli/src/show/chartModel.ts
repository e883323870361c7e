import {
  durationText,
  fahrenheit,
  type History,
  type Plan,
  type Slice,
  type Stage,
  sayWarning,
  seriesAt,
  stationsAround,
  temperatureText,
  type UnitSystem,
  upperEdge,
} from '@roastsim/core';
import { aimedPlaceMm } from './planDocument.js';
import { roastTitle } from './text.js';

/** A point of a line: minutes since the refrigerator, temperature in printed units. */
export interface ChartPoint {
  readonly x: number;
  readonly y: number;
}

/** What a line shows; how it is drawn hangs on it alone. */
export type ChartLineKind = 'aimed' | 'thicker' | 'thinner' | 'under-crust' | 'outside' | 'around';

/** One temperature over time, with the name that stands at its end. */
export interface ChartLine {
  readonly kind: ChartLineKind;
  readonly label: string;
  readonly points: readonly ChartPoint[];
}

/** Ends and ticks of an axis. */
export interface ChartAxis {
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

/** A panel: an axis of temperatures and the lines drawn against it. */
export interface ChartPanel {
  readonly axis: ChartAxis;
  readonly lines: readonly ChartLine[];
}

/** A band of doneness, cut to the axis. */
export interface ChartStripe {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** The band the plan aims at. */
  readonly aimed: boolean;
}

/** A stage along the top: its names from the longest to the shortest, and how long it lasts. */
export interface ChartStage {
  readonly from: number;
  readonly to: number;
  readonly names: readonly string[];
  readonly length: string;
}

/** A moment worth a mark on the aimed-at line. */
export interface ChartMark extends ChartPoint {
  readonly kind: 'pull' | 'peak';
  /** Strong line and what stands below it. */
  readonly text: string;
  readonly more: string;
}

/** Everything a chart of a plan shows, computed; temperatures in printed units, times in minutes since the refrigerator. */
export interface ChartModel {
  readonly title: string;
  readonly subtitle: string;
  /** The notice a plan below guidance carries wherever it goes. */
  readonly notice?: string;
  readonly unit: '°C' | '°F';
  readonly minutes: ChartAxis;
  readonly meat: ChartPanel;
  /** What the roast is exposed to, where that is hotter than fits the meat's panel. */
  readonly around?: ChartPanel;
  readonly stripes: readonly ChartStripe[];
  readonly stages: readonly ChartStage[];
  readonly marks: readonly ChartMark[];
}

const MINUTE_STEPS = [5, 10, 15, 20, 30, 60, 120, 180, 240] as const;
const MOST_MINUTE_TICKS = 12;
const DAY_STEP = 480;

/** By units: distance of ticks of the meat's panel and of the other one, and the least top of the meat's panel. */
const TICKS = {
  metric: { unit: '°C', meat: 10, around: 100, leastTop: 80 },
  us: { unit: '°F', meat: 20, around: 200, leastTop: 180 },
} as const;

/**
 * What the chart of a plan shows.
 *
 * @param units - of all temperatures and words
 */
export function chartModel(plan: Plan, units: UnitSystem): ChartModel {
  const { history, aim } = plan;
  const ticks = TICKS[units];
  const printed = (tempC: number): number => (units === 'us' ? fahrenheit(tempC) : tempC);
  const drawn = seriesFor(history, printed);
  const centres = centreLines(plan, units).map(({ kind, label, atMm }) => ({
    kind,
    label,
    points: drawn.along(history.axisC, atMm),
  }));
  const aimedMm = aimedPlaceMm(plan);
  const crusted = history.stages.some(({ stage }) => OPEN_HEAT.has(stage.kind));
  const lines: ChartLine[] = [
    ...centres,
    {
      kind: 'under-crust',
      label: crusted ? 'under the crust' : 'surface',
      points: drawn.along(history.frontC, aimedMm),
    },
  ];
  const around: ChartLine = {
    kind: 'around',
    label: 'around the roast',
    points: drawn.rows(history.airC),
  };
  const meat = axisOf(lines, ticks.meat, ticks.leastTop);
  const apart = Math.max(...around.points.map(({ y }) => y)) > meat.to;
  const outside: ChartLine = {
    kind: 'outside',
    label: 'crust, outside',
    points: drawn.along(history.outsideC, aimedMm),
  };
  const notice = plan.warnings.find(({ code }) => code === 'below-guidance');
  return {
    title: roastTitle(plan, units),
    subtitle:
      `Aimed at ${aim.band.name}, ${temperatureText(aim.targetC, units)} ${WHERE[aim.at]} ` +
      `(scale: ${aim.scale.name})`,
    ...(notice === undefined ? {} : { notice: sayWarning(notice, units) }),
    unit: ticks.unit,
    minutes: minuteAxis(history),
    meat: { axis: meat, lines: apart ? lines : [...lines, around] },
    ...(apart
      ? { around: { axis: axisOf([around, outside], ticks.around), lines: [around, outside] } }
      : {}),
    stripes: stripesOf(plan, printed, meat),
    stages: history.stages.map(({ stage, startS, endS }) => ({
      from: startS / 60,
      to: endS / 60,
      names: stageNames(stage, units),
      length: durationText((endS - startS) / 60),
    })),
    marks: marksOf(plan, units, printed),
  };
}

/** Stages that dry the surface and leave a crust. */
const OPEN_HEAT: ReadonlySet<Stage['kind']> = new Set(['roast', 'oven-sear', 'pan-sear']);

const WHERE = {
  middle: 'in the middle slice',
  thick: 'in the thickest slice',
  thin: 'in the thinnest slice',
  coldest: 'at the coldest spot',
} as const;

const AIMED_LABEL = {
  middle: 'middle slice, aimed at',
  thick: 'thickest slice, aimed at',
  thin: 'thinnest slice, aimed at',
  coldest: 'coldest spot, aimed at',
} as const;

/** Turns stored series into points. */
function seriesFor(history: History, printed: (tempC: number) => number) {
  const { seconds, rows, body } = history;
  const points = (valueAt: (row: number) => number): ChartPoint[] =>
    Array.from({ length: rows }, (_, row) => ({ x: seconds[row] / 60, y: printed(valueAt(row)) }));
  return {
    rows: (series: Float64Array) => points((row) => series[row]),
    along: (series: Float64Array, atMm: number) => {
      const at = stationsAround(body, atMm);
      return points((row) => seriesAt(series, body.body.stations, row, at));
    },
  };
}

interface CentreLine {
  readonly kind: 'aimed' | 'thicker' | 'thinner';
  readonly label: string;
  readonly atMm: number;
}

const SAME_THICKNESS = 1.02; // slices of one weight within 2 % of one length: an even roast

/** The aimed-at axis, and the thickest and the thinnest slice where it lies in neither. */
function centreLines(plan: Plan, units: UnitSystem): CentreLine[] {
  const { aim, slices } = plan;
  const aimed: CentreLine = {
    kind: 'aimed',
    label: AIMED_LABEL[aim.at],
    atMm: aimedPlaceMm(plan),
  };
  // of one weight, the shortest is the thickest
  const length = ({ fromMm, toMm }: Slice): number => toMm - fromMm;
  const thickest = slices.reduce((a, b) => (length(b) < length(a) ? b : a));
  const thinnest = slices.reduce((a, b) => (length(b) > length(a) ? b : a));
  const others =
    length(thinnest) < SAME_THICKNESS * length(thickest)
      ? [{ kind: 'thinner', name: 'end slice', slice: slices[0] } as const]
      : [
          { kind: 'thicker', name: 'thickest slice', slice: thickest } as const,
          { kind: 'thinner', name: 'thinnest slice', slice: thinnest } as const,
        ];
  return [
    aimed,
    ...others
      .filter(({ slice: { fromMm, toMm } }) => aimed.atMm < fromMm || aimed.atMm > toMm)
      .map(({ kind, name, slice }) => ({
        kind,
        label: `${name}, peak ${temperatureText(slice.peakCentreC, units)}`,
        atMm: slice.middleMm,
      })),
  ];
}

function axisOf(lines: readonly ChartLine[], step: number, leastTop = step): ChartAxis {
  const values = lines.flatMap(({ points }) => points.map(({ y }) => y));
  return {
    from: step * Math.floor(Math.min(...values) / step),
    to: Math.max(leastTop, step * Math.ceil(Math.max(...values) / step)),
    step,
  };
}

function minuteAxis({ seconds, rows }: History): ChartAxis {
  const to = Math.max(1, seconds[rows - 1] / 60); // a cook of no length still has an axis
  const step = MINUTE_STEPS.find((minutes) => to / minutes <= MOST_MINUTE_TICKS) ?? DAY_STEP;
  return { from: 0, to, step };
}

function stripesOf(
  { aim }: Plan,
  printed: (tempC: number) => number,
  { from, to }: ChartAxis,
): ChartStripe[] {
  const within = (tempC: number): number => Math.min(to, Math.max(from, printed(tempC)));
  return aim.scale.bands
    .map(({ name, fromC }, i) => ({
      name,
      from: within(fromC),
      to: within(upperEdge(aim.scale, i)),
      aimed: name === aim.band.name,
    }))
    .filter((stripe) => stripe.to > stripe.from);
}

/** Names of a stage from the longest to the shortest. */
function stageNames(stage: Stage, units: UnitSystem): string[] {
  const temp = (tempC: number): string => temperatureText(tempC, units);
  switch (stage.kind) {
    case 'temper':
      return [`counter, ${temp(stage.roomC)}`, 'counter'];
    case 'pan-sear':
      return [`pan, ${temp(stage.panC)}`, 'pan'];
    case 'oven-sear':
      return [`sear in the oven, ${temp(stage.ovenC)}`, `sear, ${temp(stage.ovenC)}`, 'sear'];
    case 'roast': {
      const oven = `oven, ${temp(stage.ovenC)}`;
      const how = `${stage.fan ? ', fan' : ''}${stage.start === 'cold' ? ', from cold' : ''}`;
      return [...(how === '' ? [] : [oven + how]), oven, 'oven'];
    }
    case 'bath':
      return [`water bath, ${temp(stage.bathC)}`, `bath, ${temp(stage.bathC)}`, 'bath'];
    case 'rest':
      return [stage.tented ? 'rest under foil' : 'rest uncovered', 'rest'];
  }
}

function marksOf(
  { history, pull, peak }: Plan,
  units: UnitSystem,
  printed: (tempC: number) => number,
): ChartMark[] {
  const heats = new Set(
    history.stages
      .map(({ stage: { kind } }) => kind)
      .filter((kind) => kind === 'roast' || kind === 'bath'),
  );
  const place = heats.size > 1 ? 'of heat' : heats.has('bath') ? 'in the bath' : 'in the oven';
  const climbs = peak.row > pull.row;
  return [
    {
      kind: 'pull',
      x: pull.atMinutes,
      y: printed(pull.centreC),
      text: `pull at ${temperatureText(pull.centreC, units)}`,
      more: `${durationText(pull.minutes)} ${place}${climbs ? '' : ', no further climb'}`,
    },
    ...(climbs
      ? [
          {
            kind: 'peak',
            x: peak.atMinutes,
            y: printed(peak.centreC),
            text: `peak ${temperatureText(peak.centreC, units)}`,
            more: `${durationText(peak.atMinutes - pull.atMinutes)} after the pull`,
          } as const,
        ]
      : []),
  ];
}
