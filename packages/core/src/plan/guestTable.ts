import type { CookOptions, Roast, Stage } from '../cook/index.js';
import { RoastError } from '../errors.js';
import {
  type Cut,
  type Seating,
  type SettledWish,
  seatGuests,
  TARGET_C,
  type Wish,
} from '../judge/index.js';
import {
  bestOf,
  type PullGrid,
  type PullOutcome,
  type PullWindow,
  pullsWithin,
  type SeatedPull,
} from './bestPull.js';
import { cutsForGuests } from './cutsForGuests.js';
import type { Freedom, Way, WaysOfOneOven } from './guestWays.js';
import type { Plan, PlanRequest } from './plan.js';
import { planCook } from './planCook.js';

/** What to plan for a table of guests. */
export interface GuestRequest extends Omit<PlanRequest, 'pull'> {
  readonly wishes: readonly Wish[];
  /** What may be changed beside the pull; default nothing. */
  readonly vary?: readonly Freedom[];
  /** The same meat with its tail the other way; needed to vary the fold. */
  readonly otherFold?: Roast;
  /** Time there is from the refrigerator to the carving [min]. */
  readonly withinMinutes?: number;
}

/** One way with its best pull. */
export interface GuestOption {
  readonly way: Way;
  /** Since the heat stage began [min]. */
  readonly heatMinutes: number;
  /** From the refrigerator to the end of the cook [min]. */
  readonly totalMinutes: number;
  /** Axis of the slice in the middle at the pull [°C]. */
  readonly pullCentreC: number;
  /** Hottest that each slice's centre becomes before it is carved [°C]. */
  readonly slicePeakC: Float64Array;
  readonly seating: Seating;
}

/** A way, the pulls of it that were looked at, and the best of them. */
export interface Scanned {
  readonly way: Way;
  readonly pulls: readonly PullOutcome[];
  readonly best: SeatedPull;
}

/** How ways are compared before the best are computed in full. */
export const SCAN = { stations: 8, shells: 10, longestStepS: 90, firstStepS: 5 } as const;
const SCAN_GRID: PullGrid = { samples: 5, stepS: 100, most: 100 };
const FULL_GRID: PullGrid = { samples: 7, stepS: 15, most: 600 };
/** How pieces are computed, which are only held against each other. */
const PIECE = { stations: 20, shells: 16 } as const;
// every pull of one piece meets every pull of the other
const PIECE_GRID: PullGrid = { samples: 6, stepS: 60, most: 60 };

const MARGIN_K = 0.05; // wishes are taken a little narrower, so that a rounding does not undo what was found
const BELOW_RAREST_K = 28; // carryover in the hottest oven, for the earliest pull that is looked at
const ABOVE_MOST_DONE_K = 2;
// wider than the model's range: such a plan says so, as every plan does
const LEAST_PULL_C = 20;
const MOST_PULL_C = 85;
const LATEST_S = 24 * 3600;
const LONGEST_HEAT_S = 6 * 3600; // a changed way must not be slower: the limit for warming up (judge/safety.ts)

/** A table of guests and everything that stays the same over all ways: portions and limits. */
export class Table {
  readonly #request: GuestRequest;
  readonly #wishes: readonly SettledWish[];
  readonly #narrowWishes: readonly SettledWish[];
  readonly #strict: boolean;

