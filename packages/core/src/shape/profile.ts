import { RoastError } from '../errors.js';
import { checkNumber } from '../units/index.js';

/**
 * How thick a roast is along its length. Cross-section AREA is piecewise linear between the knots, so that folding (areas add)
 * and scaling stay exact and mass never appears or vanishes by interpolation.
 */
export interface Profile {
  /** Knots along the length [m], from 0, never decreasing; two knots at one place make a step in area. */
  readonly atM: Float64Array;
  /** Cross-section area at the knots [m²], above 0. */
  readonly areaM2: Float64Array;
}

const AREA_PER_SQUARE = Math.PI / 4;

/**
 * Length [m].
 *
 * @example
 * 1000 * lengthOf(roast.profile) // => 523
 */
export const lengthOf = (profile: Profile): number => profile.atM[profile.atM.length - 1];

/**
 * Volume [m³]: exact for the piecewise linear area.
 *
 * @example
 * volumeOf(roast.profile) * roast.meat.densityKgPerM3 // => 2.2
 */
export function volumeOf({ atM, areaM2 }: Profile): number {
  let volume = 0;
  for (let i = 1; i < atM.length; i++) {
    volume += ((areaM2[i] + areaM2[i - 1]) / 2) * (atM[i] - atM[i - 1]);
  }
  return volume;
}

/**
 * Area [m²] at `positionM`; the end values hold beyond the ends.
 *
 * @example
 * areaAt(roast.profile, 0.1) // => 0.005
 */
export function areaAt({ atM, areaM2 }: Profile, positionM: number): number {
  const last = atM.length - 1;
  if (positionM <= atM[0]) return areaM2[0];
  if (positionM >= atM[last]) return areaM2[last];
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (atM[middle] <= positionM) low = middle;
    else high = middle;
  }
  const part = (positionM - atM[low]) / (atM[high] - atM[low]);
  return areaM2[low] + part * (areaM2[high] - areaM2[low]);
}

/**
 * Diameter [m] of the circle with the area at `positionM`.
 *
 * @example
 * 1000 * diameterAt(roast.profile, 0.1) // => 79
 */
export const diameterAt = (profile: Profile, positionM: number): number =>
  Math.sqrt(areaAt(profile, positionM) / AREA_PER_SQUARE);

/**
 * Largest area-equivalent diameter [m].
 *
 * @example
 * 1000 * greatestDiameter(roast.profile) // => 81
 */
export const greatestDiameter = ({ areaM2 }: Profile): number =>
  Math.sqrt(Math.max(...areaM2) / AREA_PER_SQUARE);

/**
 * Volume [m³] between two positions [m]: piece by piece, so that a step in area belongs to neither side by half.
 *
 * @example
 * volumeBetween(roast.profile, 0, lengthOf(roast.profile)) / volumeOf(roast.profile) // => 1
 */
export function volumeBetween({ atM, areaM2 }: Profile, fromM: number, toM: number): number {
  let volume = 0;
  for (let i = 1; i < atM.length; i++) {
    const from = Math.max(fromM, atM[i - 1]);
    const to = Math.min(toM, atM[i]);
    if (to <= from) continue;
    const slope = (areaM2[i] - areaM2[i - 1]) / (atM[i] - atM[i - 1]);
    const middle = areaM2[i - 1] + slope * ((from + to) / 2 - atM[i - 1]);
    volume += middle * (to - from);
  }
  return volume;
}

/** The part between two positions [m], cut square; its own positions begin at 0. */
export function profileBetween(profile: Profile, fromM: number, toM: number): Profile {
  const { atM, areaM2 } = profile;
  const inside = Array.from(atM.keys()).filter((i) => atM[i] > fromM && atM[i] < toM);
  return {
    atM: Float64Array.from([0, ...inside.map((i) => atM[i] - fromM), toM - fromM]),
    areaM2: Float64Array.from([
      areaAt(profile, fromM),
      ...inside.map((i) => areaM2[i]),
      areaAt(profile, toM),
    ]),
  };
}

/**
 * Position [m] up to which `share` (0 to 1) of the volume lies, from the first end.
 *
 * @example
 * 1000 * positionOfShare(roast.profile, 0.5) // => 237
 */
