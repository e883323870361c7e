import type { Roast } from '../cook/index.js';
import { quantileOf } from '../numerics/index.js';
import type { PlanRequest } from '../plan/index.js';
import { type FitGround, type FitOptions, fitGround, fitSamples, type LogFit } from './fitLog.js';
import { type Reading, type Sample, thinned, usable } from './readings.js';

/** What a running log makes of a cook. */
export interface LiveEstimate extends LogFit {
  /** When the roast was taken out, by what was told or by the curves [min]; absent while it is in the oven. */
  readonly pulledAtMinutes?: number;
  /** When the oven's door was opened, by an oven thermometer [min]. */
  readonly doorOpenedAtMinutes: readonly number[];
}

const BIN_MINUTES = 0.5;
const MOST_IN_BIN = 9; // readings kept of half a minute
const MOST_BINS = 24 * 60 * 2; // a day

const COLD_SHARE = 0.5; // of the way from the room to the setting: an oven probe below that is out of the oven
const OUT_MINUTES = 3; // a door is not open that long
const ROOM_C = 22;
const DIP_K = 25; // below what the oven showed in the minutes before
const DIP_BACK_MINUTES = 10;

const TAKEN_OUT_NEAR_K = 6; // nobody takes a roast out long before it is ready
const TRIED_MINUTES_AGO = [5, 9, 14, 20] as const; // the axis feels the pull only after minutes
const TELLING = 25; // by so much must a pull explain the log better (twice a log-likelihood). Judgement
const TRY_EVERY_MINUTES = 2;
const SLOPE_MINUTES = 5;
const SLACKENED = 0.8; // of the steepest slope in the last half hour: before, there is nothing to explain

/**
 * Follows a thermometer while the roast is in: takes readings as they come, in any order, and says what remains. Memory stays flat:
 * half minutes keep a few readings each. Times run from the beginning of the first oven or bath stage.
 *
 * @example
 * const tracker = new ProbeTracker(roast, request, { plan })
 * tracker.add({ minutes: 12.5, centreC: 18.2 })
 * const { remainingMinutes } = tracker.estimate()
 */
export class ProbeTracker {
  readonly #ground: FitGround;
  readonly #options: FitOptions;
  readonly #bins = new Map<number, Reading[]>();
  #changed = true;
  #latestMinutes = Number.NEGATIVE_INFINITY;
  #guess: readonly number[] | undefined;
  #triedMinutes = Number.NEGATIVE_INFINITY;
  #pulledAtMinutes: number | undefined;
  #last: LiveEstimate | undefined;

  /** @throws RoastError as `fitLog` */
  constructor(roast: Roast, request: PlanRequest, options: FitOptions = {}) {
    this.#ground = fitGround(roast, request, options);
    this.#options = options;
    this.#pulledAtMinutes = options.pulledAtMinutes;
  }

