import { RoastError } from '../errors.js';
import { type Body, radialMesh } from '../heat/index.js';
import { COMPOSITIONS, type Composition, type Meat, meatOf } from '../meat/index.js';
import {
  areaAt,
  CUTS,
  FOLD_AT,
  lengthOf,
  lineRadius,
  type Measure,
  ownShape,
  type Profile,
  type RoastShape,
  roastShape,
  type ShapeRequest,
  type TenderloinCut,
  volumeBetween,
} from '../shape/index.js';
import { checkName } from '../units/index.js';

/** A roast as it comes out of the refrigerator: shape, matter and temperature. */
export interface Roast {
  readonly cut: TenderloinCut | 'other';
  readonly massKg: number;
  readonly profile: Profile;
  /** Height over width of the cross-sections. */
  readonly aspect: number;
  readonly folded: boolean;
  readonly tied: boolean;
  /** Where the doubled part of a folded tail begins [m from the first end]. */
  readonly doubledFromM?: number;
  /** False for meat that was mechanically tenderised, injected or rolled. */
  readonly intact: boolean;
  /** Uniform start temperature [°C]. */
  readonly startC: number;
  readonly meat: Meat;
  /** Mass by the tape alone [kg], where the tape fixes one. */
  readonly tapeMassKg?: number;
  /** Length usual for the cut and weight [mm], where a measured one replaced it. */
  readonly usualLengthMm?: number;
}

/** What to say about a roast. Give `massKg`, or a length with diameters or girths. */
export interface RoastOptions {
  /** Trimmed raw weight [kg], 0.05 to 12. */
  readonly massKg?: number;
  /** Refrigerator temperature [°C], -1.5 (meat freezes near -1.7 °C) to 30; default 4. */
  readonly startC?: number;
  /** Default true; false for mechanically tenderised, injected or rolled meat. */
  readonly intact?: boolean;
  /** Default true. */
  readonly tied?: boolean;
  /** Length as it goes in [mm]. */
  readonly lengthMm?: number;
  /** Distances round the roast [mm] and their places from the butt end [mm]. */
  readonly girths?: readonly Measure[];
  /** Diameters [mm] and their places from the butt end [mm]. */
  readonly diameters?: readonly Measure[];
  /** Mass fractions; default lean tenderloin. */
  readonly composition?: Composition;
}

/** {@link RoastOptions} of a tenderloin. */
export interface TenderloinOptions extends RoastOptions {
  /** Default `whole`. */
  readonly cut?: TenderloinCut;
  /** Thin tail folded under; default true for a whole tenderloin, false for the other cuts. */
  readonly folded?: boolean;
  /** Where the tail is folded, as a share of the length; default 0.8. */
  readonly foldAt?: number;
}

/** Refrigerator temperature assumed [°C]: at most 4.4 °C (40 °F) by USDA FSIS. */
export const FRIDGE_C = 4;
const START_C = [-1.5, 30] as const;

const TENDERLOIN_CUTS = Object.keys(CUTS) as TenderloinCut[];

/** What all roasts have beside their shape. */
type Matter = Pick<RoastOptions, 'startC' | 'intact' | 'tied' | 'composition'>;

function make(
  options: Matter,
  cut: Roast['cut'],
  folded: boolean,
  shapeOf: (densityKgPerM3: number, tied: boolean) => RoastShape,
): Roast {
  const startC = options.startC ?? FRIDGE_C;
  if (!(startC >= START_C[0] && startC <= START_C[1])) {
    throw new RoastError(
      `the meat starts at ${startC} °C; it can start at ${START_C[0]} (it freezes just below) to ${START_C[1]} °C`,
      {
        code: Number.isFinite(startC) ? 'out-of-range' : 'not-a-number',
        path: ['startC'],
        found: startC,
        accepted: `${START_C[0]} to ${START_C[1]} °C`,
      },
    );
  }
  const meat = meatOf({ composition: options.composition ?? COMPOSITIONS['lean-tenderloin'] });
  const tied = options.tied ?? true;
  const { profile, massKg, aspect, ...rest } = shapeOf(meat.densityKgPerM3, tied);
  return {
    cut,
    massKg,
    profile,
    aspect,
    folded,
    tied,
    intact: options.intact ?? true,
    startC,
    meat,
    ...rest,
  };
}

/** A shape from weight and tape. */
const described =
  (options: RoastOptions, shape: Pick<ShapeRequest, 'cut' | 'folded' | 'foldAt'>) =>
  (densityKgPerM3: number, tied: boolean): RoastShape =>
    roastShape({
      ...shape,
      tied,
      densityKgPerM3,
      ...pick(options, ['massKg', 'lengthMm', 'girths', 'diameters']),
    });

/** The named fields that are set. */
function pick<T extends object, K extends keyof T>(from: T, keys: readonly K[]): Pick<T, K> {
  return Object.fromEntries(
    keys.filter((key) => from[key] !== undefined).map((key) => [key, from[key]]),
  ) as Pick<T, K>;
}

