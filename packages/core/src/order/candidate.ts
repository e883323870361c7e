import type { Slice, Warning } from '../judge/index.js';
import type { GuestChoice, PlanRequest } from '../plan/index.js';
import { CUTS, type TenderloinCut } from '../shape/index.js';
import { meets, piecesFor, portionsIn } from './counter.js';
import { type Need, rawFor } from './need.js';
import { quickCook, quickCookFor } from './quickCook.js';
import { cutFromStock, fromStock } from './stock.js';
import { type Trimming, type TrimRule, trim } from './trim.js';

/** What can be asked for: `untrimmed` is a whole tenderloin to clean at home, the others come trimmed. */
export type OrderCut = 'centre' | 'butt' | 'whole' | 'untrimmed';

/** All of them, in the order they are listed. */
export const ORDER_CUTS: readonly OrderCut[] = ['centre', 'butt', 'whole', 'untrimmed'];

/** Prices for a kilogram as it is weighed at the counter; cuts without one have no cost. */
export interface Prices {
  /** ISO 4217 code. */
  readonly currency: string;
  readonly perKg: Readonly<Partial<Record<OrderCut, number>>>;
}

/** So many guests want this band. */
export interface BandWish {
  readonly band: string;
  readonly count: number;
}

/** What a candidate is reckoned with. */
export interface CandidateRequest {
  readonly need: Need;
  readonly cook: PlanRequest;
  readonly stepKg: number;
  readonly trims: TrimRule;
  readonly wishes: readonly BandWish[];
  readonly prices?: Prices;
  /** Weights of trimmed whole tenderloins the shop has [kg]. */
  readonly stockKg?: readonly number[];
}

/** How even the slices come out, from quick simulations of the pieces. */
export interface Evenness {
  readonly slices: number;
  /** Slices whose middle peaks in the band aimed at. */
  readonly inBand: number;
  /** Hottest less coolest peak of a slice's middle [K], and those peaks [°C]. */
  readonly spreadK: number;
  readonly coolestC: number;
  readonly hottestC: number;
  /** How far the peaks lie from the temperature aimed at, root mean square [K]. */
  readonly missK: number;
  /**
   * Wishes met: of one piece, when its pull is chosen for the guests; of several, when every guest takes a slice of the band wished
   * for, as far as there are any.
   */
  readonly wishesMet: number;
}

/** What a cut costs. */
export interface Cost {
  readonly total: number;
  /** Of one portion's weight of trimmed meat. */
  readonly perPortion: number;
  readonly currency: string;
}

/** One way to buy what is needed. */
export interface Candidate {
  readonly cut: OrderCut;
  /** Weights to ask for [kg], heaviest first, as weighed at the counter. */
  readonly piecesKg: readonly number[];
  readonly askKg: number;
  /** Raw weight that goes into the oven [kg]; for an untrimmed one with the range it may come out in. */
  readonly trimmedKg: number;
  readonly trimmedLowKg: number;
  readonly trimmedHighKg: number;
  /** Weight on the board, cooked and rested [kg]. */
  readonly servedKg: number;
  /** Share of the trimmed weight that cooks off. */
  readonly lossFraction: number;
  /** Whole portions in the trimmed weight. */
  readonly portions: number;
  /** Trimmed weight beyond what is needed [kg]. */
  readonly surplusKg: number;
  /** For guests who want different things its tail is better left unfolded; only a whole one in one piece. */
  readonly unfolded?: true;
  /** Minutes in the oven of the heaviest piece; a guide, not a timetable. */
  readonly ovenMinutes: number;
  readonly evenness: Evenness;
  /** What comes off; nothing for cuts sold trimmed. */
  readonly comesOff: readonly Trimming[];
  readonly cost?: Cost;
  /** Whether the shop's stock of trimmed tenderloins gives it; absent when no stock is named. */
  readonly inStock?: boolean;
  /** Warnings of the heaviest piece's simulation. */
  readonly warnings: readonly Warning[];
}

/**
 * Cut of the simulated shape.
 *
 * @example
 * shapeOf('untrimmed') // => 'whole'
 */
export const shapeOf = (cut: OrderCut): TenderloinCut => (cut === 'untrimmed' ? 'whole' : cut);

const FIRST_LOSS = 0.1; // of the raw weight, to begin the search with: less than nearly any roast loses
const ROUNDS = 8;

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

interface Chosen {
  readonly piecesKg: readonly number[];
  readonly inStock?: boolean;
}

/** Pieces that hold a trimmed weight, from the stock where it has enough. */
function choose(cut: OrderCut, rawKg: number, request: CandidateRequest): Chosen {
  const { stepKg, stockKg, trims } = request;
  const usual = CUTS[shapeOf(cut)].usualKg;
  if (cut === 'untrimmed') {
    const stays = 1 - trims.total.share;
    return {
      piecesKg: piecesFor(rawKg / stays, [usual[0] / stays, usual[1] / stays], stepKg),
      ...(stockKg === undefined ? {} : { inStock: false }), // a stock is of trimmed ones
    };
  }
  const asked = piecesFor(rawKg, usual, stepKg);
  if (stockKg === undefined) return { piecesKg: asked };
  const found =
    cut === 'whole'
      ? fromStock(stockKg, rawKg)?.map((index) => stockKg[index])
      : cutFromStock(stockKg, rawKg, usual, stepKg);
  return { piecesKg: found ?? asked, inStock: found !== undefined };
}

