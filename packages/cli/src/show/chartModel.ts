import {
  fahrenheit,
  type History,
  type Plan,
  type Slice,
  type Stage,
  seriesAt,
  stationsAround,
  type UnitSystem,
  upperEdge,
} from '@roastsim/core';
import {
  type ChartHead,
  type ChartWords,
  FULL_WORDS,
  type MarkWords,
  type SliceName,
} from './chartWords.js';
import { aimedPlaceMm } from './planDocument.js';

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
  /** Empty where the chart does not name it. */
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** The band the plan aims at. */
  readonly aimed: boolean;
}

/** A stage along the top: its names from the longest to the shortest, and how long it lasts where there is room for it. */
export interface ChartStage {
  readonly from: number;
  readonly to: number;
  readonly names: readonly string[];
  readonly length?: string;
}

/** A moment worth a mark on the aimed-at line. */
export interface ChartMark extends ChartPoint, MarkWords {
  readonly kind: 'pull' | 'peak';
}

/** Everything a chart of a plan shows, computed; temperatures in printed units, times in minutes since the refrigerator. */
export interface ChartModel {
  readonly head?: ChartHead;
  readonly unit: '°C' | '°F';
  readonly minutes: ChartAxis;
  readonly meat: ChartPanel;
  /** What the roast is exposed to, where that is hotter than fits the meat's panel. */
  readonly around?: ChartPanel;
  readonly stripes: readonly ChartStripe[];
  readonly stages: readonly ChartStage[];
  readonly marks: readonly ChartMark[];
}

/** Ticks of an axis, what its ends are rounded to, the least it reaches up to, and the least it leaves free above its lines. */
export interface AxisForm {
  readonly step: number;
  readonly round: number;
  readonly leastTop: number;
  readonly headroom?: number;
}

/** How much a chart shows. */
export interface ChartForm {
  readonly words: ChartWords;
  /** Axis of the meat's temperatures. */
  readonly meat: Readonly<Record<UnitSystem, AxisForm>>;
  /** Axis of what the roast is exposed to; without it only the centres are shown. */
  readonly around?: Readonly<Record<UnitSystem, AxisForm>>;
  /** Lines of centres: all that differ, or the one aimed at alone. */
  readonly centres: 'all' | 'aimed';
  readonly mostMinuteTicks: number;
  /** Points of a line from one end of the time axis to the other; all there are without. */
  readonly mostPoints?: number;
}

/** A chart that stands alone. */
export const FULL_FORM: ChartForm = {
  words: FULL_WORDS,
  meat: {
    metric: { step: 10, round: 10, leastTop: 80 },
    us: { step: 20, round: 20, leastTop: 180 },
  },
  around: {
    metric: { step: 100, round: 100, leastTop: 100 },
    us: { step: 200, round: 200, leastTop: 200 },
  },
  centres: 'all',
  mostMinuteTicks: 12,
};

const MINUTE_STEPS = [5, 10, 15, 20, 30, 60, 120, 180, 240] as const;
const DAY_STEP = 480;

/**
 * What the chart of a plan shows.
 *
 * @param units - of all temperatures and words
 */
export function chartModel(plan: Plan, units: UnitSystem, form: ChartForm = FULL_FORM): ChartModel {
  const { history } = plan;
  const { words } = form;
  const printed = (tempC: number): number => (units === 'us' ? fahrenheit(tempC) : tempC);
  const drawn = seriesFor(history, printed, drawnRows(plan, form.mostPoints));
  const centres = centreLines(plan, units, words)
    .filter(({ kind }) => form.centres === 'all' || kind === 'aimed')
    .map(({ kind, label, atMm }) => ({
      kind,
      label,
      points: drawn.along(history.axisC, atMm),
    }));
  const surface = form.around === undefined ? undefined : surfaceLines(plan, drawn);
  const lines: ChartLine[] = surface === undefined ? centres : [...centres, surface.underCrust];
  const meat = axisOf(lines, form.meat[units]);
  const head = words.head?.(plan, units);
  return {
    ...(head === undefined ? {} : { head }),
    unit: units === 'us' ? '°F' : '°C',
    minutes: minuteAxis(history, form.mostMinuteTicks),
    ...panelsOf(lines, meat, surface, form.around?.[units]),
    stripes: stripesOf(plan, printed, meat, words),
    stages: history.stages.map(({ stage, startS, endS }) => {
      const length = words.stageLength?.((endS - startS) / 60);
      return {
        from: startS / 60,
        to: endS / 60,
        names: words.stage(stage, units),
        ...(length === undefined ? {} : { length }),
      };
    }),
    marks: marksOf(plan, units, printed, words),
  };
}

