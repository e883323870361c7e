import {
  adviseOnCourse,
  type CourseAdvice,
  type CourseGround,
  cookedRequest,
  courseGround,
  type Estimate,
  type LiveEstimate,
  type Plan,
  type PriorChanges,
  ProbeTracker,
} from '@roastsim/core';
import type { LogReading } from '../read/probeLog.js';

/** What does not change while a cook is followed. */
export interface CourseSetup {
  readonly plan: Plan;
  readonly priors?: PriorChanges;
  /** When the log begins [min since the refrigerator]; default when the roast goes into the oven. */
  readonly logStartMinutes?: number;
  /** Serving time [min since midnight]. */
  readonly serveMinutes?: number;
  /** Time of day now [min since midnight], for a log that runs while it is read. */
  readonly clockNow?: () => number;
}

/** Where a cook stands. Minutes count from the beginning of the first oven or bath stage unless they say otherwise. */
export interface CourseView {
  readonly plan: Plan;
  readonly nowMinutes: number;
  /** What the thermometers last showed [°C]; NaN where one showed nothing. */
  readonly centreC: number;
  readonly secondC: number;
  readonly ovenC: number;
  readonly estimate: LiveEstimate;
  readonly remaining: Estimate;
  /** Time of day [min since midnight] of such a minute, where it is known. */
  readonly clockAt?: (minutes: number) => number;
  /** Where that comes from: the log, the clock here, or the plan as if it had begun on time. */
  readonly clockFrom?: 'log' | 'here' | 'plan';
  /** How much later than wished it would be served [min]; negative: earlier. Only while it is in the heat. */
  readonly lateMinutes?: number;
  readonly advice: readonly CourseAdvice[];
}

const MEAT_C = [-10, 115] as const; // beyond, a probe is out of the meat: nothing to show or to act on
const LEVEL = 0.9;
const REFIT_MINUTES = 0.25; // between two fits; meanwhile the minutes are counted down
const ADVISE_MINUTES = 1;
const LATEST = 3; // readings whose median stands for "now": one spike must not call for a pull
const LATEST_MINUTES = 1.5;
const DAY_MINUTES = 24 * 60;

/** Follows one cook by its log: readings in, views out. */
export class Course {
  readonly #setup: CourseSetup;
  readonly #tracker: ProbeTracker;
  readonly #ground: CourseGround;
  /** Minutes since the refrigerator at which the first oven or bath stage begins. */
  readonly #heatStart: number;
  /** Minutes from the pull to the table. */
  readonly #afterPull: number;
  #origin: number | undefined;
  #latest: { readonly minutes: number; readonly reading: LogReading }[] = [];
  #now = 0;
  #estimate: LiveEstimate | undefined;
  #advice: readonly CourseAdvice[] = [];
  #advisedAt = Number.NEGATIVE_INFINITY;