  /** Takes one reading; what cannot be a temperature or a time is passed over. Returns whether it was kept. */
  add(reading: Reading): boolean {
    if (!usable(reading)) return false;
    const key = Math.floor(reading.minutes / BIN_MINUTES);
    let bin = this.#bins.get(key);
    if (bin === undefined) {
      if (this.#bins.size >= MOST_BINS) return false;
      bin = [];
      this.#bins.set(key, bin);
    }
    this.#latestMinutes = Math.max(this.#latestMinutes, reading.minutes);
    if (bin.length >= MOST_IN_BIN) return false;
    bin.push(reading);
    this.#changed = true;
    return true;
  }

  /** Says that the roast was taken out [min]. */
  pulledAt(minutes: number): void {
    this.#pulledAtMinutes = minutes;
    this.#guess = undefined;
    this.#changed = true;
  }

  /**
   * What the log says now. Repeated calls without new readings return the same answer.
   *
   * @param nowMinutes - time to count from; default that of the latest reading
   */
  estimate(nowMinutes?: number): LiveEstimate {
    const now =
      nowMinutes ??
      this.#options.nowMinutes ??
      (this.#latestMinutes === Number.NEGATIVE_INFINITY ? 0 : this.#latestMinutes);
    if (!this.#changed && this.#last?.nowMinutes === now) return this.#last;
    const samples = thinned([...this.#bins.values()].flat());
    const options = { ...this.#options, nowMinutes: now };
    const pulled = this.#pulledAtMinutes ?? outOfTheOven(samples, this.#ground.request);
    const estimate =
      pulled === undefined
        ? this.#inTheOven(samples, options)
        : this.#out(samples, options, pulled);
    this.#changed = false;
    this.#last = { ...estimate, doorOpenedAtMinutes: doorsOf(samples) };
    return this.#last;
  }

  #out(samples: readonly Sample[], options: FitOptions, pulledAtMinutes: number) {
    const pulled = { ...options, pulledAtMinutes };
    const { cost: _, ...fit } = fitSamples(this.#ground, samples, pulled, this.#guess);
    this.#guess = fit.at;
    return { ...fit, pulledAtMinutes };
  }

  /** Fits the oven, and near the pull temperature tries whether a pull some minutes ago explains the log better. */
  #inTheOven(samples: readonly Sample[], options: FitOptions) {
    const { cost, ...fit } = fitSamples(this.#ground, samples, options, this.#guess);
    this.#guess = fit.at;
    const enoughC = this.#ground.standIn.pullC - TAKEN_OUT_NEAR_K;
    const latest = samples.at(-1);
    if (latest === undefined || !(latest.centreC > enoughC) || !slackens(samples)) return fit;
    if (Math.abs(latest.minutes - this.#triedMinutes) < TRY_EVERY_MINUTES) return fit;
    this.#triedMinutes = latest.minutes;
    let best = { cost: cost - TELLING, minutes: Number.NaN };
    for (const ago of TRIED_MINUTES_AGO) {
      const minutes = latest.minutes - ago;
      const before = samples.findLast((sample) => sample.minutes <= minutes);
      if (before === undefined || !(before.centreC > enoughC)) break;
      const pulled = { ...options, pulledAtMinutes: minutes };
      const trial = fitSamples(this.#ground, samples, pulled, fit.at);
      if (trial.cost < best.cost) best = { cost: trial.cost, minutes };
    }
    if (Number.isNaN(best.minutes)) return fit;
    this.#pulledAtMinutes = best.minutes;
    return this.#out(samples, options, best.minutes);
  }
}

/** Whether the centre rises clearly more slowly than it lately did. */
function slackens(samples: readonly Sample[]): boolean {
  const seen = samples.filter(({ centreC }) => !Number.isNaN(centreC));
  const slopes = seen.flatMap((sample) => {
    const earlier = seen.findLast(({ minutes }) => minutes <= sample.minutes - SLOPE_MINUTES);
    if (earlier === undefined || seen[seen.length - 1].minutes - sample.minutes > 30) return [];
    return [(sample.centreC - earlier.centreC) / (sample.minutes - earlier.minutes)];
  });
  const last = slopes.at(-1);
  return last !== undefined && last < SLACKENED * Math.max(...slopes);
}

/** When an oven thermometer left the heat for good [min]. */
function outOfTheOven(samples: readonly Sample[], { heat }: PlanRequest): number | undefined {
  if (heat.kind !== 'roast') return undefined;
  const seen = samples.filter(({ ovenC }) => !Number.isNaN(ovenC));
  const levelC = ROOM_C + COLD_SHARE * (heat.ovenC - ROOM_C);
  const wasHot = seen.findIndex(({ ovenC }) => ovenC > levelC);
  const lastHot = seen.findLastIndex(({ ovenC }) => ovenC > levelC);
  const out = seen[lastHot + 1];
  const latest = seen.at(-1);
  if (wasHot < 0 || out === undefined || latest === undefined) return undefined;
  return latest.minutes - out.minutes >= OUT_MINUTES ? out.minutes : undefined;
}

/** Short dips of an oven thermometer [min]. */
function doorsOf(samples: readonly Sample[]): number[] {
  const seen = samples.filter(({ ovenC }) => !Number.isNaN(ovenC));
  const doors: number[] = [];
  let open = false;
  for (const [i, { minutes, ovenC }] of seen.entries()) {
    const before = seen
      .slice(0, i)
      .filter((sample) => minutes - sample.minutes <= DIP_BACK_MINUTES)
      .map((sample) => sample.ovenC)
      .sort((a, b) => a - b);
    if (before.length < 2) continue;
    const dipped = ovenC < quantileOf(before, 0.5) - DIP_K;
    if (dipped && !open) doors.push(minutes);
    open = dipped;
  }
  return doors;
}
