import { RoastError } from '../errors.js';
import { bandNamed, SCALES, type Scale } from '../judge/index.js';
import type { PlanRequest } from '../plan/index.js';
import { MASS_KG } from '../shape/index.js';
import type { UnitSystem } from '../units/index.js';
import { type BandWish, type Candidate, candidate, ORDER_CUTS, type Prices } from './candidate.js';
import { COUNTER_STEP_KG } from './counter.js';
import { type Eaters, type Need, needOf } from './need.js';
import { USUAL_COOK } from './quickCook.js';
import { type Recommendation, recommend } from './recommend.js';
import { type TrimRule, type Trims, trimRule } from './trim.js';

/** What to reckon an order with. */
export interface OrderRequest extends Eaters {
  /**
   * How it will be cooked; default {@link USUAL_COOK}. Its portion is overruled by the eaters'; without a doneness of its own it
   * aims at the commonest wish, and of equally common ones at the rarest, because what is too rare can go back.
   */
  readonly cook?: PlanRequest;
  /** What the guests want, as bands of the cook's scale. Default all as the cook aims. */
  readonly wishes?: readonly BandWish[];
  readonly prices?: Prices;
  /** Weights of trimmed whole tenderloins the shop has [kg], each 0.05 to 12; up to 200. */
  readonly stockKg?: readonly number[];
  /** A shop's own shares of what comes off. */
  readonly trims?: Trims;
  /** Whose steps weights are rounded up to: 50 g or a quarter of a pound. Default `metric`. */
  readonly units?: UnitSystem;
}

/** Ways to buy what is needed, and which to take. */
export interface Order {
  readonly need: Need;
  /** How it was cooked to see. */
  readonly cook: PlanRequest;
  /** Added up by band, the rarest first. */
  readonly wishes: readonly BandWish[];
  readonly trims: TrimRule;
  /** One for each of {@link ORDER_CUTS}, in their order. */
  readonly candidates: readonly Candidate[];
  readonly recommendation: Recommendation;
}

const MOST_STOCK = 200;

function checkStock(stockKg: readonly number[]): void {
  const [low, high] = MASS_KG;
  const wrong = stockKg.find((massKg) => !(massKg >= low && massKg <= high));
  const accepted = `1 to ${MOST_STOCK} weights of ${low} to ${high} kg`;
  if (wrong !== undefined) {
    throw new RoastError(`a tenderloin of ${wrong} kg is not one; it can be ${low} to ${high} kg`, {
      code: Number.isFinite(wrong) ? 'out-of-range' : 'not-a-number',
      path: ['stockKg'],
      found: wrong,
      accepted,
    });
  }
  if (stockKg.length >= 1 && stockKg.length <= MOST_STOCK) return;
  throw new RoastError(`a stock has ${stockKg.length} weights; accepted: ${accepted}`, {
    code: 'out-of-range',
    path: ['stockKg'],
    found: stockKg.length,
    accepted,
  });
}

function checkPrices({ perKg }: Prices): void {
  for (const [cut, price] of Object.entries(perKg)) {
    if (price >= 0 && Number.isFinite(price)) continue;
    throw new RoastError(`the price of ${cut} is ${price}; it can be 0 or more`, {
      code: Number.isFinite(price) ? 'out-of-range' : 'not-a-number',
      path: ['prices', cut],
      found: price,
      accepted: '0 or more for a kilogram',
    });
  }
}

/** Wishes added up by band, the rarest first. */
function wishesOf(wishes: readonly BandWish[], scale: Scale): BandWish[] {
  for (const { band, count } of wishes) {
    bandNamed(scale, band);
    if (Number.isInteger(count) && count >= 1) continue;
    throw new RoastError(`${count} guests want ${band}; guests come whole`, {
      code: 'out-of-range',
      path: ['wishes'],
      found: count,
      accepted: 'whole numbers from 1',
    });
  }
  return scale.bands
    .map(({ name }) => ({
      band: name,
      count: wishes
        .filter(({ band }) => bandNamed(scale, band).name === name)
        .reduce((sum, { count }) => sum + count, 0),
    }))
    .filter(({ count }) => count > 0);
}

const commonest = (wishes: readonly BandWish[]): string =>
  wishes.reduce((best, wish) => (wish.count > best.count ? wish : best)).band;

/**
 * Reckons how much tenderloin to buy for some people: for each cut the weights to ask for, what is left of them trimmed and
 * cooked, how evenly they come out, what they cost; and which to take.
 *
 * @throws RoastError `out-of-range`, `not-a-number`, `missing`, `unknown-name` (a band), and what `planCook` throws
 * @example
 * const order = planOrder({ guests: 8 })
 * order.recommendation.cut // => 'centre'
 */
export function planOrder(request: OrderRequest): Order {
  const need = needOf(request);
  const asked = request.cook ?? USUAL_COOK;
  const scale = asked.aim?.scale ?? SCALES.kitchen;
  const wishes = wishesOf(request.wishes ?? [], scale);
  const cook: PlanRequest = {
    ...asked,
    portionKg: need.portionKg,
    aim: { ...(wishes.length > 0 ? { doneness: commonest(wishes) } : {}), ...asked.aim, scale },
  };
  const { prices, stockKg } = request;
  if (stockKg !== undefined) checkStock(stockKg);
  if (prices !== undefined) checkPrices(prices);
  const trims = trimRule(request.trims);
  const reckoned = {
    need,
    cook,
    stepKg: COUNTER_STEP_KG[request.units ?? 'metric'],
    trims,
    wishes,
    ...(prices === undefined ? {} : { prices }),
    ...(stockKg === undefined ? {} : { stockKg }),
  };
  const candidates = ORDER_CUTS.map((cut) => candidate(cut, reckoned));
  return { need, cook, wishes, trims, candidates, recommendation: recommend(candidates, wishes) };
}
