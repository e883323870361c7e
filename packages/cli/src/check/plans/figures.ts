import {
  coldestAxis,
  cutsOf,
  type History,
  judgeSlices,
  type Roast,
  SCALES,
  seriesAt,
  settleAim,
  stationsAround,
} from '@roastsim/core';
import type { PlanCase } from './cases.js';

/** What of a cook is compared: the time to set a timer to, and temperatures a cook meets. */
export interface PlanFigures {
  /** Minutes from the beginning of the last oven or bath stage to the pull. */
  readonly pullMinutes: number;
  /** Axis of the aimed-at slice and coldest axis at the pull [°C]. */
  readonly pullC: number;
  readonly coldestC: number;
  /** Top of the axis of the aimed-at slice after the pull [°C]. */
  readonly peakC: number;
  /** The same axis when the cook ends [°C]. */
  readonly endC: number;
  /** Tops of the first and the last slice's axis over the whole cook [°C]. */
  readonly firstSliceC: number;
  readonly lastSliceC: number;
}

export type PlanFigure = keyof PlanFigures;

export const PLAN_FIGURES = [
  'pullMinutes',
  'pullC',
  'coldestC',
  'peakC',
  'endC',
  'firstSliceC',
  'lastSliceC',
] as const satisfies readonly PlanFigure[];

/** Where a case is aimed at and what it wishes there. Where the safety rules decide, the coldest place at the pull. */
export const aimOf = ({ roast, request }: PlanCase) =>
  settleAim(roast, cutsOf(roast), request.aim ?? {}, request.atRisk ?? false);

/** The figures of a case's cook. */
export function figuresOf(one: PlanCase, history: History): PlanFigures {
  const { point } = aimOf(one);
  const { stages, seconds, rows, axisC, body } = history;
  const heat = stages[one.request.before.length];
  const pullRow = heat.lastRow;
  const coldest = coldestAxis(history, pullRow);
  const between = stationsAround(
    body,
    point.atMm === 'coldest' ? 1000 * body.atM[coldest.station] : point.atMm,
  );
  const axis = (row: number): number => seriesAt(axisC, body.body.stations, row, between);
  let peakC = axis(pullRow);
  for (let row = pullRow; row < rows; row++) peakC = Math.max(peakC, axis(row));
  const slices = slicesOf(one.roast, history);
  return {
    pullMinutes: (seconds[pullRow] - heat.startS) / 60,
    pullC: axis(pullRow),
    coldestC: coldest.axisC,
    peakC,
    endC: axis(rows - 1),
    firstSliceC: slices[0].peakCentreC,
    lastSliceC: slices[slices.length - 1].peakCentreC,
  };
}

const slicesOf = (roast: Roast, history: History) =>
  judgeSlices(history, cutsOf(roast), SCALES.kitchen);
