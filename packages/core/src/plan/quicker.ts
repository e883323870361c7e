import {
  type Bath,
  type CookOptions,
  type OvenRoast,
  type Resolution,
  ROOM_C,
  type Roast,
  roastIn,
  type Stage,
  searInPan,
  temper,
} from '../cook/index.js';
import { RoastError } from '../errors.js';
import { SAFETY_LIMITS, TARGET_C, type WarningCode } from '../judge/index.js';
import type { Plan, PlanRequest } from './plan.js';
import { planCook, planWithoutPutBack } from './planCook.js';
import {
  bathLeadMinutes,
  CARVING_MINUTES,
  ovenLeadMinutes,
  servingMinutes,
  stepsOf,
} from './steps.js';

/**
 * A way to have the same roast sooner: on the counter only while the oven heats, a sear first, a hotter oven, an oven in place of a
 * bath, a shorter rest. A hotter heat climbs longer and may need a longer rest.
 */
export type QuickerWay =
  | 'shorter-temper'
  | 'sear-first'
  | 'hotter-oven'
  | 'oven-instead'
  | 'shorter-rest'
  | 'longer-rest';

/** The same roast, sooner. */
export interface QuickerPlan {
  /** What is done otherwise, in the order of the cook; at least one. */
  readonly ways: readonly QuickerWay[];
  readonly request: PlanRequest;
  /** From the first step, switching the oven on, to the plates [min]. */
  readonly lengthMinutes: number;
  readonly plan: Plan;
}

/** {@link CookOptions} and how finely the variants are tried. */
export interface QuickerOptions extends CookOptions {
  /** Default 10 stations and 16 shells. */
  readonly scan?: Resolution;
}

const SCAN = { stations: 10, shells: 16 } as const;

// Where a household oven still roasts without smoke; within the model's range (docs/model.md).
const HOTTER_C = [230, 250] as const;
/** After a hotter oven; the plan's usual rest. */
const HOT_REST_MINUTES = 20;
const SHORTER_RESTS_MINUTES = [15, 10, 5, SAFETY_LIMITS.wholeCutRestMinutes] as const;
/** A quicker plan's peak is so close to the aim, until half of it is carved [K]. */
const AIM_K = 0.5;
const SAME_K = 0.2; // a climb of the cook that was asked for may be matched so closely
/** What speed must not bring: a limit of safety, or leaving the range the model was made for. */
const REFUSED: ReadonlySet<WarningCode> = new Set<WarningCode>([
  'room-time',
  'heating-time',
  'hot-oven',
  'cool-bath',
  'early-pull',
  'late-pull',
  'fold-below-guidance',
]);
const KILL_LOGS = 0.5; // powers of ten of Salmonella that may be lost at most: less than that is not claimed anyway

/**
 * Quicker ways to the same aim, the quickest first, on a coarse mesh. Each keeps every limit of safety, kills no less and is no
 * further from the whole-cut guidance than what was asked for, and stays within half a kelvin of the aim, also while it climbs on the
 * board until half of it is carved.
 *
 * A request with a given pull is taken to aim at the peak that pull leads to.
 *
 * @returns empty when there is none
 * @throws RoastError `out-of-range` or `unknown-name` as {@link planCook} does for the request itself
 * @example
 * const ways = quickerPlans(roast, request).map(({ lengthMinutes }) => lengthMinutes)
 */
export function quickerPlans(
  roast: Roast,
  request: PlanRequest,
  options: QuickerOptions = {},
): QuickerPlan[] {
  const { scan = SCAN, ...cook } = options;
  const coarse = { ...cook, ...scan };
  const asked = attempt(roast, request, coarse);
  const aimed = asked === undefined ? undefined : freeOfPull(request, asked);
  if (asked === undefined || aimed === undefined) return [];
  const found: QuickerPlan[] = [];
  for (const heat of heatsOf(aimed.heat)) {
    for (const sear of [false, ...(isSeared(aimed) ? [] : [true])]) {
      for (const restMinutes of restsOf(aimed, heat !== aimed.heat)) {
        const variant = variantOf(aimed, heat, sear, restMinutes);
        if (variant.ways.length === 0) continue;
        const plan = attempt(roast, variant.request, coarse);
        if (plan === undefined || !meetsAim(plan, asked)) break; // a shorter rest ends on a steeper climb
        const lengthMinutes = lengthOf(plan);
        if (isAsSafe(plan, asked) && lengthMinutes < lengthOf(asked)) {
          found.push({ ...variant, lengthMinutes, plan });
        }
      }
    }
  }
  return found.sort(
    (a, b) => Math.ceil(a.lengthMinutes) - Math.ceil(b.lengthMinutes) || harm(a) - harm(b),
  );
}

