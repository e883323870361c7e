import {
  type Advice,
  type Aim,
  aimedSlice,
  type CookingLoss,
  cautions,
  coldestAxis,
  greatestDiameter,
  type Plan,
  type PutBack,
  type QuickerWay,
  type Safety,
  type Share,
  type Slice,
  type Stage,
  sayWarning,
  seriesAt,
  stationsAround,
  type TimedStep,
  timetable,
  type UnitSystem,
  type Warning,
} from '@roastsim/core';
import type { Forecast } from '../ask/forecast.js';
import type { GuestTable } from '../ask/planned.js';
import type { Serving } from '../read/serving.js';
import { guestText } from './guests.js';
import { type GuestsEntry, guestsEntry } from './guestsEntry.js';
import { type Lateness, type LateOffer, optionsOf, timesOf } from './lateness.js';
import { type RoastEntry, roastEntry } from './roastEntry.js';
import { rounded } from './rounded.js';
import type { ServingClock } from './servingClock.js';
import { planLine } from './stageLineText.js';
import { type SureEntry, sureEntry } from './sureEntry.js';

/** Version of the document's form; it rises when a field changes its meaning or goes away. */
export const PLAN_SCHEMA_VERSION = 1;

const ROWS = 2000; // of a history; longer cooks are thinned to it
const STATIONS = 10; // whose axes the history carries

/** What a document needs beside the plan. */
export interface DocumentContext {
  /** Version of the program. */
  readonly version: string;
  /** Time of day for minutes since the refrigerator, where a serving time is known. */
  readonly clock?: (minutes: number) => string;
  /** The steps with how far each may slip; computed when absent. */
  readonly steps?: readonly TimedStep[];
  /** The moment of serving, and what a late cook can do. */
  readonly served?: {
    readonly serving: Pick<Serving, 'at' | 'notes'>;
    readonly clock: ServingClock;
    readonly late?: Lateness;
  };
  /** What was taken for granted, one sentence each. */
  readonly assumed?: readonly string[];
  /** Who gets which slice, where there are guests. */
  readonly table?: GuestTable;
  /** How surely the pull is known, unless the cook goes by the clock or its pull comes before the middle has warmed. */
  readonly forecast?: Forecast;
  /** Units of the sentences; all numbers are °C, kg, mm and minutes. */
  readonly units: UnitSystem;
}

/** Time of day, only where a serving time is known. */
interface OnClock {
  readonly clock?: string;
}

/** A thermometer reading to expect. `atMinutes`: since the refrigerator. */
export interface CheckpointEntry extends OnClock {
  readonly atMinutes: number;
  readonly centreC: number;
}

type Settings<S extends Stage> = S extends Stage ? Omit<S, 'until' | 'at'> : never;

/** A stage as it went: its kind, its settings and its times, minutes since the refrigerator. */
export type StageEntry = Settings<Stage> &
  OnClock & { readonly startMinutes: number; readonly endMinutes: number };

/** A step of the timetable; `atMinutes` is below 0 for what must be done before the refrigerator is opened. */
export type TimetableEntry = Pick<
  TimedStep,
  'kind' | 'atMinutes' | 'beforeServingMinutes' | 'toleranceMinutes' | 'toleranceFrom'
> & {
  /** ISO 8601 with its offset. */
  readonly at?: string;
};

/** A quicker way to the same aim, begun now. */
export interface QuickerEntry {
  readonly ways: readonly QuickerWay[];
  readonly heat: Settings<Extract<Stage, { kind: 'roast' | 'bath' }>>;
  readonly temperMinutes: number;
  readonly restMinutes: number;
  readonly lengthMinutes: number;
  readonly lateMinutes: number;
  readonly servedAt: string;
  readonly pull: { readonly minutes: number; readonly centreC: number };
  readonly peakC: number;
  readonly band: string;
  readonly evenness: number;
  readonly rimMm: number;
  /** What to type for its timetable. */
  readonly options: string;
}