/**
 * A tenderloin roast.
 *
 * @throws RoastError see {@link RoastOptions} and {@link TenderloinOptions} for what is accepted
 * @example
 * const roast = tenderloin({ massKg: 2.2 }) // whole, tail folded, tied, 4 °C
 */
export function tenderloin(options: TenderloinOptions): Roast {
  const cut = checkName(options.cut ?? 'whole', TENDERLOIN_CUTS, ['cut'], 'the cut');
  const folded = options.folded ?? cut === 'whole';
  const foldAt = options.foldAt ?? FOLD_AT;
  return make(options, cut, folded, described(options, { cut, folded, foldAt }));
}

/**
 * Any other boneless roast of round cross-section, described by its diameters or girths.
 *
 * @example
 * const roast = roundRoast({ massKg: 1.13, diameters: [{ sizeMm: 88 }] })
 */
export const roundRoast = (options: RoastOptions): Roast =>
  make(
    options,
    'other',
    false,
    described(options, { cut: 'other', folded: false, foldAt: FOLD_AT }),
  );

/** What to say about a roast whose profile is known, beside the profile. */
export interface ProfileOptions
  extends Pick<RoastOptions, 'massKg' | 'startC' | 'intact' | 'tied' | 'composition'> {
  /** What it is a piece of; default `other`, which says that the model was made for tenderloins. */
  readonly cut?: Roast['cut'];
  /** Height over width of every cross-section, 0.5 to 1; default 1. */
  readonly aspect?: number;
}

/**
 * A roast of the caller's own shape: from a scan, another program, or `profileFromDiameters`. It goes in as it is, nothing is folded or
 * tied any more; `tied` only tells the words about untying. With `massKg` the diameters are scaled to that weight.
 *
 * @param profile - 40 to 1200 mm long, 20 to 250 mm across where it is thickest, no knot below 5 mm
 * @throws RoastError `out-of-range`, `not-a-number`, `contradiction`
 * @example
 * const cone = profileFromDiameters([[0, 0.09], [0.3, 0.06]]) // places and diameters [m]
 * massText(roastOfProfile(cone).massKg, 'metric') // => '1.41 kg'
 */
export const roastOfProfile = (profile: Profile, options: ProfileOptions = {}): Roast =>
  make(options, options.cut ?? 'other', false, (densityKgPerM3) =>
    ownShape(profile, options.aspect ?? 1, densityKgPerM3, options.massKg),
  );

/** How finely a roast is cut into numbers. */
export interface Resolution {
  /** Stations along the length, 1 to 400; default 40. */
  readonly stations?: number;
  /** Shells of each radial line, 4 to 1024; default 32. */
  readonly shells?: number;
  /** Heat along the axis and through the end faces; default true. False leaves pure radial lines. */
  readonly axial?: boolean;
}

/** A body for the solver and where its stations stand. */
export interface RoastBody {
  readonly body: Body;
  /** Edges between stations [m], one more than stations. */
  readonly edgeM: Float64Array;
  /** Middles of the stations [m]. */
  readonly atM: Float64Array;
  /** Area-equivalent diameters of the stations [m]. */
  readonly diameterM: Float64Array;
  /** True raw mass of each station [kg]. */
  readonly rawKg: Float64Array;
}

/** Stations along the length when nothing else is asked for. Odd: one stands in the middle, where an even roast is coldest. */
export const DEFAULT_STATIONS = 43;
/** Shells of each line when nothing else is asked for. */
export const DEFAULT_SHELLS = 32;

/** Stations crowd towards both ends, where heat comes in from the end faces: z = L G(u), G = (2u)² / 2, mirrored. */
function edges(stations: number, lengthM: number): Float64Array {
  return Float64Array.from({ length: stations + 1 }, (_, i) => {
    const u = i / stations;
    return lengthM * (u <= 0.5 ? 2 * u * u : 1 - 2 * (1 - u) * (1 - u));
  });
}

const SLANT_PIECES = 8;

/**
 * Cuts a roast into stations. Each keeps its exact share of the mass; heat uses the radius of the equivalent round line.
 *
 * @throws RoastError `out-of-range` for stations or shells
 * @example
 * const { atM, rawKg } = bodyOf(roast, { stations: 10 })
 * rawKg.reduce((a, b) => a + b) // => 2.2
 */