/** The request with the peak of its given pull as its aim; nothing where that is no aim. */
function freeOfPull(request: PlanRequest, { peak }: Plan): PlanRequest | undefined {
  const { pull, ...free } = request;
  if (pull === undefined) return request;
  const [low, high] = TARGET_C;
  if (peak.centreC < low || peak.centreC > high) return undefined;
  return { ...free, aim: { ...request.aim, doneness: peak.centreC } };
}

/** What to offer a cook who is late. */
export interface QuickerOffer {
  /** The least change that is still in time; absent when it is the quickest, or nothing is in time. */
  readonly gentlest?: QuickerPlan;
  /** Absent when nothing is quicker. */
  readonly quickest?: QuickerPlan;
}

/**
 * The quickest way to the same aim, and the gentlest that is ready within `availableMinutes`, each planned on the full mesh and judged
 * once more there.
 *
 * @param availableMinutes - from now until the plates go out [min]
 * @throws RoastError as {@link quickerPlans}
 * @example
 * const { quickest, gentlest } = offerQuicker(plan, request, 60, { stations: 10, shells: 12 })
 */
export function offerQuicker(
  asked: Plan,
  request: PlanRequest,
  availableMinutes: number,
  options: QuickerOptions = {},
): QuickerOffer {
  const { scan: _, ...cook } = options;
  const { roast } = asked;
  const candidates = quickerPlans(roast, request, options);
  const confirmed = (candidate: QuickerPlan | undefined): QuickerPlan | undefined => {
    if (candidate === undefined) return undefined;
    const plan = attempt(roast, candidate.request, cook, planCook);
    if (plan === undefined || !meetsAim(plan, asked) || !isAsSafe(plan, asked)) return undefined;
    return { ...candidate, plan, lengthMinutes: lengthOf(plan) };
  };
  let quickest: QuickerPlan | undefined;
  for (const candidate of candidates) {
    quickest = confirmed(candidate);
    if (quickest !== undefined) break;
  }
  if (quickest === undefined || quickest.lengthMinutes >= lengthOf(asked)) return {};
  const [mildest] = candidates
    .filter(({ lengthMinutes }) => lengthMinutes <= availableMinutes)
    .sort((a, b) => harm(a) - harm(b) || a.ways.length - b.ways.length);
  const gentlest = mildest?.request === quickest.request ? undefined : confirmed(mildest);
  return gentlest !== undefined && gentlest.lengthMinutes <= availableMinutes
    ? { gentlest, quickest }
    : { quickest };
}

const EVENNESS_STEP = 0.02; // smaller differences nobody sees

/** What a plan costs, in steps that show: evenness lost, or kelvins past the aim where the strict rules ask for at least it. */
const harm = ({ plan }: QuickerPlan): number =>
  plan.aim.at === 'coldest'
    ? Math.round(plan.peak.centreC + carvingK(plan) - plan.aim.targetC)
    : -Math.round(aimedSlice(plan).evenness / EVENNESS_STEP);

/**
 * The slice a plan aims at; for an aim at the coldest spot the one in the middle.
 *
 * @example
 * aimedSlice(plan).band // => 'medium-rare'
 */
export const aimedSlice = ({ slices, aim }: Plan): Plan['slices'][number] =>
  slices[aim.slice < 0 ? Math.floor((slices.length - 1) / 2) : aim.slice];

const lengthOf = (plan: Plan): number => servingMinutes(plan) - stepsOf(plan)[0].atMinutes;

/** The heat as asked for, and hotter. */
function heatsOf(heat: OvenRoast | Bath): readonly (OvenRoast | Bath)[] {
  const hotter = HOTTER_C.filter((ovenC) => heat.kind === 'bath' || ovenC > heat.ovenC);
  return [
    heat,
    ...hotter.map((ovenC) =>
      heat.kind === 'bath' ? roastIn({ ovenC, until: heat.until }) : { ...heat, ovenC },
    ),
  ];
}

const isSear = ({ kind }: Stage): boolean => kind === 'pan-sear' || kind === 'oven-sear';
const isSeared = ({ before, after }: PlanRequest): boolean => [...before, ...after].some(isSear);

/** Lengths of the rest to try, the longest first [min]; `undefined` for a cook that does not end with one. */
function restsOf({ after }: PlanRequest, hotter: boolean): readonly (number | undefined)[] {
  const last = after[after.length - 1];
  if (last?.kind !== 'rest' || !('minutes' in last.until)) return [undefined];
  const { minutes } = last.until;
  return [
    ...(hotter && minutes < HOT_REST_MINUTES ? [HOT_REST_MINUTES] : []),
    minutes,
    ...SHORTER_RESTS_MINUTES.filter((shorter) => shorter < minutes),
  ];
}

