import {
  commonWays,
  compareWays,
  cutsOf,
  type PlanRequest,
  type Roast,
  settleAim,
} from '@roastsim/core';
import pc from 'picocolors';
import type { Io } from '../io.js';
import { readChoice } from '../read/index.js';
import { type PlanWords, pointingAt, readPlanOptions } from '../read/planOptions.js';
import { readWays } from '../read/readWays.js';
import { lineUnits } from '../read/stageLine.js';
import { type Comparison, isCooked } from '../show/comparison.js';
import { reserveChart, settled } from './plan.js';

/** {@link PlanWords} and the ways to compare. */
export interface CompareArguments extends PlanWords {
  readonly settings?: string;
  readonly way?: readonly string[];
  readonly json?: boolean;
  readonly chart?: string;
}

const SOME_HEAT = 'oven 230C to pull'; // read and dropped: the ways have their own

/**
 * Compares the ways and prints what came out.
 *
 * @returns whether any way came out
 * @throws RoastError for the options
 */
export async function runCompare(
  typed: CompareArguments,
  io: Io,
  version: string,
): Promise<boolean> {
  if (typed.at !== undefined) readChoice(typed.at, ['middle', 'thick', 'thin'], '--at');
  const { words } = await settled({ ...typed, stages: SOME_HEAT });
  const typedUnits = typed.way?.map(lineUnits).find((system) => system !== undefined);
  const { roast, request, units, assumed } = readPlanOptions({
    ...words,
    ...(words.units === undefined && words.weight === undefined && typedUnits !== undefined
      ? { units: typedUnits }
      : {}),
  });
  const chart = words.chart === undefined ? undefined : await reserveChart(words.chart);
  try {
    const aim = pointingAt(undefined, words, () => aimOf(roast, request));
    const ways =
      typed.way === undefined ? commonWays(aim.targetC) : readWays(typed.way, aim.point, roast);
    const comparison: Comparison = {
      roast,
      aim,
      ways: compareWays(roast, ways, request),
      units,
      assumed: [...(typed.way === undefined ? ['the usual five ways'] : []), ...assumed],
    };
    if (chart !== undefined) {
      const { compareChart } = await import('../show/compareChart.js');
      await chart.fill(await compareChart(comparison));
    }
    if (typed.json === true) {
      const { compareDocument } = await import('../show/compareDocument.js');
      io.out(`${JSON.stringify(compareDocument(comparison, version))}\n`);
    } else {
      const { compareReport } = await import('../show/compareText.js');
      io.out(compareReport(comparison, pc.createColors(io.color)));
    }
    return comparison.ways.some(isCooked);
  } finally {
    await chart?.drop();
  }
}

const aimOf = (roast: Roast, { aim, atRisk, portionKg }: PlanRequest) =>
  settleAim(roast, cutsOf(roast, portionKg), aim ?? {}, atRisk ?? false);
