import type { HeatLedger } from '../heat/index.js';
import type { Roast, RoastBody } from './roast.js';
import type { Point, Stage } from './stages.js';

/** A stage as it went. */
export interface StageRecord {
  readonly stage: Stage;
  readonly startS: number;
  readonly endS: number;
  /** Rows of the history from the stage's beginning to its end, both included. */
  readonly firstRow: number;
  readonly lastRow: number;
  /** Temperatures of all nodes at the stage's end [°C], station by station, axis to surface. */
  readonly endFieldC: Float64Array;
}

/**
 * What happened: numbers only. Row r of a series with one value per station holds stations `r * stations` to
 * `(r + 1) * stations - 1`; temperatures in °C, time in seconds since the roast left the refrigerator.
 */
export interface History {
  readonly roast: Roast;
  readonly body: RoastBody;
  readonly rows: number;
  /** Time of each row [s]. */
  readonly seconds: Float64Array;
  /** What the side saw in each row: air (or pan, or bath), walls [°C], vapour pressure [Pa]. */
  readonly airC: Float64Array;
  readonly wallC: Float64Array;
  readonly vapourPa: Float64Array;
  /** Per station: axis, evaporation front, outside of the crust, mean over the cross-section [°C]. */
  readonly axisC: Float64Array;
  readonly frontC: Float64Array;
  readonly outsideC: Float64Array;
  readonly meanC: Float64Array;
  /** All nodes of all stations per row [°C], when asked for. */
  readonly fieldC?: Float64Array;
  readonly stages: readonly StageRecord[];
  /** Hottest each node ever was [°C], station by station, axis to surface. */
  readonly hottestC: Float64Array;
  /** Per station, of the true roast [kg]. */
  readonly evaporatedKg: Float64Array;
  readonly drippedKg: Float64Array;
  /** Water left per node [kg per kg of raw meat] and crust deficit per station and end face [kg/m²], at the end. */
  readonly water: Float64Array;
  readonly deficit: Float64Array;
  readonly endDeficit: Float64Array;
  readonly ledger: HeatLedger;
  /** Steps taken. */
  readonly steps: number;
}

/** Two neighbouring stations and the weight of the second: linear interpolation along the length. */
export interface Between {
  readonly station: number;
  readonly next: number;
  readonly part: number;
}

/**
 * Stations round a place `atMm` from the first end.
 *
 * @example
 * const { station, next, part } = stationsAround(cook.body, 200)
 * part >= 0 && part <= 1 && next === station + 1 // => true
 */
export function stationsAround(body: RoastBody, atMm: number): Between {
  const { atM } = body;
  const at = atMm / 1000;
  const last = atM.length - 1;
  if (at <= atM[0]) return { station: 0, next: 0, part: 0 };
  if (at >= atM[last]) return { station: last, next: last, part: 0 };
  let station = 0;
  while (atM[station + 1] < at) station++;
  return {
    station,
    next: station + 1,
    part: (at - atM[station]) / (atM[station + 1] - atM[station]),
  };
}

/**
 * Value of a per-station series in `row`, at a place along the length.
 *
 * @example
 * const place = stationsAround(cook.body, 200)
 * const outsideC = seriesAt(cook.outsideC, cook.body.body.stations, plan.pull.row, place)
 */
export const seriesAt = (
  series: Float64Array,
  stations: number,
  row: number,
  at: Between,
): number => {
  const base = row * stations;
  const a = series[base + at.station];
  return a + at.part * (series[base + at.next] - a);
};

/**
 * Lowest axis temperature in `row` [°C] and its station.
 *
 * @example
 * const { station, axisC } = coldestAxis(cook, plan.pull.row)
 * temperatureText(axisC, 'metric')
 */
export function coldestAxis(history: History, row: number): { station: number; axisC: number } {
  const { stations } = history.body.body;
  let station = 0;
  for (let i = 1; i < stations; i++) {
    if (history.axisC[row * stations + i] < history.axisC[row * stations + station]) station = i;
  }
  return { station, axisC: history.axisC[row * stations + station] };
}

/**
 * Axis temperature of a watched point in `row` [°C]; its offset from the axis is ignored.
 *
 * @example
 * axisAt(cook, { atMm: 200 }, plan.pull.row) // °C on the axis 20 cm from the butt end, at the pull
 */
export const axisAt = (history: History, point: Point, row: number): number =>
  point.atMm === 'coldest'
    ? coldestAxis(history, row).axisC
    : seriesAt(
        history.axisC,
        history.body.body.stations,
        row,
        stationsAround(history.body, point.atMm),
      );