/** The request with another heat, a sear or a shorter rest, and no more time on the counter than the heat needs to get hot. */
function variantOf(
  request: PlanRequest,
  heat: OvenRoast | Bath,
  sear: boolean,
  restMinutes: number | undefined,
): { readonly ways: readonly QuickerWay[]; readonly request: PlanRequest } {
  const [first, ...rest] = request.before;
  const tempered = first?.kind === 'temper' && 'minutes' in first.until ? first : undefined;
  const others = tempered === undefined ? request.before : rest;
  const seared = sear ? [...others, searInPan()] : others;
  const waitMinutes = Math.max(0, leadOf(heat) - seared.reduce((sum, s) => sum + minutesOf(s), 0));
  const askedMinutes = tempered === undefined ? 0 : minutesOf(tempered);
  const shorter = waitMinutes < askedMinutes;
  // a wait that was not asked for only lengthens what must be watched at room temperature
  const minutes = Math.min(waitMinutes, askedMinutes);
  const roomC = tempered?.roomC ?? ROOM_C;
  const last = request.after[request.after.length - 1];
  const askedRest = last?.kind === 'rest' ? minutesOf(last) : undefined;
  const rests = restMinutes !== askedRest;
  return {
    ways: [
      ...(shorter ? (['shorter-temper'] as const) : []),
      ...(sear ? (['sear-first'] as const) : []),
      ...(heat === request.heat
        ? []
        : ([request.heat.kind === 'bath' ? 'oven-instead' : 'hotter-oven'] as const)),
      ...(rests
        ? ([(restMinutes ?? 0) < (askedRest ?? 0) ? 'shorter-rest' : 'longer-rest'] as const)
        : []),
    ],
    request: {
      ...request,
      before: [...(minutes > 0 ? [temper({ minutes, roomC })] : []), ...seared],
      heat,
      after:
        restMinutes === undefined || last?.kind !== 'rest' || !rests
          ? request.after
          : [...request.after.slice(0, -1), { ...last, until: { minutes: restMinutes } }],
    },
  };
}

function leadOf(heat: OvenRoast | Bath): number {
  if (heat.kind === 'bath') return bathLeadMinutes(heat.bathC);
  return heat.start === 'cold' ? 0 : ovenLeadMinutes(heat.ovenC);
}

function minutesOf(stage: Stage): number {
  if (stage.kind === 'pan-sear') return (stage.faces * stage.secondsPerFace) / 60;
  return 'minutes' in stage.until ? stage.until.minutes : 0;
}

/** A plan, or nothing where it cannot be reached or is refused. */
function attempt(
  roast: Roast,
  request: PlanRequest,
  options: CookOptions,
  plan = planWithoutPutBack,
): Plan | undefined {
  try {
    return plan(roast, request, options);
  } catch (error) {
    if (error instanceof RoastError && (error.code === 'unreachable' || error.code === 'unsafe')) {
      return undefined;
    }
    throw error;
  }
}

function meetsAim(plan: Plan, asked: Plan): boolean {
  const { peak, aim } = plan;
  const pastK = peak.centreC - aim.targetC;
  if (pastK < -AIM_K) return false;
  // strict rules ask for at least the aim
  return (
    aim.at === 'coldest' || pastK + carvingK(plan) <= Math.max(AIM_K, carvingK(asked) + SAME_K)
  );
}

/** How far the centre still climbs until half of the roast is carved [K]. */
const carvingK = ({ peak }: Plan): number =>
  Math.max(0, peak.endingKPerMinute) * (CARVING_MINUTES / 2);

function isAsSafe(plan: Plan, asked: Plan): boolean {
  const had = new Set(asked.warnings.map(({ code }) => code));
  const { safety } = plan;
  return (
    !plan.warnings.some(({ code }) => REFUSED.has(code) && (isLimit(code) || !had.has(code))) &&
    safety.roomMinutes + CARVING_MINUTES <= safety.roomLimitMinutes &&
    (safety.meetsWholeCutGuidance || !asked.safety.meetsWholeCutGuidance) &&
    safety.logReduction >= asked.safety.logReduction - KILL_LOGS &&
    restOf(plan) >= Math.min(SAFETY_LIMITS.wholeCutRestMinutes, restOf(asked))
  );
}

const isLimit = (code: WarningCode): boolean =>
  code === 'room-time' || code === 'heating-time' || code === 'cool-bath';

/** Minutes of rest at the end. */
function restOf({ history }: Plan): number {
  const last = history.stages[history.stages.length - 1];
  return last.stage.kind === 'rest' ? (last.endS - last.startS) / 60 : 0;
}
