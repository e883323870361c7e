import { RoastError } from '../errors.js';
import { diameterFromGirth } from './crossSection.js';
import { CUTS, type TenderloinCut } from './cuts.js';
import { foldTail } from './fold.js';
import {
  areaAt,
  greatestDiameter,
  lengthOf,
  type Profile,
  profileFromDiameters,
  scaled,
  volumeOf,
  withVolume,
} from './profile.js';
import { checkRange, DIAMETER_MM, LENGTH_MM, MASS_KG } from './ranges.js';
import { TIED_ASPECT, tied } from './tie.js';

/** A size read off a tape or a calliper; `atMm` is measured from the butt (first) end of the roast as it goes in. */
export interface Measure {
  readonly sizeMm: number;
  readonly atMm?: number;
}

/** What is known of a roast's shape. Give a weight, a tape's figures, or both. */
export interface ShapeRequest {
  /** Trimmed raw mass [kg], 0.05 to 12. */
  readonly massKg?: number;
  /** Raw density [kg/m³]. */
  readonly densityKgPerM3: number;
  /** A tenderloin cut, or `other` for any round roast described by its diameters. */
  readonly cut: TenderloinCut | 'other';
  /** Thin tail folded under; only whole tenderloins. */
  readonly folded: boolean;
  readonly tied: boolean;
  /** Where the tail is folded, as a share of the length. */
  readonly foldAt: number;
  /** Length as it goes in [mm]. */
  readonly lengthMm?: number;
  readonly girths?: readonly Measure[];
  readonly diameters?: readonly Measure[];
}

/** The shape that goes into the oven. */
export interface RoastShape {
  readonly profile: Profile;
  readonly massKg: number;
  /** Height over width of every cross-section. */
  readonly aspect: number;
  /** Where the doubled part of a folded tail begins [m]. */
  readonly doubledFromM?: number;
  /** Mass the tape's figures alone would give [kg], where they fix one. */
  readonly tapeMassKg?: number;
  /** Length usual for the cut and weight [mm], where a measured one replaced it. */
  readonly usualLengthMm?: number;
}

/** Default place of the fold: 0.80 of the length evens the diameter best but for 0.75 and is easier to tie; see docs/model.md. */
export const FOLD_AT = 0.8;

const GREATEST_MISMATCH = 2; // beyond a factor of two, weight and tape do not speak of the same roast
const OTHER_ASPECT = 0.85;

/** Diameters from everything the tape gave, in order of position; unplaced ones last. */
function diametersOf(request: ShapeRequest, aspect: number): Measure[] {
  const measures: Measure[] = [];
  for (const [field, list] of [
    ['girths', request.girths ?? []],
    ['diameters', request.diameters ?? []],
  ] as const) {
    for (const { sizeMm, atMm } of list) {
      const diameterMm =
        field === 'girths' ? 1000 * diameterFromGirth(sizeMm / 1000, aspect) : sizeMm;
      checkRange(diameterMm, DIAMETER_MM, field, 'the diameter by the tape', 'mm');
      if (atMm !== undefined) {
        checkRange(atMm, [0, LENGTH_MM[1]], field, 'the place of a measurement', 'mm');
      }
      measures.push(atMm === undefined ? { sizeMm: diameterMm } : { sizeMm: diameterMm, atMm });
    }
  }
  measures.sort(
    (a, b) => (a.atMm ?? Number.POSITIVE_INFINITY) - (b.atMm ?? Number.POSITIVE_INFINITY),
  );
  const field = request.girths?.length ? 'girths' : 'diameters';
  for (let i = 1; i < measures.length; i++) {
    if (measures[i].atMm === undefined) {
      throw new RoastError('several measurements need their places along the roast', {
        code: 'missing',
        path: [field],
        found: measures[i].sizeMm,
        accepted: 'one size, or several with their places: 24cm@5cm, 26cm@20cm',
      });
    }
    if (measures[i].atMm === measures[i - 1].atMm) {
      throw new RoastError(
        `two sizes are given at ${measures[i].atMm} mm: ${measures[i - 1].sizeMm} and ${measures[i].sizeMm} mm across`,
        {
          code: 'contradiction',
          path: [field],
          found: measures[i].sizeMm,
          accepted: 'one size at each place',
        },
      );
    }
  }
  return measures;
}