/** One plan as plain data; docs/plan.schema.json describes every field. */
export interface PlanDocument {
  readonly schemaVersion: typeof PLAN_SCHEMA_VERSION;
  readonly model: {
    readonly version: string;
    readonly stations: number;
    readonly shells: number;
    readonly steps: number;
  };
  readonly roast: RoastEntry & {
    readonly thickestMm: number;
    readonly stations: readonly { readonly atMm: number; readonly diameterMm: number }[];
  };
  readonly stages: readonly StageEntry[];
  /** The stages as one line, as `--stages` reads it. */
  readonly stageLine: string;
  readonly aim: Pick<Aim, 'targetC' | 'at'> & {
    readonly scale: string;
    readonly scaleSource: string;
    readonly band: string;
    /** Counted from 0; null for the coldest axis. */
    readonly slice: number | null;
    readonly atMm: number;
  };
  readonly pull: OnClock & {
    readonly minutes: number;
    readonly atMinutes: number;
    readonly heatMinutes: number;
    readonly centreC: number;
    readonly coldestC: number;
    readonly readingAtQuarterRadiusC: number;
  };
  readonly interval?: {
    readonly lowMinutes: number;
    readonly likelyMinutes: number | null;
    /** null where the pull may never come. */
    readonly highMinutes: number | null;
    readonly level: number;
    readonly shares: readonly Share[];
    readonly advice: readonly Advice[];
  };
  readonly sure?: SureEntry;
  readonly peak: OnClock & {
    readonly minutes: number;
    readonly centreC: number;
    readonly riseC: number;
  };
  readonly firstLook: CheckpointEntry;
  readonly afterPull: readonly CheckpointEntry[];
  readonly putBack?: PutBack;
  readonly timetable: readonly TimetableEntry[];
  readonly serving?: {
    readonly at: string;
    readonly zone: string;
    readonly notes: readonly string[];
  };
  readonly late?: { readonly byMinutes: number; readonly servingLateMinutes: number };
  readonly quicker?: readonly QuickerEntry[];
  readonly history: {
    readonly minutes: readonly number[];
    readonly ovenC: readonly (number | null)[];
    readonly wallC: readonly (number | null)[];
    readonly centreC: readonly number[];
    readonly surfaceC: readonly number[];
    readonly stations: readonly { readonly atMm: number; readonly centreC: readonly number[] }[];
  };
  readonly slices: readonly (Omit<Slice, 'middleMm'> & { readonly guest?: string })[];
  readonly guests?: GuestsEntry;
  readonly loss: CookingLoss;
  readonly safety: Safety & { readonly notes: readonly string[] };
  readonly warnings: readonly (Warning & { readonly text: string })[];
  readonly assumed: readonly string[];
}

/** Place of the aimed-at axis [mm from the first end]; for an aim at the coldest axis, where that is at the pull. */
export function aimedPlaceMm({ aim, history, pull }: Plan): number {
  const { atMm } = aim.point;
  return atMm === 'coldest'
    ? 1000 * history.body.atM[coldestAxis(history, pull.row).station]
    : atMm;
}

/**
 * A plan as one plain, rounded, JSON-able object, by docs/plan.schema.json.
 *
 * @throws Error should a figure not be finite: a fault of the program, and a document never carries one
 * @example
 * JSON.stringify(planDocument(plan, { version: '0.1.0', units: 'metric' }))
 */
export function planDocument(plan: Plan, context: DocumentContext): PlanDocument {
  const { roast, aim, pull, peak, history } = plan;
  const { clock, units, version } = context;
  const onClock = (minutes: number): OnClock =>
    clock === undefined ? {} : { clock: clock(minutes) };
  const { body, atM, diameterM } = history.body;
  return rounded({
    schemaVersion: PLAN_SCHEMA_VERSION,
    model: { version, stations: body.stations, shells: body.mesh.shells, steps: history.steps },
    roast: {
      ...roastEntry(roast),
      thickestMm: 1000 * greatestDiameter(roast.profile),
      stations: Array.from(atM, (at, i) => ({ atMm: 1000 * at, diameterMm: 1000 * diameterM[i] })),
    },
    stages: history.stages.map(({ stage, startS, endS }) => ({
      ...settingsOf(stage),
      startMinutes: startS / 60,
      endMinutes: endS / 60,
      ...onClock(startS / 60),
    })),
    stageLine: planLine(plan, units),
    aim: {
      scale: aim.scale.name,
      scaleSource: aim.scale.source,
      band: aim.band.name,
      targetC: aim.targetC,
      at: aim.at,
      slice: aim.slice < 0 ? null : aim.slice,
      atMm: aimedPlaceMm(plan),
    },
    pull: {
      minutes: pull.minutes,
      atMinutes: pull.atMinutes,
      heatMinutes: pull.heatMinutes,
      ...onClock(pull.atMinutes),
      centreC: pull.centreC,
      coldestC: pull.coldestC,
      readingAtQuarterRadiusC: pull.readingAtQuarterRadiusC,
    },
    ...forecastEntries(plan, context.forecast),
    peak: {
      minutes: peak.atMinutes,
      ...onClock(peak.atMinutes),
      centreC: peak.centreC,
      riseC: peak.riseC,
    },
    firstLook: {
      atMinutes: plan.firstLook.atMinutes,
      centreC: plan.firstLook.centreC,
      ...onClock(plan.firstLook.atMinutes),
    },
    afterPull: plan.afterPull.map((look) => ({ ...look, ...onClock(look.atMinutes) })),
    ...(plan.putBack === undefined ? {} : { putBack: plan.putBack }),
    timetable: timetableOf(plan, context),
    ...servingOf(context),
    history: historyOf(plan),
    slices: slicesOf(plan, context),
    ...(context.table === undefined ? {} : { guests: guestsEntry(plan, context.table) }),
    loss: plan.loss,
    safety: { ...plan.safety, notes: cautions(units).map(({ text }) => text) },
    warnings: plan.warnings.map((warning) => ({ ...warning, text: sayWarning(warning, units) })),
    assumed: [...(context.assumed ?? [])],
  });
}

const orNull = (x: number): number | null => (Number.isFinite(x) ? x : null);

