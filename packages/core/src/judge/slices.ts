import { type History, type Roast, seriesAt, stationsAround } from '../cook/index.js';
import { RoastError } from '../errors.js';
import { type Profile, positionOfShare, volumeBetween } from '../shape/index.js';
import { bandIndex, bandOf, doneThroughC, type Scale, upperEdge } from './scales.js';

/** Where a slice is cut, before anything is cooked. */
export interface Cut {
  readonly fromMm: number;
  readonly toMm: number;
  /** Half of the slice's weight lies on either side of here. */
  readonly middleMm: number;
  readonly rawKg: number;
}

/** A judged slice. */
export interface Slice extends Cut {
  /** Weight when the cook ends [kg]. */
  readonly servedKg: number;
  /** Hottest its axis became, at the middle [°C]. */
  readonly peakCentreC: number;
  readonly band: string;
  /** Share of the cross-section at the middle whose hottest moment lay within the band, 0 to 1. */
  readonly evenness: number;
  /** Thickness of what is done through from the outside inwards [mm]; the radius where the slice is done right through. */
  readonly rimMm: number;
  /** Diameter at the middle [mm]. */
  readonly diameterMm: number;
}

/** Raw weight of one portion [kg]: 8 oz. Common practice, no source. */
export const PORTION_KG = 0.227;

/** Raw weights of a portion that an order or an option may name [kg]. */
export const PORTION_RANGE_KG = [0.02, 2] as const;

/**
 * Cuts of equal raw weight, from the first end on.
 *
 * @param portionKg - wished raw weight of a slice [kg]; the count is rounded, at least 1 and at most 200
 * @example
 * cutsOf(roast).length // => 10
 */
export function cutsOf(roast: Roast, portionKg = PORTION_KG): Cut[] {
  if (!(portionKg > 0)) {
    throw new RoastError(`a portion of ${portionKg} kg cannot be cut`, {
      code: Number.isFinite(portionKg) ? 'out-of-range' : 'not-a-number',
      path: ['portionKg'],
      found: portionKg,
      accepted: 'a weight above 0',
    });
  }
  const count = Math.min(200, Math.max(1, Math.round(roast.massKg / portionKg)));
  const { profile } = roast;
  const at = (share: number): number => 1000 * positionOfShare(profile, share);
  return Array.from({ length: count }, (_, i) => ({
    fromMm: i === 0 ? 0 : at(i / count),
    toMm: at((i + 1) / count),
    middleMm: at((i + 0.5) / count),
    rawKg: roast.massKg / count,
  }));
}

/** Share of each station's mass that lies between two places [mm]. */
function overlaps(history: History, profile: Profile, fromMm: number, toMm: number): Float64Array {
  const { edgeM, rawKg } = history.body;
  return rawKg.map((kg, i) => {
    const from = Math.max(edgeM[i], fromMm / 1000);
    const to = Math.min(edgeM[i + 1], toMm / 1000);
    if (to <= from) return 0;
    return (volumeBetween(profile, from, to) * history.roast.meat.densityKgPerM3) / kg;
  });
}

/** Radii (as r/R) where a radial profile of hottest temperatures crosses `levelC`, by area: share of the area below the level. */
function areaBelow(nodes: Float64Array, hottestC: Float64Array, levelC: number): number {
  let area = 0;
  for (let j = 1; j < nodes.length; j++) {
    const inner = nodes[j - 1] ** 2;
    const outer = nodes[j] ** 2;
    const a = hottestC[j - 1];
    const b = hottestC[j];
    if (a < levelC && b < levelC) area += outer - inner;
    else if (a < levelC !== b < levelC) {
      const part = (levelC - a) / (b - a);
      area += a < levelC ? part * (outer - inner) : (1 - part) * (outer - inner);
    }
  }
  return area;
}

