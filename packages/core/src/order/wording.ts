import { SAFETY_LIMITS } from '../judge/index.js';
import { massText, riseText, temperatureText, type UnitSystem } from '../units/index.js';
import type { Candidate, OrderCut } from './candidate.js';
import { COUNTER_STEP_KG } from './counter.js';
import type { Order } from './planOrder.js';
import { MOST_SURPLUS, surplusShare } from './recommend.js';
import type { TrimPart } from './trim.js';

/** All words about an order stand in this file. */

/** Cuts as a counter calls them: one of them, and several. */
export const ORDER_CUT_NAMES: Readonly<
  Record<OrderCut, { readonly one: string; readonly many: string; readonly state: string }>
> = {
  centre: { one: 'a centre cut', many: 'centre cuts', state: 'trimmed' },
  butt: { one: 'a butt end', many: 'butt ends', state: 'trimmed' },
  whole: { one: 'a whole tenderloin', many: 'whole tenderloins', state: 'trimmed' },
  untrimmed: {
    one: 'a whole tenderloin',
    many: 'whole tenderloins',
    state: 'untrimmed, to clean at home',
  },
};

/** What comes off, and what it is good for. */
export const TRIM_NAMES: Readonly<
  Record<TrimPart, { readonly name: string; readonly goodFor: string }>
> = {
  chain: { name: 'side muscle (chain)', goodFor: 'mince, stir-fry, stock' },
  silverskin: { name: 'silverskin', goodFor: 'stock' },
  fat: { name: 'fat', goodFor: 'render it for frying' },
  tips: { name: 'tips and ragged ends', goodFor: 'skewers, a quick sauté' },
};

const QUARTERS = ['', '¼', '½', '¾'] as const;

/**
 * A weight as it is asked for: `1.85 kg`, `4¼ lb`; one that is no step of the counter's as it weighs.
 *
 * @example
 * counterText(1.85, 'metric') // => '1.85 kg'
 * counterText(4.25 * KG_PER_POUND, 'us') // => '4¼ lb'
 */
export function counterText(massKg: number, units: UnitSystem): string {
  const quarters = Math.round(massKg / COUNTER_STEP_KG.us);
  const isStep = quarters > 0 && Math.abs(massKg / COUNTER_STEP_KG.us - quarters) < 1e-3;
  if (units === 'metric' || !isStep) return massText(massKg, units);
  return `${quarters < 4 ? '' : Math.floor(quarters / 4)}${QUARTERS[quarters % 4]} lb`;
}

/** Weights in words, equal ones together: `3 × 950 g`, `900 g`. */
function grouped(piecesKg: readonly number[], units: UnitSystem): string[] {
  const counts = new Map<string, number>();
  for (const massKg of piecesKg) {
    const text = counterText(massKg, units);
    counts.set(text, (counts.get(text) ?? 0) + 1);
  }
  return Array.from(counts, ([text, count]) => (count === 1 ? text : `${count} × ${text}`));
}

const SHORT_GROUPS = 2;

/**
 * Weights for a column: `2 × 950 g`, `1.00 kg + 950 g`; of many different ones their count and sum.
 *
 * @example
 * piecesText([0.95, 0.95], 'metric') // => '2 × 950 g'
 */
export function piecesText(piecesKg: readonly number[], units: UnitSystem): string {
  const groups = grouped(piecesKg, units);
  if (groups.length <= SHORT_GROUPS) return groups.join(' + ');
  const total = piecesKg.reduce((sum, massKg) => sum + massKg, 0);
  return `${piecesKg.length}, in all ${counterText(total, units)}`;
}

/**
 * What to say at the counter: `a centre cut of 1.85 kg, trimmed`, `2 butt ends (950 g and 900 g), trimmed`.
 *
 * @example
 * const { candidates } = planOrder({ guests: 8 })
 * askText(candidates[0], 'metric') // => 'a centre cut of 1.85 kg, trimmed'
 */
export function askText({ cut, piecesKg }: Candidate, units: UnitSystem): string {
  const { one, many, state } = ORDER_CUT_NAMES[cut];
  const groups = grouped(piecesKg, units);
  if (piecesKg.length === 1) return `${one} of ${groups[0]}, ${state}`;
  const weights =
    groups.length === 1
      ? `of ${counterText(piecesKg[0], units)} each`
      : `(${groups.slice(0, -1).join(', ')} and ${groups.at(-1)})`;
  return `${piecesKg.length} ${many} ${weights}, ${state}`;
}

/** A cut by its name and, for an untrimmed one, the work it makes. */
function named({ candidates }: Order, cut: OrderCut): string {
  const pieces = candidates.find((each) => each.cut === cut)?.piecesKg.length ?? 1;
  const { one, many } = ORDER_CUT_NAMES[cut];
  return `${pieces === 1 ? one : many}${cut === 'untrimmed' ? ' cleaned at home' : ''}`;
}

/**
 * Why a candidate is recommended, in one sentence.
 *
 * @param money - puts an amount of the order's currency into words
 * @example
 * sayRecommendation(planOrder({ guests: 8 }), 'metric', (amount) => `€${amount.toFixed(2)}`)
 */
export function sayRecommendation(
  order: Order,
  units: UnitSystem,
  money: (amount: number) => string,
): string {
  const { recommendation, candidates, wishes } = order;
  const { code, cut, cheaper } = recommendation;
  const taken = candidates.find((each) => each.cut === cut);
  if (taken === undefined) throw new Error(`the order recommends ${cut} and does not have it`);
  const { slices, inBand, spreadK, wishesMet } = taken.evenness;
  const wished = wishes.reduce((sum, { count }) => sum + count, 0);
  const near = `${inBand} of ${slices} ${slices === 1 ? 'slice' : 'slices'} as wished, all within ${riseText(spreadK, units)}`;
  const why = {
    'meets-wishes':
      `${taken.unfolded === true ? 'pulled for the guests and with its tail unfolded' : 'pulled for the guests'} it meets ` +
      `${wishesMet === wished ? `all ${wished}` : `${wishesMet} of ${wished}`} wishes, and nothing else meets more`,
    nearest: `it comes out nearest to the wish: ${near}`,
    'cheapest-as-near': `it costs the least of those that come out about as near to the wish: ${near}`,
    'simplest-as-near': `it is the simplest of those that come out about as near to the wish: ${near}`,
    'only-fit': `the shop has nothing else that is enough: ${near}`,
  }[code];
  const saving =
    cheaper === undefined
      ? ''
      : `; ${named(order, cheaper.cut)} would save ${money(cheaper.saves)}`;
  const beyond =
    surplusShare(taken) > MOST_SURPLUS
      ? `; ${massText(taken.surplusKg, units)} of it is more than you need`
      : '';
  const short = taken.inStock === false ? '; what the shop has does not give it' : '';
  return `${why.charAt(0).toUpperCase()}${why.slice(1)}${saving}${beyond}${short}.`;
}

/**
 * What must be said when children eat: the whole-cut guidance of `SAFETY_LIMITS`, which the strict rules hold for people at risk.
 *
 * @example
 * sayChildren('us')
 */
export const sayChildren = (units: UnitSystem): string =>
  `Young children are among those most at risk: bring their share to ${temperatureText(SAFETY_LIMITS.wholeCutC, units)} at ` +
  `its coldest spot and rest it ${SAFETY_LIMITS.wholeCutRestMinutes} minutes, whatever the others eat.`;