/** Pieces of one weight, cooked. */
interface Cooked {
  readonly count: number;
  readonly massKg: number;
  readonly lossFraction: number;
  readonly slices: readonly Slice[];
  readonly minutes: number;
  readonly targetC: number;
  readonly band: string;
  readonly warnings: readonly Warning[];
}

/** Cooks pieces, one of each weight. */
function cookPieces(cut: OrderCut, trimmedKg: readonly number[], cook: PlanRequest): Cooked[] {
  const counts = new Map<number, number>();
  for (const massKg of trimmedKg) counts.set(massKg, (counts.get(massKg) ?? 0) + 1);
  return Array.from(counts, ([massKg, count]) => {
    const plan = quickCook({ cut: shapeOf(cut), massKg }, cook);
    return {
      count,
      massKg,
      lossFraction: plan.loss.fraction,
      slices: plan.slices,
      minutes: plan.pull.minutes,
      targetC: plan.aim.targetC,
      band: plan.aim.band.name,
      warnings: plan.warnings,
    };
  });
}

function evennessOf(cooked: readonly Cooked[], wishes: readonly BandWish[]): Evenness {
  const all = cooked.flatMap(({ count, slices, targetC, band }) =>
    Array.from({ length: count }, () =>
      slices.map((slice) => ({
        peakC: slice.peakCentreC,
        missK: slice.peakCentreC - targetC,
        band: slice.band,
        wanted: slice.band === band,
      })),
    ).flat(),
  );
  const peaks = all.map(({ peakC }) => peakC);
  const coolestC = Math.min(...peaks);
  const hottestC = Math.max(...peaks);
  return {
    slices: all.length,
    inBand: all.filter(({ wanted }) => wanted).length,
    spreadK: hottestC - coolestC,
    coolestC,
    hottestC,
    missK: Math.sqrt(sum(all.map(({ missK }) => missK * missK)) / all.length),
    wishesMet: sum(
      wishes.map(({ band, count }) =>
        Math.min(count, all.filter((slice) => slice.band === band).length),
      ),
    ),
  };
}

const MOST_SEATED = 40; // guests at one roast; beyond, several are cooked

/** For guests who want different things, one piece is pulled when it suits them best. */
function chosenFor(
  cut: OrderCut,
  trimmedKg: readonly number[],
  { cook, wishes }: CandidateRequest,
): GuestChoice | undefined {
  const guests = sum(wishes.map(({ count }) => count));
  if (wishes.length < 2 || trimmedKg.length > 1 || guests > MOST_SEATED) return undefined;
  const each = wishes.flatMap(({ band, count }) =>
    Array.from({ length: count }, () => ({ doneness: band })),
  );
  return quickCookFor({ cut: shapeOf(cut), massKg: trimmedKg[0] }, cook, each);
}

/**
 * One way to buy what is needed. Leftovers are wanted cooked, so their raw weight hangs on the simulated loss, which hangs on the
 * weight: the weight rises from a small loss until it is enough.
 *
 * @throws RoastError as `planCook`
 */
export function candidate(cut: OrderCut, request: CandidateRequest): Candidate {
  const { need, trims, prices, wishes } = request;
  let lossFraction = FIRST_LOSS;
  for (let round = 1; ; round++) {
    const rawKg = rawFor(need, lossFraction);
    const { piecesKg, inStock } = choose(cut, rawKg, request);
    const trimmed = piecesKg.map((massKg) =>
      cut === 'untrimmed' ? trim(massKg, trims).trimmedKg : massKg,
    );
    const cooked = cookPieces(cut, trimmed, request.cook);
    const trimmedKg = sum(trimmed);
    lossFraction =
      sum(cooked.map(({ count, massKg, ...c }) => count * massKg * c.lossFraction)) / trimmedKg;
    if (round < ROUNDS && !meets(trimmedKg, rawFor(need, lossFraction))) continue;
    const chosen = chosenFor(cut, trimmed, request);
    const askKg = sum(piecesKg);
    const perKg = prices?.perKg[cut];
    const off = cut === 'untrimmed' ? trim(askKg, trims) : undefined;
    const [heaviest] = cooked;
    return {
      cut,
      piecesKg,
      askKg,
      trimmedKg,
      trimmedLowKg: off?.lowKg ?? trimmedKg,
      trimmedHighKg: off?.highKg ?? trimmedKg,
      servedKg: trimmedKg * (1 - lossFraction),
      lossFraction,
      portions: portionsIn(trimmedKg, need.portionKg),
      surplusKg: Math.max(0, trimmedKg - rawFor(need, lossFraction)),
      ...(cut !== 'centre' && cut !== 'butt' && chosen?.best.way.roast.folded === false
        ? { unfolded: true }
        : {}),
      ovenMinutes: chosen?.plan.pull.minutes ?? heaviest.minutes,
      evenness:
        chosen === undefined
          ? evennessOf(cooked, wishes)
          : {
              ...evennessOf([{ ...heaviest, slices: chosen.plan.slices }], []),
              wishesMet: chosen.best.seating.met,
            },
      comesOff: off?.comesOff ?? [],
      warnings: chosen?.plan.warnings ?? heaviest.warnings,
      ...(prices === undefined || perKg === undefined
        ? {}
        : {
            cost: {
              total: perKg * askKg,
              perPortion: (perKg * askKg * need.portionKg) / trimmedKg,
              currency: prices.currency,
            },
          }),
      ...(inStock === undefined ? {} : { inStock }),
    };
  }
}