export function bodyOf(roast: Roast, resolution: Resolution = {}): RoastBody {
  const stations = resolution.stations ?? DEFAULT_STATIONS;
  if (!Number.isInteger(stations) || stations < 1 || stations > 400) {
    throw new RoastError(`a roast has ${stations} stations; it takes a whole number, 1 to 400`, {
      code: 'out-of-range',
      path: ['stations'],
      found: stations,
      accepted: 'a whole number from 1 to 400',
    });
  }
  const axial = resolution.axial ?? true;
  const mesh = radialMesh(resolution.shells ?? DEFAULT_SHELLS, 1);
  const edgeM = edges(stations, lengthOf(roast.profile));
  const atM = new Float64Array(stations);
  const diameterM = new Float64Array(stations);
  const rawKg = new Float64Array(stations);
  const radiusM = new Float64Array(stations);
  const lengthM = new Float64Array(stations);
  const sideM2 = new Float64Array(stations);
  const massFactor = new Float64Array(stations);
  const radiusAt = (at: number): number =>
    lineRadius(Math.sqrt((4 / Math.PI) * areaAt(roast.profile, at)), roast.aspect);
  for (let i = 0; i < stations; i++) {
    const from = edgeM[i];
    const width = edgeM[i + 1] - from;
    const volume = volumeBetween(roast.profile, from, edgeM[i + 1]);
    atM[i] = from + width / 2;
    lengthM[i] = width;
    diameterM[i] = Math.sqrt(((4 / Math.PI) * volume) / width);
    radiusM[i] = lineRadius(diameterM[i], roast.aspect);
    rawKg[i] = volume * roast.meat.densityKgPerM3;
    massFactor[i] = volume / (Math.PI * radiusM[i] ** 2 * width);
    let slant = 0;
    for (let piece = 0; piece < SLANT_PIECES; piece++) {
      const step = width / SLANT_PIECES;
      const at = from + piece * step;
      slant += Math.hypot(step, radiusAt(at + step) - radiusAt(at));
    }
    sideM2[i] = 2 * Math.PI * radiusM[i] * slant;
  }
  return {
    body: { mesh, stations, radiusM, lengthM, sideM2, massFactor, endsExposed: axial, axial },
    edgeM,
    atM,
    diameterM,
    rawKg,
  };
}

/**
 * Radial lines alone, one at each of a few places: the quick stand-in for a whole roast where many cooks are wanted. Heat along
 * the axis is left out. The lines share the outside of the whole roast, end faces included, by nearness, so that the vapour they
 * give to a closed oven is that of the whole.
 *
 * @param placesMm - places along the roast [mm], rising
 * @param shells - 4 to 1024
 * @example
 * const body = linesOf(roast, [100, 300], 16)
 * const quick = simulate(roast, [roastIn({ ovenC: 230, until: { minutes: 30 } })], { body })
 * quick.body.body.stations // => 2
 */
export function linesOf(roast: Roast, placesMm: readonly number[], shells: number): RoastBody {
  const { profile, aspect, meat } = roast;
  const whole = bodyOf(roast, { shells: 4, axial: false });
  const pieces = whole.body.stations;
  const stations = placesMm.length;
  const mesh = radialMesh(shells, 1);
  const atM = Float64Array.from(placesMm, (mm) => mm / 1000);
  const edgeM = Float64Array.from({ length: stations + 1 }, (_, i) =>
    i === 0 ? 0 : i === stations ? lengthOf(profile) : (atM[i - 1] + atM[i]) / 2,
  );
  const areaM2 = atM.map((at) => areaAt(profile, at));
  const diameterM = areaM2.map((area) => Math.sqrt((4 / Math.PI) * area));
  const radiusM = diameterM.map((diameter) => lineRadius(diameter, aspect));
  const sideM2 = new Float64Array(stations);
  for (let piece = 0, line = 0; piece < pieces; piece++) {
    while (line < stations - 1 && whole.atM[piece] > edgeM[line + 1]) line++;
    sideM2[line] += whole.body.sideM2[piece];
  }
  for (const [line, end] of [
    [0, 0],
    [stations - 1, pieces - 1],
  ]) {
    sideM2[line] += Math.PI * whole.body.radiusM[end] ** 2;
  }
  const lengthM = sideM2.map((side, i) => side / (2 * Math.PI * radiusM[i]));
  const massFactor = areaM2.map((area, i) => area / (Math.PI * radiusM[i] ** 2));
  const rawKg = areaM2.map((area, i) => area * lengthM[i] * meat.densityKgPerM3);
  return {
    body: {
      mesh,
      stations,
      radiusM,
      lengthM,
      sideM2,
      massFactor,
      endsExposed: false,
      axial: false,
    },
    edgeM,
    atM,
    diameterM,
    rawKg,
  };
}

/**
 * The same body thicker by a factor and shorter in return, so that it weighs what it did: what a doubt about the diameter of a
 * roast of known weight means. Places keep their names, so that points stay where they were.
 */
export function thickened(whole: RoastBody, factor: number): RoastBody {
  const { body, edgeM, atM, diameterM, rawKg } = whole;
  const { mesh, stations, radiusM, lengthM, sideM2, massFactor, endsExposed, axial } = body;
  // written out, not spread: objects of one layout keep the compiled step loop valid
  return {
    body: {
      mesh,
      stations,
      radiusM: radiusM.map((r) => r * factor),
      lengthM: lengthM.map((l) => l / (factor * factor)),
      sideM2: sideM2.map((side) => side / factor),
      massFactor,
      endsExposed,
      axial,
    },
    edgeM,
    atM,
    diameterM: diameterM.map((d) => d * factor),
    rawKg,
  };
}