/** Stages that dry the surface and leave a crust. */
const OPEN_HEAT: ReadonlySet<Stage['kind']> = new Set(['roast', 'oven-sear', 'pan-sear']);

/** Rows of the history a chart shows: the ends of stages, the marks, and of the rest so many that none lies on its neighbour. */
function drawnRows({ history, pull, peak }: Plan, mostPoints?: number): number[] {
  const { seconds, rows, stages } = history;
  const kept = new Set([pull.row, peak.row]);
  for (const { firstRow, lastRow } of stages) kept.add(firstRow).add(lastRow);
  const apartS = mostPoints === undefined ? 0 : seconds[rows - 1] / mostPoints;
  const drawn: number[] = [];
  let nextS = 0;
  for (let row = 0; row < rows; row++) {
    if (seconds[row] < nextS && !kept.has(row)) continue;
    drawn.push(row);
    nextS = seconds[row] + apartS;
  }
  return drawn;
}

/** Turns stored series into points. */
function seriesFor(
  { seconds, body }: History,
  printed: (tempC: number) => number,
  rows: readonly number[],
) {
  const points = (valueAt: (row: number) => number): ChartPoint[] =>
    rows.map((row) => ({ x: seconds[row] / 60, y: printed(valueAt(row)) }));
  return {
    rows: (series: Float64Array) => points((row) => series[row]),
    along: (series: Float64Array, atMm: number) => {
      const at = stationsAround(body, atMm);
      return points((row) => seriesAt(series, body.body.stations, row, at));
    },
  };
}

/** Below the crust, outside it, and what it is exposed to. */
type SurfaceLines = Readonly<Record<'underCrust' | 'outside' | 'around', ChartLine>>;

function surfaceLines(plan: Plan, drawn: ReturnType<typeof seriesFor>): SurfaceLines {
  const { history } = plan;
  const aimedMm = aimedPlaceMm(plan);
  const crusted = history.stages.some(({ stage }) => OPEN_HEAT.has(stage.kind));
  return {
    underCrust: {
      kind: 'under-crust',
      label: crusted ? 'under the crust' : 'surface',
      points: drawn.along(history.frontC, aimedMm),
    },
    outside: {
      kind: 'outside',
      label: 'crust, outside',
      points: drawn.along(history.outsideC, aimedMm),
    },
    around: { kind: 'around', label: 'around the roast', points: drawn.rows(history.airC) },
  };
}

/** One panel, or two where what the roast is exposed to is hotter than the first reaches. */
function panelsOf(
  lines: readonly ChartLine[],
  axis: ChartAxis,
  surface: SurfaceLines | undefined,
  aroundForm: AxisForm | undefined,
): Pick<ChartModel, 'meat' | 'around'> {
  if (surface === undefined || aroundForm === undefined) return { meat: { axis, lines } };
  const { around, outside } = surface;
  if (around.points.every(({ y }) => y <= axis.to)) {
    return { meat: { axis, lines: [...lines, around] } };
  }
  const above = [around, outside];
  return { meat: { axis, lines }, around: { axis: axisOf(above, aroundForm), lines: above } };
}