/** Relative shape of the cut as it goes in: folded and tied as asked, greatest diameter 1, length 1. */
function relativeShape(request: ShapeRequest): {
  profile: Profile;
  aspect: number;
  doubledFrom?: number;
} {
  if (request.cut === 'other') {
    return {
      profile: profileFromDiameters([
        [0, 1],
        [1, 1],
      ]),
      aspect: OTHER_ASPECT,
    };
  }
  const cut = CUTS[request.cut];
  const aspect = request.tied ? TIED_ASPECT : cut.aspect;
  let profile = cut.profile;
  let doubledFrom: number | undefined;
  if (request.folded) {
    if (request.cut !== 'whole') {
      throw new RoastError(`a ${request.cut} cut has no thin tail to fold`, {
        code: 'contradiction',
        path: ['folded'],
        found: true,
        accepted: 'folding for a whole tenderloin only',
      });
    }
    checkRange(request.foldAt, [0.55, 0.95], 'foldAt', 'the place of the fold', 'of the length');
    const folded = foldTail(profile, request.foldAt);
    profile = folded.profile;
    doubledFrom = folded.doubledFromM / lengthOf(profile);
  } else if (request.tied && !cut.evenAsCut) profile = tied(profile);
  const length = lengthOf(profile);
  const shape = { profile: scaled(profile, 1 / length, 1), aspect };
  return doubledFrom === undefined ? shape : { ...shape, doubledFrom };
}

/** Profile through three or more measured diameters; beyond the outermost ones the cut's own taper goes on. */
function measuredProfile(
  relative: Profile,
  measures: readonly Measure[],
  lengthM: number,
): Profile {
  const points: (readonly [number, number])[] = measures.map((m) => [
    (m.atMm ?? 0) / 1000,
    m.sizeMm / 1000,
  ]);
  const taper = (toShare: number, fromShare: number): number =>
    Math.sqrt(areaAt(relative, toShare) / areaAt(relative, fromShare));
  const [firstAt, first] = points[0];
  const [lastAt, last] = points[points.length - 1];
  if (firstAt > 0) points.unshift([0, first * taper(0, firstAt / lengthM)]);
  if (lastAt < lengthM) points.push([lengthM, last * taper(1, lastAt / lengthM)]);
  return profileFromDiameters(points);
}

/** How much thicker than the relative shape the tape says the roast is [m]: least squares over the measured places. */
function thicknessFromTape(
  relative: Profile,
  measures: readonly Measure[],
  lengthM: number,
): number {
  let top = 0;
  let bottom = 0;
  for (const { sizeMm, atMm } of measures) {
    const shape =
      atMm === undefined
        ? greatestDiameter(relative)
        : Math.sqrt(areaAt(relative, Math.min(1, atMm / 1000 / lengthM)) / (Math.PI / 4));
    top += (sizeMm / 1000) * shape;
    bottom += shape * shape;
  }
  return top / bottom;
}

const missing = (field: string, sentence: string, accepted: string): RoastError =>
  new RoastError(sentence, { code: 'missing', path: [field], found: undefined, accepted });

/**
 * Shape of a roast from its weight, its cut and whatever a tape added. Mass, length and profile always agree: the volume of the
 * profile times the density is the mass.
 *
 * @throws RoastError `out-of-range`, `missing` (neither weight nor enough tape figures) or `contradiction` (weight and tape more
 *   than a factor of two apart, a place beyond the length, folding a cut without tail)
 */