function forecastEntries(
  plan: Plan,
  forecast: Forecast | undefined,
): Pick<PlanDocument, 'interval' | 'sure'> {
  if (forecast === undefined) return {};
  const { interval, sure } = forecast;
  const { likelyMinutes, highMinutes } = interval;
  return {
    interval: {
      ...interval,
      likelyMinutes: orNull(likelyMinutes),
      highMinutes: orNull(highMinutes),
    },
    ...(sure === undefined ? {} : { sure: sureEntry(plan, sure) }),
  };
}

function slicesOf({ slices }: Plan, { table, units }: DocumentContext): PlanDocument['slices'] {
  const guests = new Map(
    table?.seating.places.map((place) => [place.slice, guestText(place, units)]),
  );
  return slices.map(({ middleMm: _, ...slice }, i) => {
    const guest = guests.get(i);
    return guest === undefined ? slice : { ...slice, guest };
  });
}

function timetableOf(plan: Plan, { steps, served }: DocumentContext): TimetableEntry[] {
  return (steps ?? timetable(plan).steps).map((step) => ({
    kind: step.kind,
    atMinutes: step.atMinutes,
    beforeServingMinutes: step.beforeServingMinutes,
    toleranceMinutes: step.toleranceMinutes,
    toleranceFrom: step.toleranceFrom,
    ...(served === undefined ? {} : { at: served.clock.isoOf(step.atMinutes) }),
  }));
}

function servingOf({
  served,
  units,
}: DocumentContext): Pick<PlanDocument, 'serving' | 'late' | 'quicker'> {
  if (served === undefined) return {};
  const { serving, clock, late } = served;
  const { at, notes } = serving;
  return {
    serving: { at: at.toISO({ suppressMilliseconds: true }), zone: at.zoneName, notes },
    ...(late === undefined
      ? {}
      : {
          late: { byMinutes: late.byMinutes, servingLateMinutes: late.servingLateMinutes },
          quicker: late.quicker.map((offer) => quickerOf(offer, clock, units)),
        }),
  };
}

function quickerOf(offer: LateOffer, clock: ServingClock, units: UnitSystem): QuickerEntry {
  const { ways, request, plan, lengthMinutes, lateMinutes, servedAtMinutes } = offer;
  const { band, evenness, rimMm } = aimedSlice(plan);
  const { until: _, ...heat } = request.heat;
  return {
    ways,
    heat,
    ...timesOf(request),
    lengthMinutes,
    lateMinutes,
    servedAt: clock.isoOf(servedAtMinutes),
    pull: { minutes: plan.pull.minutes, centreC: plan.pull.centreC },
    peakC: plan.peak.centreC,
    band,
    evenness,
    rimMm,
    options: optionsOf(offer, units),
  };
}

/** A stage without its ending, which its times tell, and without what cannot be written down. */
function settingsOf(stage: Stage): Settings<Stage> {
  if (stage.kind === 'pan-sear') return stage;
  if (stage.kind === 'surroundings') return { kind: stage.kind };
  const { until: _, ...settings } = stage;
  return settings;
}

function historyOf(plan: Plan): PlanDocument['history'] {
  const { history } = plan;
  const { atM, body } = history.body;
  const rows = rowsToShow(plan);
  const aimed = stationsAround(history.body, aimedPlaceMm(plan));
  const along = (series: Float64Array): number[] =>
    rows.map((row) => seriesAt(series, body.stations, row, aimed));
  const inOven = (series: Float64Array): (number | null)[] => {
    const seen: (number | null)[] = Array.from(series, () => null);
    for (const { stage, firstRow, lastRow } of history.stages) {
      if (stage.kind !== 'roast' && stage.kind !== 'oven-sear') continue;
      for (let row = firstRow; row <= lastRow; row++) seen[row] = series[row];
    }
    return rows.map((row) => seen[row]);
  };
  return {
    minutes: rows.map((row) => history.seconds[row] / 60),
    ovenC: inOven(history.airC),
    wallC: inOven(history.wallC),
    centreC: along(history.axisC),
    surfaceC: along(history.outsideC),
    stations: evenly(body.stations, STATIONS).map((station) => ({
      atMm: 1000 * atM[station],
      centreC: rows.map((row) => history.axisC[row * body.stations + station]),
    })),
  };
}

/** All rows of an ordinary cook; of a very long one every so many, and those where something begins, ends or is reported. */
function rowsToShow({ history, pull, peak }: Plan): number[] {
  const edges = history.stages.flatMap(({ firstRow, lastRow }) => [firstRow, lastRow]);
  const kept = new Set([...evenly(history.rows, ROWS), ...edges, pull.row, peak.row]);
  return [...kept].sort((a, b) => a - b);
}

/** At most `wanted` whole numbers from 0 to `count - 1`, both ends among them, evenly spread. */
function evenly(count: number, wanted: number): number[] {
  if (count <= wanted) return Array.from({ length: count }, (_, i) => i);
  return Array.from({ length: wanted }, (_, i) => Math.round((i * (count - 1)) / (wanted - 1)));
}
