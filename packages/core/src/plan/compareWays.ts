import {
  type CookOptions,
  coldestAxis,
  type History,
  type Point,
  pieceOf,
  type Roast,
  type Stage,
  type Until,
} from '../cook/index.js';
import { RoastError } from '../errors.js';
import {
  type Cut,
  cutsOf,
  PORTION_KG,
  SAFETY_LIMITS,
  type Safety,
  type Slice,
  shareWithin,
  upperEdge,
  type Warning,
} from '../judge/index.js';
import { type Aim, settleAim } from './aim.js';
import { handsOnMinutes } from './handsOn.js';
import type { Plan, PlanRequest } from './plan.js';
import { planWithoutPutBack } from './planCook.js';

/** One way to cook a roast, to be held against others. */
export interface CookWay extends Pick<PlanRequest, 'before' | 'heat' | 'after' | 'pull'> {
  readonly name: string;
  /** 2: the roast is cut across in the middle by slices, and each piece pulled by its own thermometer; default 1. */
  readonly pieces?: 1 | 2;
}

/** What all ways have in common. */
export type CompareRequest = Pick<PlanRequest, 'aim' | 'atRisk' | 'portionKg'>;

/** The worst of all pieces; see {@link Safety} for what each figure means. */
export type WaySafety = Pick<
  Safety,
  | 'meetsWholeCutGuidance'
  | 'coldestC'
  | 'coldestPeakC'
  | 'logReduction'
  | 'logReductionCapped'
  | 'roomMinutes'
  | 'roomLimitMinutes'
  | 'heatingMinutes'
  | 'heatingReached'
  | 'heatingLimitMinutes'
> & {
  /** Minutes that the coldest axis is at 54.4 °C or more, below which no safe time is published. */
  readonly killingMinutes: number;
};

/** What tells ways apart. */
export interface WayFigures {
  /** From the refrigerator to the end of the cook [min]; with two pieces, of the one done last. */
  readonly totalMinutes: number;
  /** Of a cook's attention [min], by {@link handsOnMinutes}. */
  readonly handsOnMinutes: number;
  /** Evenness: share of the cut face whose hottest moment lay in the band aimed at, 0 to 1, of the aimed-at slice... */
  readonly aimedFaceShare: number;
  /** ...and the mean over all slices. */
  readonly allFacesShare: number;
  /** Done through from the outside inwards, of the aimed-at slice [mm]: its radius where it is done right through; of two pieces the mean. */
  readonly rimMm: number;
  /** Whether the aimed-at slice is done right through; of two pieces, both. */
  readonly doneRightThrough: boolean;
  /** From the rarest to the most done slice, by the peaks of their middles [K]. */
  readonly peakSpreadK: number;
  /** Share of the raw weight that cooks off. */
  readonly lossShare: number;
  readonly safety: WaySafety;
}

/** A piece of a way: the whole roast, or one of two. */
export interface WayPiece {
  /** Where it was cut from the roast [mm from the first end]. */
  readonly fromMm: number;
  readonly toMm: number;
  readonly plan: Plan;
}

/** A way with its plans, or why there is none. */
export type ComparedWay =
  | {
      readonly way: CookWay;
      readonly pieces: readonly [WayPiece, ...WayPiece[]];
      readonly figures: WayFigures;
      readonly warnings: readonly Warning[];
    }
  | { readonly way: CookWay; readonly failure: RoastError };

/** A way that came out. */
export type CookedWay = Extract<ComparedWay, { readonly figures: WayFigures }>;

/**
 * Plans one roast in several ways and puts their figures side by side. A way that cannot reach the aim, or that the safety rules
 * forbid, is told as a failure and leaves the others alone.
 *
 * @throws RoastError what no way can help: `unknown-name`, `out-of-range` or `unsafe` in the aim
 * @example
 * const mesh = { stations: 8, shells: 12 }
 * const compared = compareWays(roast, commonWays(56).slice(0, 2), { aim: { doneness: 56 } }, mesh)
 * compared.map(({ way, ...rest }) => [way.name, 'figures' in rest])
 */
export function compareWays(
  roast: Roast,
  ways: readonly CookWay[],
  request: CompareRequest = {},
  options: CookOptions = {},
): ComparedWay[] {
  const cuts = cutsOf(roast, request.portionKg ?? PORTION_KG);
  const aim = settleAim(roast, cuts, request.aim ?? {}, request.atRisk ?? false);
  return ways.map((way) => {
    try {
      const pieces = piecesOf(roast, way, cuts, aim, request, options);
      const figures = figuresOf(pieces, cuts.length);
      return { way, pieces, figures, warnings: warningsOfAll(roast, pieces, figures.safety) };
    } catch (error) {
      if (!(error instanceof RoastError)) throw error;
      return { way, failure: error };
    }
  });
}