/** Radius (as r/R) of the outermost circle whose hottest temperature stays below `levelC`; 0 where none does. */
function outermostBelow(nodes: Float64Array, hottestC: Float64Array, levelC: number): number {
  const last = hottestC.findLastIndex((tempC) => tempC < levelC);
  if (last < 0) return 0;
  if (last === nodes.length - 1) return 1;
  const [inner, outer] = [nodes[last] ** 2, nodes[last + 1] ** 2];
  const part = (levelC - hottestC[last]) / (hottestC[last + 1] - hottestC[last]);
  return Math.sqrt(inner + part * (outer - inner)); // straight in the area, as for the bands
}

/**
 * Hottest temperatures along the radius at a place [°C].
 *
 * @example
 * const fromAxisToSurfaceC = hottestProfile(cook, 200)
 */
export function hottestProfile(history: History, atMm: number): Float64Array {
  const nodes = history.body.body.mesh.shells + 1;
  const { station, next, part } = stationsAround(history.body, atMm);
  return Float64Array.from({ length: nodes }, (_, j) => {
    const a = history.hottestC[station * nodes + j];
    return a + part * (history.hottestC[next * nodes + j] - a);
  });
}

/**
 * Share of the cross-section at a place whose hottest moment lay from `fromC` up to `toC` [°C], 0 to 1.
 *
 * @example
 * shareWithin(cook, 200, -Infinity, Infinity) // => 1
 */
export function shareWithin(history: History, atMm: number, fromC: number, toC: number): number {
  const { node } = history.body.body.mesh;
  const hottestC = hottestProfile(history, atMm);
  return areaBelow(node, hottestC, toC) - areaBelow(node, hottestC, fromC);
}

/**
 * Judges cuts by what happened to them.
 *
 * @example
 * judgeSlices(cook, cutsOf(roast, 0.3), SCALES.amsa).map(({ band }) => band)
 */
export function judgeSlices(history: History, cuts: readonly Cut[], scale: Scale): Slice[] {
  const { profile } = history.roast;
  const { node } = history.body.body.mesh;
  const throughC = doneThroughC(scale);
  return cuts.map((cut) => {
    const hottestC = hottestProfile(history, cut.middleMm);
    const peakCentreC = hottestC[0];
    const index = bandIndex(scale, peakCentreC);
    const within =
      areaBelow(node, hottestC, upperEdge(scale, index)) -
      areaBelow(node, hottestC, scale.bands[index].fromC);
    const share = overlaps(history, profile, cut.fromMm, cut.toMm);
    const lostKg = share.reduce(
      (sum, part, i) => sum + part * (history.evaporatedKg[i] + history.drippedKg[i]),
      0,
    );
    const diameterMm =
      1000 *
      seriesAt(
        history.body.diameterM,
        history.body.body.stations,
        0,
        stationsAround(history.body, cut.middleMm),
      );
    return {
      ...cut,
      servedKg: cut.rawKg - lostKg,
      peakCentreC,
      band: bandOf(scale, peakCentreC).name,
      evenness: within,
      rimMm: ((1 - outermostBelow(node, hottestC, throughC)) * diameterMm) / 2,
      diameterMm,
    };
  });
}

/**
 * Cuts a cooked roast into portions and judges each.
 *
 * @example
 * const slices = sliceRoast(cook, SCALES.kitchen)
 */
export const sliceRoast = (history: History, scale: Scale, portionKg = PORTION_KG): Slice[] =>
  judgeSlices(history, cutsOf(history.roast, portionKg), scale);

/** Cooking loss of the whole roast. */
export interface CookingLoss {
  readonly evaporatedKg: number;
  readonly drippedKg: number;
  /** Share of the raw mass. */
  readonly fraction: number;
}

/**
 * Loss at the end of a history: evaporated and dripped.
 *
 * @example
 * cookingLoss(cook).fraction === plan.loss.fraction // => true
 */
export function cookingLoss(history: History): CookingLoss {
  const sum = (values: Float64Array): number => values.reduce((a, b) => a + b, 0);
  const evaporatedKg = sum(history.evaporatedKg);
  const drippedKg = sum(history.drippedKg);
  return { evaporatedKg, drippedKg, fraction: (evaporatedKg + drippedKg) / history.roast.massKg };
}
