import { RoastError } from '../errors.js';

/** What comes off a whole untrimmed tenderloin. */
export type TrimPart = 'chain' | 'silverskin' | 'fat' | 'tips';

/** Share of the untrimmed weight: what to reckon with, and from where to where it is usual. */
export interface TrimShare {
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Trim of a whole tenderloin with its fat and side muscle on (IMPS 189, UNECE 2150) to oven-ready (IMPS 190A, UNECE 2160).
 *
 * The sum, a third, is published: `trim_loss` in data/published/yields.json has "a good third" and "30 percent or more". How
 * it divides is common practice, no source: no cutting test of a tenderloin with its parts was found.
 */
export const TRIM_SHARES: Readonly<Record<TrimPart, TrimShare>> = {
  chain: { share: 0.1, low: 0.07, high: 0.13 },
  silverskin: { share: 0.04, low: 0.02, high: 0.06 },
  fat: { share: 0.16, low: 0.1, high: 0.2 },
  tips: { share: 0.03, low: 0.02, high: 0.05 },
};

/** From where to where the sum is usual: the published figures and what lies near them, judgement. */
const TRIM_TOTAL = [0.25, 0.4] as const;

/** Parts in the order they come off. */
export const TRIM_PARTS = Object.keys(TRIM_SHARES) as readonly TrimPart[];

/** Own shares of the untrimmed weight, from a shop that weighs what it cuts off. */
export type Trims = Readonly<Partial<Record<TrimPart, number>>>;

/** How much comes off. */
export interface TrimRule {
  readonly parts: Readonly<Record<TrimPart, TrimShare>>;
  /** Sum of the parts, and its usual range. */
  readonly total: TrimShare;
}

const MOST = 0.6;

/**
 * Shares with a shop's own ones in place; a part's range moves with its share.
 *
 * @throws RoastError `out-of-range` for a share below 0 or a sum above 0.6
 * @example
 * trimRule({ chain: 0.12 }).total.share // => 0.35
 */
export function trimRule(own: Trims = {}): TrimRule {
  const entries = TRIM_PARTS.map((part) => {
    const usual = TRIM_SHARES[part];
    const share = own[part] ?? usual.share;
    if (!(share >= 0 && share <= MOST)) refuse(['trims', part], share);
    const factor = share / usual.share;
    return [part, { share, low: factor * usual.low, high: factor * usual.high }] as const;
  });
  const sum = entries.reduce((total, [, { share }]) => total + share, 0);
  if (sum > MOST) refuse(['trims'], sum);
  const usualSum = TRIM_PARTS.reduce((total, part) => total + TRIM_SHARES[part].share, 0);
  const [low, high] = TRIM_TOTAL;
  const factor = sum / usualSum;
  return {
    parts: Object.fromEntries(entries) as Record<TrimPart, TrimShare>,
    total: { share: sum, low: factor * low, high: factor * high },
  };
}

function refuse(path: readonly string[], found: number): never {
  throw new RoastError(`trim is ${found} of the weight; it can be 0 to ${MOST}`, {
    code: Number.isFinite(found) ? 'out-of-range' : 'not-a-number',
    path,
    found,
    accepted: `0 to ${MOST}`,
  });
}

/** A weight that comes off [kg], with its usual range. */
export interface Trimming {
  readonly part: TrimPart;
  readonly massKg: number;
  readonly lowKg: number;
  readonly highKg: number;
}

/** What comes off a whole untrimmed tenderloin and what stays. */
export interface Trimmed {
  readonly comesOff: readonly Trimming[];
  readonly trimmedKg: number;
  /** From where to where the trimmed weight may come out [kg]. */
  readonly lowKg: number;
  readonly highKg: number;
}

/**
 * Trims a weight [kg] by a rule: the parts and what stays add up to it.
 *
 * @example
 * trim(3, trimRule()).trimmedKg // => 2.01
 */
export const trim = (massKg: number, { parts, total }: TrimRule): Trimmed => ({
  comesOff: TRIM_PARTS.map((part) => ({
    part,
    massKg: massKg * parts[part].share,
    lowKg: massKg * parts[part].low,
    highKg: massKg * parts[part].high,
  })),
  trimmedKg: massKg * (1 - total.share),
  lowKg: massKg * (1 - total.high),
  highKg: massKg * (1 - total.low),
});