/** Indexes of the ways that win; the first among equals. Faces as even as each other to a percent are told apart by their peaks. */
export interface WinningWays {
  readonly fastest: number;
  readonly leastWork: number;
  readonly mostEven: number;
  readonly leastLoss: number;
}

const PER_KELVIN = 1e-3; // so that no spread outweighs a percent

/**
 * Which ways win; nothing when none came out.
 *
 * @example
 * const mesh = { stations: 8, shells: 12 }
 * const compared = compareWays(roast, commonWays(56).slice(0, 2), {}, mesh)
 * winningWays(compared)?.fastest // => 0
 */
export function winningWays(compared: readonly ComparedWay[]): WinningWays | undefined {
  const cooked = compared.flatMap((way, i) => ('figures' in way ? [{ i, ...way.figures }] : []));
  const [first] = cooked;
  if (first === undefined) return undefined;
  const least = (of: (figures: WayFigures) => number): number =>
    cooked.reduce((best, each) => (of(each) < of(best) ? each : best), first).i;
  return {
    fastest: least(({ totalMinutes }) => totalMinutes),
    leastWork: least(({ handsOnMinutes }) => handsOnMinutes),
    mostEven: least(
      ({ allFacesShare, peakSpreadK }) =>
        PER_KELVIN * peakSpreadK - Math.round(100 * allFacesShare),
    ),
    leastLoss: least(({ lossShare }) => lossShare),
  };
}

function piecesOf(
  roast: Roast,
  way: CookWay,
  cuts: readonly Cut[],
  aim: Aim,
  request: CompareRequest,
  options: CookOptions,
): [WayPiece, ...WayPiece[]] {
  const portionKg = roast.massKg / cuts.length;
  const planned = (piece: Roast, cook: CookWay): Plan => {
    const { before, heat, after, pull } = cook;
    return planWithoutPutBack(
      piece,
      { ...request, portionKg, before, heat, after, ...(pull === undefined ? {} : { pull }) },
      options,
    );
  };
  const endMm = cuts[cuts.length - 1].toMm;
  if (way.pieces !== 2) return [{ fromMm: 0, toMm: endMm, plan: planned(roast, way) }];
  if (cuts.length < 2) {
    throw new RoastError('a roast of one portion is not cut in two', {
      code: 'unreachable',
      path: ['pieces'],
      found: way.pieces,
      accepted: 'a roast of two portions or more',
    });
  }
  const cutMm = cuts[Math.round(cuts.length / 2)].fromMm;
  const one = (fromMm: number, toMm: number): WayPiece => {
    const piece = pieceOf(roast, fromMm, toMm);
    const own = settleAim(piece, cutsOf(piece, portionKg), request.aim ?? {}, aim.at === 'coldest');
    const cook = cookOfPiece(way, { fromMm, toMm, wholeAimed: aim.point, aimed: own.point });
    return { fromMm, toMm, plan: planned(piece, cook) };
  };
  return [one(0, cutMm), one(cutMm, endMm)];
}

interface PiecePlaces {
  readonly fromMm: number;
  readonly toMm: number;
  readonly wholeAimed: Point;
  readonly aimed: Point;
}

/** The same way where places along the roast become the piece's: its own aimed-at slice for the roast's, and for what it has not. */
function cookOfPiece(way: CookWay, { fromMm, toMm, wholeAimed, aimed }: PiecePlaces): CookWay {
  const placed = (until: Until): Until => {
    if ('minutes' in until || until.at.atMm === 'coldest') return until;
    const { atMm } = until.at;
    const within = atMm !== wholeAimed.atMm && atMm >= fromMm && atMm <= toMm;
    return { ...until, at: { ...until.at, atMm: within ? atMm - fromMm : aimed.atMm } };
  };
  const moved = <S extends Stage>(stage: S): S =>
    stage.kind === 'pan-sear' ? stage : { ...stage, until: placed(stage.until) };
  const { pull } = way;
  return {
    ...way,
    before: way.before.map(moved),
    after: way.after.map(moved),
    ...(pull === undefined || 'centreC' in pull ? {} : { pull: placed(pull) }),
  };
}

