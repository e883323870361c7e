import type {
  Bath,
  History,
  OvenRoast,
  OwnSurroundings,
  Roast,
  Stage,
  Until,
} from '../cook/index.js';
import type { CookingLoss, Safety, Slice, Warning } from '../judge/index.js';
import type { Aim, AimRequest } from './aim.js';
import type { Carving } from './guestWays.js';

/** How long a roast that fell behind goes back into the oven. */
export interface PutBack {
  /** So much below what the thermometer should show 10 minutes into the rest [K]... */
  readonly behindK: number;
  /** ...takes so many more minutes in the same oven. */
  readonly minutes: number;
}

/** When to take the roast out, instead of searching for it: the axis of the aimed-at slice, or any ending of a stage. */
export type PullRequest = { readonly centreC: number } | Until;

/** What to plan. */
export interface PlanRequest {
  /** Stages before the last oven or bath stage, from the refrigerator on. */
  readonly before: readonly Stage[];
  /** The last oven or bath stage; its `until` is replaced by the pull. */
  readonly heat: OvenRoast | Bath;
  /** Stages after the pull: rest, or a sear and a rest. */
  readonly after: readonly Stage[];
  readonly aim?: AimRequest;
  /** Simulates this pull instead of searching for the one that meets the aim. */
  readonly pull?: PullRequest;
  /** Someone young, old, pregnant or immunocompromised eats. */
  readonly atRisk?: boolean;
  /** Raw weight of a slice [kg]; default 0.227. */
  readonly portionKg?: number;
}

/** A {@link PlanRequest} whose heat may also be surroundings of the caller's own; only `planCook` takes it. */
export interface OwnPlanRequest extends Omit<PlanRequest, 'heat'> {
  readonly heat: PlanRequest['heat'] | OwnSurroundings;
}

/** The moment of pulling. */
export interface Pull {
  /** Minutes since the refrigerator. */
  readonly atMinutes: number;
  /** Minutes since the first oven or bath stage began (without one: the own surroundings): what a timer is set to. */
  readonly minutes: number;
  /** Minutes since the last oven or bath stage began. */
  readonly heatMinutes: number;
  readonly row: number;
  /** Axis of the aimed-at slice, the coldest axis, and a thermometer a quarter radius off the aimed-at axis [°C]. */
  readonly centreC: number;
  readonly coldestC: number;
  readonly readingAtQuarterRadiusC: number;
}

/** The top of the carryover on the aimed-at slice's axis. */
export interface Peak {
  readonly atMinutes: number;
  readonly row: number;
  readonly centreC: number;
  readonly riseC: number;
  /** How fast that axis still rises when the cook ends [K/min]; negative once it falls. */
  readonly endingKPerMinute: number;
}

/** What the thermometer should show on the way. */
export interface Checkpoint {
  readonly atMinutes: number;
  readonly centreC: number;
}

/** A complete plan. */
export interface Plan {
  readonly roast: Roast;
  readonly history: History;
  readonly aim: Aim;
  readonly pull: Pull;
  readonly peak: Peak;
  /** First look at the thermometer, in good time before the pull. */
  readonly firstLook: Checkpoint & {
    /** How long it can wait before an early roast is ready [min], where that was reckoned. */
    readonly spareMinutes?: number;
  };
  /** 5 and 10 minutes into the rest, as far as it lasts. */
  readonly afterPull: readonly Checkpoint[];
  /** What to do when the thermometer is behind; only for a rest straight from an oven, and not under the strict rules. */
  readonly putBack?: PutBack;
  readonly slices: readonly Slice[];
  /** Where slices are carved before the rest is over: they are judged by what they become until then. */
  readonly carving?: Carving;
  readonly loss: CookingLoss;
  readonly safety: Safety;
  readonly warnings: readonly Warning[];
}