export function roastShape(request: ShapeRequest): RoastShape {
  const { massKg, lengthMm, densityKgPerM3 } = request;
  if (massKg !== undefined) checkRange(massKg, MASS_KG, 'massKg', 'the weight', 'kg');
  if (lengthMm !== undefined) checkRange(lengthMm, LENGTH_MM, 'lengthMm', 'the length', 'mm');
  const { profile: relative, aspect, doubledFrom } = relativeShape(request);
  const measures = diametersOf(request, aspect);
  const lastAt = measures.at(-1)?.atMm;
  if (lengthMm !== undefined && lastAt !== undefined && lastAt > lengthMm) {
    throw new RoastError(`a size is given ${lastAt} mm along a roast that is ${lengthMm} mm long`, {
      code: 'contradiction',
      path: ['lengthMm'],
      found: lengthMm,
      accepted: `a length of at least ${lastAt} mm`,
    });
  }
  const wantedM3 = massKg === undefined ? undefined : massKg / densityKgPerM3;
  const finish = (profile: Profile, tapeMassKg?: number, usualLengthMm?: number): RoastShape => {
    const thickMm = 1000 * greatestDiameter(profile);
    checkRange(thickMm, DIAMETER_MM, 'diameters', 'the thickest diameter', 'mm');
    checkRange(1000 * lengthOf(profile), LENGTH_MM, 'lengthMm', 'the length', 'mm');
    return {
      profile,
      massKg: massKg ?? densityKgPerM3 * volumeOf(profile),
      aspect,
      ...(doubledFrom === undefined ? {} : { doubledFromM: doubledFrom * lengthOf(profile) }),
      ...(tapeMassKg === undefined ? {} : { tapeMassKg }),
      ...(usualLengthMm === undefined ? {} : { usualLengthMm }),
    };
  };

  if (lengthMm !== undefined && measures.length > 0) {
    const lengthM = lengthMm / 1000;
    const profile =
      measures.length > 2
        ? measuredProfile(relative, measures, lengthM)
        : scaled(relative, lengthM, thicknessFromTape(relative, measures, lengthM));
    const tapeMassKg = densityKgPerM3 * volumeOf(profile);
    if (wantedM3 === undefined) return finish(profile, tapeMassKg);
    checkMismatch(massKg ?? 0, tapeMassKg, request);
    return finish(withVolume(profile, wantedM3), tapeMassKg);
  }
  if (massKg === undefined || wantedM3 === undefined) {
    throw measures.length > 0
      ? missing('lengthMm', 'sizes without a length do not fix the roast', 'a weight or a length')
      : missing('massKg', 'the weight is missing', 'a weight, or a length and diameters');
  }
  if (measures.length > 0) {
    const profile = profileOfWeight(relative, measures, wantedM3);
    const tapeMassKg = densityKgPerM3 * volumeOf(profile);
    checkMismatch(massKg, tapeMassKg, request);
    return finish(withVolume(profile, wantedM3), tapeMassKg);
  }
  if (request.cut === 'other' && lengthMm === undefined) {
    throw missing(
      'diameters',
      'a roast that is not a tenderloin needs a diameter, a girth or a length',
      'a diameter, a girth or a length',
    );
  }
  const usualM =
    request.cut === 'other'
      ? undefined
      : usualLength(request.cut, massKg, wantedM3) * (request.folded ? request.foldAt : 1);
  if (lengthMm === undefined) {
    return finish(withVolume(scaled(relative, usualM ?? 1, 0.1), wantedM3));
  }
  const profile = withVolume(scaled(relative, lengthMm / 1000, 0.1), wantedM3);
  if (usualM === undefined) return finish(profile);
  if (lengthMm / 1000 > 2 * usualM || lengthMm / 1000 < usualM / 2) {
    throw new RoastError(
      `${lengthMm} mm is too far from the ${Math.round(1000 * usualM)} mm usual for this weight and cut`,
      {
        code: 'contradiction',
        path: ['lengthMm'],
        found: lengthMm,
        accepted: `${Math.round(500 * usualM)} to ${Math.round(2000 * usualM)} mm`,
      },
    );
  }
  return finish(profile, undefined, 1000 * usualM);
}

/** Length [m] of a cut as it lies, before folding: from its weight and the thickness usual for it. Tying keeps it. */
function usualLength(cut: TenderloinCut, massKg: number, volumeM3: number): number {
  const { profile, scaleM, power } = CUTS[cut];
  return lengthForThickness(profile, scaleM * massKg ** power, volumeM3);
}

/** Length [m] at which the relative shape with a greatest diameter [m] holds a volume [m³]. */
const lengthForThickness = (relative: Profile, thickM: number, volumeM3: number): number =>
  volumeM3 / (volumeOf(relative) * (thickM / greatestDiameter(relative)) ** 2);

/** Profile from weight and sizes without a length: the length follows, as long as the sizes leave room for it. */
function profileOfWeight(
  relative: Profile,
  measures: readonly Measure[],
  volumeM3: number,
): Profile {
  const lastM = (measures.at(-1)?.atMm ?? 0) / 1000;
  if (measures.length > 2) {
    let low = lastM;
    if (volumeOf(measuredProfile(relative, measures, low)) >= volumeM3) {
      return measuredProfile(relative, measures, low);
    }
    let high = LENGTH_MM[1] / 1000;
    for (let round = 0; round < 60; round++) {
      const middle = (low + high) / 2;
      if (volumeOf(measuredProfile(relative, measures, middle)) < volumeM3) low = middle;
      else high = middle;
    }
    return measuredProfile(relative, measures, high);
  }
  let lengthM = Math.max(lastM, lengthForThickness(relative, measures[0].sizeMm / 1000, volumeM3));
  for (let round = 0; round < 60; round++) {
    const factor = thicknessFromTape(relative, measures, lengthM);
    const next = lengthForThickness(relative, factor * greatestDiameter(relative), volumeM3);
    lengthM = Math.max(lastM, (lengthM + next) / 2);
  }
  return scaled(relative, lengthM, thicknessFromTape(relative, measures, lengthM));
}

function checkMismatch(massKg: number, tapeMassKg: number, request: ShapeRequest): void {
  const ratio = massKg / tapeMassKg;
  if (ratio <= GREATEST_MISMATCH && ratio >= 1 / GREATEST_MISMATCH) return;
  const said = massKg.toFixed(2);
  const measured = tapeMassKg.toFixed(2);
  throw new RoastError(
    `the scale says ${said} kg, the tape says ${measured} kg: they do not measure the same roast`,
    {
      code: 'contradiction',
      path: [request.girths?.length ? 'girths' : 'diameters'],
      found: tapeMassKg,
      accepted: 'weight and tape within a factor of two',
      hint: 'check the units, and whether a girth was given as a diameter',
    },
  );
}