export function positionOfShare(profile: Profile, share: number): number {
  const { atM, areaM2 } = profile;
  let wanted = share * volumeOf(profile);
  for (let i = 1; i < atM.length; i++) {
    const width = atM[i] - atM[i - 1];
    if (width === 0) continue;
    const piece = ((areaM2[i] + areaM2[i - 1]) / 2) * width;
    if (wanted <= piece || i === atM.length - 1) {
      const slope = (areaM2[i] - areaM2[i - 1]) / width;
      const root = Math.sqrt(Math.max(0, areaM2[i - 1] ** 2 + 2 * slope * wanted));
      return Math.min(atM[i], atM[i - 1] + (2 * wanted) / (areaM2[i - 1] + root));
    }
    wanted -= piece;
  }
  return atM[atM.length - 1];
}

function checkPoints(points: readonly (readonly [number, number])[]): void {
  const wrong = (code: 'missing' | 'contradiction', sentence: string, at: number): never => {
    const accepted = 'two or more of [position, diameter], positions rising from 0';
    throw new RoastError(`${sentence}; accepted: ${accepted}`, {
      code,
      path: at < 0 ? ['points'] : ['points', at],
      found: at < 0 ? points : points[at],
      accepted,
    });
  };
  if (!Array.isArray(points) || points.length < 2) {
    wrong('missing', 'a profile needs two diameters or more', -1);
  }
  for (const [i, point] of points.entries()) {
    if (!Array.isArray(point)) wrong('contradiction', 'a point of the profile is no pair', i);
    const farthest = [0, Number.MAX_VALUE] as const;
    checkNumber(point[0], farthest, ['points', i, 0], 'a place of the profile');
    checkNumber(point[1], farthest, ['points', i, 1], 'a diameter of the profile');
    if (i === 0 ? point[0] !== 0 : !(point[0] > points[i - 1][0])) {
      wrong('contradiction', 'the places of the profile do not rise from 0', i);
    }
  }
}

const PIECES = 16; // knots put into each straight piece of diameter; its area is a parabola there

/**
 * Profile through diameters that vary in straight lines between the given positions.
 *
 * @param points - two or more of `[position, diameter]`, both [m] or both relative; positions strictly increasing from 0, diameters 0 (a tip) or more
 * @throws RoastError `missing`, `contradiction`, `not-a-number` or `out-of-range`
 * @example
 * const cone = profileFromDiameters([[0, 0.09], [0.3, 0.06]])
 * diameterAt(cone, 0.15) // => 0.075
 */
export function profileFromDiameters(
  points: readonly (readonly [position: number, diameter: number])[],
): Profile {
  checkPoints(points);
  const atM: number[] = [points[0][0]];
  const diameters: number[] = [points[0][1]];
  for (let i = 1; i < points.length; i++) {
    const [from, thickFrom] = points[i - 1];
    const [to, thickTo] = points[i];
    for (let piece = 1; piece <= PIECES; piece++) {
      const part = piece / PIECES;
      atM.push(piece === PIECES ? to : from + part * (to - from));
      diameters.push(thickFrom + part * (thickTo - thickFrom));
    }
  }
  return {
    atM: Float64Array.from(atM),
    areaM2: Float64Array.from(diameters, (d) => AREA_PER_SQUARE * d * d),
  };
}

/**
 * The same shape with lengths and diameters multiplied.
 *
 * @example
 * lengthOf(scaled(roast.profile, 0.5, 1)) / lengthOf(roast.profile) // => 0.5
 */
export function scaled(profile: Profile, lengthFactor: number, diameterFactor: number): Profile {
  return {
    atM: profile.atM.map((x) => x * lengthFactor),
    areaM2: profile.areaM2.map((a) => a * diameterFactor * diameterFactor),
  };
}

/** Scales the diameters so that the volume is `volumeM3` at unchanged length. */
export const withVolume = (profile: Profile, volumeM3: number): Profile =>
  scaled(profile, 1, Math.sqrt(volumeM3 / volumeOf(profile)));

/**
 * The mirrored profile: the other end first.
 *
 * @example
 * diameterAt(mirrored(roast.profile), 0) === diameterAt(roast.profile, lengthOf(roast.profile)) // => true
 */
export function mirrored({ atM, areaM2 }: Profile): Profile {
  const length = atM[atM.length - 1];
  return {
    atM: atM.map((_, i) => (i === 0 ? 0 : length - atM[atM.length - 1 - i])),
    areaM2: areaM2.slice().reverse(),
  };
}