interface CentreLine {
  readonly kind: 'aimed' | 'thicker' | 'thinner';
  readonly label: string;
  readonly atMm: number;
}

const SAME_THICKNESS = 1.02; // slices of one weight within 2 % of one length: an even roast

/** The aimed-at axis, and the thickest and the thinnest slice where it lies in neither. */
function centreLines(plan: Plan, units: UnitSystem, words: ChartWords): CentreLine[] {
  const { aim, slices } = plan;
  const aimed: CentreLine = {
    kind: 'aimed',
    label: words.aimed[aim.at],
    atMm: aimedPlaceMm(plan),
  };
  // of one weight, the shortest is the thickest
  const length = ({ fromMm, toMm }: Slice): number => toMm - fromMm;
  const thickest = slices.reduce((a, b) => (length(b) < length(a) ? b : a));
  const thinnest = slices.reduce((a, b) => (length(b) > length(a) ? b : a));
  const others: { kind: 'thicker' | 'thinner'; name: SliceName; slice: Slice }[] =
    length(thinnest) < SAME_THICKNESS * length(thickest)
      ? [{ kind: 'thinner', name: 'end', slice: slices[0] }]
      : [
          { kind: 'thicker', name: 'thickest', slice: thickest },
          { kind: 'thinner', name: 'thinnest', slice: thinnest },
        ];
  return [
    aimed,
    ...others
      .filter(({ slice: { fromMm, toMm } }) => aimed.atMm < fromMm || aimed.atMm > toMm)
      .map(({ kind, name, slice }) => ({
        kind,
        label: words.slice(name, slice, units),
        atMm: slice.middleMm,
      })),
  ];
}

function axisOf(
  lines: readonly ChartLine[],
  { step, round, leastTop, headroom = 0 }: AxisForm,
): ChartAxis {
  const values = lines.flatMap(({ points }) => points.map(({ y }) => y));
  return {
    from: round * Math.floor(Math.min(...values) / round),
    to: Math.max(leastTop, round * Math.ceil((Math.max(...values) + headroom) / round)),
    step,
  };
}

function minuteAxis({ seconds, rows }: History, mostTicks: number): ChartAxis {
  const to = Math.max(1, seconds[rows - 1] / 60); // a cook of no length still has an axis
  const step = MINUTE_STEPS.find((minutes) => to / minutes <= mostTicks) ?? DAY_STEP;
  return { from: 0, to, step };
}

function stripesOf(
  plan: Plan,
  printed: (tempC: number) => number,
  { from, to }: ChartAxis,
  words: ChartWords,
): ChartStripe[] {
  const { aim } = plan;
  const within = (tempC: number): number => Math.min(to, Math.max(from, printed(tempC)));
  return aim.scale.bands
    .map(({ name, fromC }, i) => ({
      name: words.band(name, plan),
      from: within(fromC),
      to: within(upperEdge(aim.scale, i)),
      aimed: name === aim.band.name,
    }))
    .filter((stripe) => stripe.to > stripe.from);
}

function marksOf(
  { history, pull, peak }: Plan,
  units: UnitSystem,
  printed: (tempC: number) => number,
  words: ChartWords,
): ChartMark[] {
  const heats = new Set(
    history.stages
      .map(({ stage: { kind } }) => kind)
      .filter((kind) => kind === 'roast' || kind === 'bath'),
  );
  const place = heats.size !== 1 ? 'of heat' : heats.has('bath') ? 'in the bath' : 'in the oven';
  const climbs = peak.row > pull.row;
  return [
    {
      kind: 'pull',
      x: pull.atMinutes,
      y: printed(pull.centreC),
      ...words.pull(pull, place, climbs, units),
    },
    ...(climbs
      ? [
          {
            kind: 'peak',
            x: peak.atMinutes,
            y: printed(peak.centreC),
            ...words.peak(peak, pull, units),
          } as const,
        ]
      : []),
  ];
}