  constructor(request: GuestRequest, wishes: readonly SettledWish[], intact: boolean) {
    this.#request = request;
    this.#wishes = wishes;
    this.#narrowWishes = wishes.map((wish) => ({
      ...wish,
      fromC: wish.fromC + MARGIN_K,
      toC: wish.toC - MARGIN_K,
    }));
    this.#strict = !intact || request.atRisk === true;
  }

  /**
   * Every pull that makes sense, on a coarse mesh; a way without one is left out. A carving is judged in the rest as it is without
   * one.
   */
  scanned(ways: WaysOfOneOven, options: CookOptions): Scanned[] {
    const [first, ...others] = ways.map((way) => ({ ...way, after: way.uncarved }));
    const cuts = this.cutsOf(first.roast);
    const pulls = this.#pulls([first, ...others], cuts, SCAN_GRID, { ...options, ...SCAN });
    return ways.flatMap((way, i) => this.#withBest(way, pulls[i]));
  }

  /** Every pull that makes sense, in full resolution; nothing of a way without one. */
  inFull(way: Way, options: CookOptions): Scanned[] {
    const [pulls] = this.#pulls([way], this.cutsOf(way.roast), FULL_GRID, options);
    return this.#withBest(way, pulls);
  }

  /** The best of some pulls for this table. */
  best(pulls: readonly PullOutcome[]): SeatedPull | undefined {
    return bestOf(pulls, this.#narrowWishes);
  }

  #withBest(way: Way, pulls: readonly PullOutcome[]): Scanned[] {
    const best = this.best(pulls);
    return best === undefined ? [] : [{ way, pulls, best }];
  }

  /** Every pull of a piece that is cut in a way of its own. */
  pullsOfPiece(way: Way, cuts: readonly Cut[], options: CookOptions): PullOutcome[] {
    const [pulls] = this.#pulls([way], cuts, PIECE_GRID, { ...options, ...PIECE });
    return pulls;
  }

  /** Slices of a roast for this table. */
  cutsOf(roast: Roast): Cut[] {
    return cutsForGuests(roast, this.#wishes.length, this.#request.portionKg);
  }

  /** A way with one of its pulls. */
  option(way: Way, { pullS, centreC, peakC }: PullOutcome): GuestOption {
    return {
      way,
      heatMinutes: pullS / 60,
      totalMinutes: minutesOf(way.before) + pullS / 60 + minutesOf(way.after),
      pullCentreC: centreC,
      slicePeakC: peakC,
      seating: seatGuests(peakC, this.#wishes),
    };
  }

  /**
   * The whole plan of an option.
   *
   * @param after - what follows the pull, when less than the way says
   */
  plan(
    { way, heatMinutes, slicePeakC }: GuestOption,
    options: CookOptions,
    after: readonly Stage[] = way.after,
  ): Plan {
    const { aim, atRisk } = this.#request;
    const middleC = slicePeakC[Math.floor((slicePeakC.length - 1) / 2)];
    const doneness = Math.min(TARGET_C[1], Math.max(TARGET_C[0], middleC));
    return planCook(
      way.roast,
      {
        before: way.before,
        heat: way.heat,
        after,
        aim: {
          ...(aim?.scale === undefined ? {} : { scale: aim.scale }),
          ...(this.#strict ? {} : { at: 'middle' as const, doneness }),
        },
        pull: { minutes: heatMinutes },
        ...(atRisk === undefined ? {} : { atRisk }),
        portionKg: way.roast.massKg / slicePeakC.length,
      },
      options,
    );
  }

  #pulls(
    ways: WaysOfOneOven,
    cuts: readonly Cut[],
    grid: PullGrid,
    options: CookOptions,
  ): PullOutcome[][] {
    // the slice in the middle by weight is where the thermometer goes
    const point = { atMm: cuts[Math.floor((cuts.length - 1) / 2)].middleMm };
    return pullsWithin(ways, cuts, point, this.#widest(ways, options), grid, options);
  }

  #widest(ways: WaysOfOneOven, options: CookOptions): PullWindow {
    const targets = this.#wishes.map(({ targetC }) => targetC);
    const [{ heat }] = ways;
    const mediumC = heat.kind === 'bath' ? heat.bathC : heat.ovenC;
    return {
      fromC: Math.max(LEAST_PULL_C, Math.min(...targets) - BELOW_RAREST_K),
      toC: Math.min(MOST_PULL_C, mediumC, Math.max(...targets) + ABOVE_MOST_DONE_K),
      ...this.#limits(ways, options),
    };
  }

  #limits(ways: WaysOfOneOven, options: CookOptions): Pick<PullWindow, 'earliestS' | 'latestS'> {
    const [first] = ways;
    const { withinMinutes = Number.POSITIVE_INFINITY } = this.#request;
    const longestAfter = Math.max(...ways.map(({ after }) => minutesOf(after)));
    const roomS = 60 * (withinMinutes - minutesOf(first.before) - longestAfter);
    const asked = ways.some(({ changed }) => changed.length === 0);
    return {
      earliestS: this.#strict ? this.#earliestSafeS(first, options) : 0,
      latestS: Math.min(asked ? LATEST_S : LONGEST_HEAT_S, roomS),
    };
  }

  /** The first pull that the strict rules allow [s]; Infinity when the way never meets them. */
  #earliestSafeS({ roast, before, heat, after }: Way, options: CookOptions): number {
    const { atRisk = false } = this.#request;
    try {
      const { pull } = planCook(roast, { before, heat, after, atRisk }, options);
      return 60 * pull.heatMinutes;
    } catch (error) {
      if (error instanceof RoastError && ['unsafe', 'unreachable'].includes(error.code)) {
        return Number.POSITIVE_INFINITY;
      }
      throw error;
    }
  }
}

/** Minutes of stages whose length is given; searched stages count nothing. */
const minutesOf = (stages: readonly Stage[]): number =>
  stages.reduce((sum, stage) => {
    if (stage.kind === 'pan-sear') return sum + (stage.faces * stage.secondsPerFace) / 60;
    return 'minutes' in stage.until ? sum + stage.until.minutes : sum;
  }, 0);