function figuresOf(pieces: readonly WayPiece[], slices: number): WayFigures {
  const plans = pieces.map(({ plan }) => plan);
  const sum = (of: (plan: Plan) => number): number =>
    plans.reduce((total, plan) => total + of(plan), 0);
  const peaksC = plans.flatMap((plan) => plan.slices.map(({ peakCentreC }) => peakCentreC));
  const lostKg = sum(({ loss }) => loss.evaporatedKg + loss.drippedKg);
  const totalMinutes = Math.max(...plans.map(endMinutes));
  return {
    totalMinutes,
    handsOnMinutes: Math.max(
      ...plans.map(({ history }) => handsOnMinutes(history.stages, plans.length)),
    ),
    aimedFaceShare: sum((plan) => shareAsWished(plan, judgedSliceOf(plan))) / plans.length,
    allFacesShare:
      sum((plan) => plan.slices.reduce((s, slice) => s + shareAsWished(plan, slice), 0)) / slices,
    rimMm: sum((plan) => judgedSliceOf(plan).rimMm) / plans.length,
    doneRightThrough: plans.map(judgedSliceOf).every(isDoneRightThrough),
    peakSpreadK: Math.max(...peaksC) - Math.min(...peaksC),
    lossShare: lostKg / sum(({ roast }) => roast.massKg),
    safety: safetyOf(plans, totalMinutes),
  };
}

const isDoneRightThrough = ({ rimMm, diameterMm }: Slice): boolean => rimMm >= diameterMm / 2;

const endMinutes = ({ history }: Plan): number => history.seconds[history.rows - 1] / 60;

/** The aimed-at slice; for an aim at the coldest spot the one that comes out rarest. */
const judgedSliceOf = ({ aim, slices }: Plan): Slice =>
  slices[aim.slice] ?? slices.reduce((a, b) => (b.peakCentreC < a.peakCentreC ? b : a));

function shareAsWished({ history, aim }: Plan, { middleMm }: Slice): number {
  const { scale, band } = aim;
  const toC = upperEdge(scale, scale.bands.indexOf(band));
  return shareWithin(history, middleMm, band.fromC, toC);
}

/** The worst of all pieces. A piece that is done before the other waits for it in the room. */
function safetyOf(plans: readonly Plan[], totalMinutes: number): WaySafety {
  const all = plans.map(({ safety }) => safety);
  const least = (of: (safety: Safety) => number): number => Math.min(...all.map(of));
  const most = (of: (safety: Safety) => number): number => Math.max(...all.map(of));
  return {
    meetsWholeCutGuidance: all.every((safety) => safety.meetsWholeCutGuidance),
    coldestC: least(({ coldestC }) => coldestC),
    coldestPeakC: least(({ coldestPeakC }) => coldestPeakC),
    logReduction: least(({ logReduction }) => logReduction),
    logReductionCapped: all.every(({ logReductionCapped }) => logReductionCapped),
    killingMinutes: Math.min(...plans.map(({ history }) => killingMinutes(history))),
    roomMinutes: Math.max(
      ...plans.map((plan) => plan.safety.roomMinutes + totalMinutes - endMinutes(plan)),
    ),
    roomLimitMinutes: least(({ roomLimitMinutes }) => roomLimitMinutes),
    heatingMinutes: most(({ heatingMinutes }) => heatingMinutes),
    heatingReached: all.every(({ heatingReached }) => heatingReached),
    heatingLimitMinutes: least(({ heatingLimitMinutes }) => heatingLimitMinutes),
  };
}

function killingMinutes(history: History): number {
  const { seconds, rows } = history;
  let killingS = 0;
  for (let row = 1; row < rows; row++) {
    // counted from one reading to the next, where both are hot enough: rather too little than too much
    const coldest = Math.min(coldestAxis(history, row - 1).axisC, coldestAxis(history, row).axisC);
    if (coldest >= SAFETY_LIMITS.heatingToC) killingS += seconds[row] - seconds[row - 1];
  }
  return killingS / 60;
}

/** Warnings of all pieces, each code once: the first piece's, but for what the wait of a piece adds. */
function warningsOfAll(
  roast: Roast,
  pieces: readonly WayPiece[],
  { roomMinutes, roomLimitMinutes }: WaySafety,
): Warning[] {
  const found = new Map<Warning['code'], Warning>();
  for (const { plan } of pieces) {
    for (const warning of plan.warnings) {
      // a piece of a tenderloin has no name as a cut and is one all the same
      if (warning.code === 'not-tenderloin' && roast.cut !== 'other') continue;
      const known = found.get(warning.code);
      found.set(warning.code, known === undefined ? warning : worse(known, warning));
    }
  }
  if (roomMinutes > roomLimitMinutes) {
    found.set('room-time', {
      code: 'room-time',
      minutes: roomMinutes,
      limitMinutes: roomLimitMinutes,
    });
  }
  return [...found.values()];
}

/** The warning of two of one code that lies farther from what is safe. */
function worse(a: Warning, b: Warning): Warning {
  if (a.code === 'below-guidance' && b.code === a.code) return b.coldestC < a.coldestC ? b : a;
  if (a.code === 'fold-below-guidance' && b.code === a.code) return b.foldC < a.foldC ? b : a;
  if (a.code === 'heating-time' && b.code === a.code) return b.minutes > a.minutes ? b : a;
  if (a.code === 'still-rising' && b.code === a.code) return b.peakC > a.peakC ? b : a;
  return a;
}