  /** @throws RoastError as the library's fit does */
  constructor(setup: CourseSetup) {
    this.#setup = setup;
    const { plan, priors } = setup;
    const request = cookedRequest(plan);
    this.#tracker = new ProbeTracker(plan.roast, request, {
      plan,
      level: LEVEL,
      ...(priors === undefined ? {} : { priors }),
    });
    this.#ground = courseGround(plan, request);
    this.#heatStart = plan.pull.atMinutes - plan.pull.minutes;
    const { seconds, rows } = plan.history;
    this.#afterPull = seconds[rows - 1] / 60 - plan.pull.atMinutes;
  }

  /** Takes a reading; says at which minute it was made. */
  take(reading: LogReading): number {
    const { atMinutes, fromZero } = reading;
    // a time line that does not begin near 0 is no time since the log began
    this.#origin ??= fromZero && Math.abs(atMinutes) <= DAY_MINUTES ? 0 : atMinutes;
    const begins = (this.#setup.logStartMinutes ?? this.#heatStart) - this.#heatStart;
    const minutes = atMinutes - this.#origin + begins;
    const { centreC, secondC, ovenC } = reading;
    this.#tracker.add({ minutes, centreC, secondC, ovenC });
    if (minutes >= this.#now || this.#latest.length === 0) this.#now = minutes;
    const inMeat = (c: number): number => (c >= MEAT_C[0] && c <= MEAT_C[1] ? c : Number.NaN);
    const seen = { ...reading, centreC: inMeat(centreC), secondC: inMeat(secondC) };
    this.#latest = [...this.#latest, { minutes, reading: seen }].slice(-LATEST);
    return minutes;
  }

  /** Whether the centre is near the pull or past it: from there on the moment of the pull is looked for. */
  get nearPull(): boolean {
    return this.#centreC() > this.#setup.plan.pull.centreC - NEAR_K;
  }

  #centreC(): number {
    return this.#median(({ centreC }) => centreC);
  }

  #median(of: (reading: LogReading) => number): number {
    const values = this.#latest
      .filter(({ minutes }) => this.#now - minutes <= LATEST_MINUTES)
      .map(({ reading }) => of(reading))
      .filter((value) => !Number.isNaN(value))
      .sort((a, b) => a - b);
    return values.length === 0 ? Number.NaN : values[Math.floor((values.length - 1) / 2)];
  }

  /** What the log says now. */
  view(): CourseView {
    const { plan } = this.#setup;
    const now = this.#now;
    const last = this.#estimate;
    const estimate =
      last !== undefined && Math.abs(now - last.nowMinutes) < REFIT_MINUTES
        ? last
        : withoutPull(this.#tracker.estimate(now));
    this.#estimate = estimate;
    const rest = (minutes: number): number => Math.max(0, minutes - now);
    const { level, low, likely, high } = estimate.pullMinutes;
    const centreC = this.#centreC();
    const clock = this.#clock();
    const late = this.#late(estimate, clock.clockAt);
    if (estimate.pulledAtMinutes !== undefined) this.#advice = [];
    else if (Math.abs(now - this.#advisedAt) >= ADVISE_MINUTES) {
      this.#advisedAt = now;
      this.#advice = adviseOnCourse(this.#ground, {
        nowMinutes: now,
        centreC,
        beliefs: estimate.beliefs,
        ...(late?.sure === true ? { lateMinutes: late.minutes } : {}),
        ...(estimate.betterPull === undefined ? {} : { betterPull: estimate.betterPull }),
      });
    }
    return {
      plan,
      nowMinutes: now,
      centreC,
      secondC: this.#median((reading) => reading.secondC),
      ovenC: this.#median((reading) => reading.ovenC),
      estimate,
      remaining: { level, low: rest(low), likely: rest(likely), high: rest(high) },
      ...clock,
      ...(late === undefined ? {} : { lateMinutes: late.minutes }),
      advice: this.#advice,
    };
  }

  #clock(): Pick<CourseView, 'clockAt' | 'clockFrom'> {
    const { plan, clockNow, serveMinutes } = this.#setup;
    const now = this.#now;
    const seen = this.#latest.at(-1);
    const { clockMinutes } = seen?.reading ?? {};
    if (seen !== undefined && clockMinutes !== undefined) {
      return { clockFrom: 'log', clockAt: (minutes) => clockMinutes + minutes - seen.minutes };
    }
    if (clockNow !== undefined) {
      const here = clockNow();
      return { clockFrom: 'here', clockAt: (minutes) => here + minutes - now };
    }
    if (serveMinutes === undefined) return {};
    const table = plan.pull.minutes + this.#afterPull;
    return { clockFrom: 'plan', clockAt: (minutes) => serveMinutes + minutes - table };
  }

  /** How late it gets, and whether the whole interval is on one side of the wish. */
  #late(
    { pullMinutes, pulledAtMinutes, betterPull }: LiveEstimate,
    clockAt: CourseView['clockAt'],
  ): { readonly minutes: number; readonly sure: boolean } | undefined {
    const { serveMinutes } = this.#setup;
    if (serveMinutes === undefined || clockAt === undefined || pulledAtMinutes !== undefined) {
      return undefined;
    }
    const lateAt = (pull: number): number => {
      const late = clockAt(pull + this.#afterPull) - serveMinutes;
      return late - DAY_MINUTES * Math.round(late / DAY_MINUTES);
    };
    const later = (betterPull?.minutes ?? pullMinutes.likely) - pullMinutes.likely;
    const [low, likely, high] = [pullMinutes.low, pullMinutes.likely, pullMinutes.high].map(
      (minutes) => minutes + later,
    );
    if (!Number.isFinite(likely)) return undefined;
    const minutes = lateAt(likely);
    return { minutes, sure: minutes > 0 ? lateAt(low) > 0 : minutes + (high - likely) < 0 };
  }
}

const NEAR_K = 6;
const SAME_MINUTES = 1;

/** The oven is opened for the pull too; that is no door to tell of. */
function withoutPull(estimate: LiveEstimate): LiveEstimate {
  const { pulledAtMinutes = Number.POSITIVE_INFINITY, doorOpenedAtMinutes } = estimate;
  const doors = doorOpenedAtMinutes.filter((minutes) => minutes < pulledAtMinutes - SAME_MINUTES);
  return { ...estimate, doorOpenedAtMinutes: doors };
}
