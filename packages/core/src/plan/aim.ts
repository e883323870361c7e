import type { Point, Roast } from '../cook/index.js';
import { RoastError } from '../errors.js';
import {
  type Band,
  bandNamed,
  bandOf,
  type Cut,
  SAFETY_LIMITS,
  SCALES,
  type Scale,
  TARGET_C,
} from '../judge/index.js';
import { checkName } from '../units/index.js';

/** Which slice is to come out as wished: the one in the middle by weight, the thickest or the thinnest. */
export type AimAt = 'middle' | 'thick' | 'thin';

/** What a cook wishes for. */
export interface AimRequest {
  /** Default `SCALES.kitchen`. */
  readonly scale?: Scale;
  /** A band of the scale or a centre temperature at the peak [°C], 35 to 85; default medium-rare. */
  readonly doneness?: string | number;
  /** Default `middle`. */
  readonly at?: AimAt;
}

/** The wish, settled. */
export interface Aim {
  readonly scale: Scale;
  readonly band: Band;
  readonly targetC: number;
  /** `coldest` where the safety rules decide. */
  readonly at: AimAt | 'coldest';
  /** Index of the aimed-at slice; -1 for the coldest axis. */
  readonly slice: number;
  readonly point: Point;
}

const AIMS: readonly AimAt[] = ['middle', 'thick', 'thin'];
const DEFAULT_BAND = 'medium-rare';

function targetOf(scale: Scale, doneness: string | number): { band: Band; targetC: number } {
  if (typeof doneness === 'string') {
    const band = bandNamed(scale, doneness);
    return { band, targetC: band.targetC };
  }
  if (!(doneness >= TARGET_C[0] && doneness <= TARGET_C[1])) {
    throw new RoastError(
      `the middle is to peak at ${doneness} °C; it can be ${TARGET_C[0]} to ${TARGET_C[1]} °C`,
      {
        code: Number.isFinite(doneness) ? 'out-of-range' : 'not-a-number',
        path: ['doneness'],
        found: doneness,
        accepted: `${TARGET_C[0]} to ${TARGET_C[1]} °C, or ${scale.bands.map((b) => b.name).join(', ')}`,
      },
    );
  }
  return { band: bandOf(scale, doneness), targetC: doneness };
}

function sliceAt(cuts: readonly Cut[], at: AimAt): number {
  if (at === 'middle') return Math.floor((cuts.length - 1) / 2);
  const length = (cut: Cut): number => cut.toMm - cut.fromMm;
  // slices weigh the same, so the shortest is the thickest
  const better = at === 'thick' ? (a: number, b: number) => a < b : (a: number, b: number) => a > b;
  return cuts.reduce((best, cut, i) => (better(length(cut), length(cuts[best])) ? i : best), 0);
}

/**
 * Settles what to aim for. Meat that is not intact and people at risk leave no choice below the whole-cut guidance: there the
 * coldest axis is aimed at, and a lower wish is refused.
 *
 * @throws RoastError `unknown-name`, `out-of-range` or `unsafe`
 * @example
 * settleAim(roast, cutsOf(roast), { doneness: 'rare', at: 'thick' }, false).targetC // => 50
 */
export function settleAim(
  roast: Roast,
  cuts: readonly Cut[],
  request: AimRequest,
  atRisk: boolean,
): Aim {
  const scale = request.scale ?? SCALES.kitchen;
  if (!roast.intact || atRisk) {
    const { wholeCutC } = SAFETY_LIMITS;
    const { band, targetC } = targetOf(scale, request.doneness ?? wholeCutC);
    if (targetC < wholeCutC) {
      throw new RoastError(
        `${roast.intact ? 'with people at risk' : 'for meat that is not intact'} the coldest spot must reach ` +
          `${wholeCutC} °C (145 °F) before the heat ends; the aim is ${targetC} °C`,
        {
          code: 'unsafe',
          path: ['doneness'],
          found: request.doneness,
          accepted: `${wholeCutC} °C or more`,
        },
      );
    }
    return { scale, band, targetC, at: 'coldest', slice: -1, point: { atMm: 'coldest' } };
  }
  const { band, targetC } = targetOf(scale, request.doneness ?? DEFAULT_BAND);
  const at = checkName(request.at ?? 'middle', AIMS, ['at'], 'the slice aimed at');
  const slice = sliceAt(cuts, at);
  return { scale, band, targetC, at, slice, point: { atMm: cuts[slice].middleMm } };
}
