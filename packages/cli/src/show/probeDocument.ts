import {
  type Belief,
  type CourseAdvice,
  cookedRequest,
  type Estimate,
  type Plan,
  type Prior,
  type PriorChanges,
  priorsFor,
  sayWarning,
  type UnitSystem,
  type Warning,
} from '@roastsim/core';
import type { CourseView } from '../ask/course.js';
import { adviceSentence, clockText, type ProbeWords } from './probe.js';
import { sayBeliefs } from './probeBeliefs.js';

/** Version of the document's form; it rises when a field changes its meaning or goes away. */
export const PROBE_SCHEMA_VERSION = 1;

/** An estimate as plain data; null where it is not finite: the pull may never come. */
export interface EstimateEntry {
  readonly low: number | null;
  readonly likely: number | null;
  readonly high: number | null;
  readonly level: number;
}

/** What a log says at one moment; docs/probe.schema.json describes every field. */
export interface ProbeDocument {
  readonly schemaVersion: typeof PROBE_SCHEMA_VERSION;
  readonly nowMinutes: number;
  readonly clock?: string;
  readonly centreC: number | null;
  readonly secondC: number | null;
  readonly ovenC: number | null;
  readonly state: 'waiting' | 'heating' | 'out';
  readonly pull: {
    readonly centreC: number;
    readonly plannedMinutes: number;
    readonly minutes: EstimateEntry;
    readonly remainingMinutes: EstimateEntry;
    readonly clock?: string;
  };
  readonly peakC: EstimateEntry;
  readonly betterPull?: {
    readonly centreC: number;
    readonly minutes: number;
    readonly clock?: string;
  };
  readonly pulledAtMinutes?: number;
  readonly doorOpenedAtMinutes: readonly number[];
  readonly lateMinutes?: number;
  readonly contradicts: boolean;
  readonly misfit: number;
  readonly samples: number;
  readonly beliefs: readonly (Belief & Pick<Prior, 'form' | 'unit'>)[];
  readonly explains: readonly string[];
  readonly advice: readonly (CourseAdvice & { readonly text: string })[];
  readonly warnings: readonly (Warning & { readonly text: string })[];
}

const rounded = (value: number, decimals = 2): number => Number(value.toFixed(decimals)) + 0;
const orNull = (value: number): number | null => (Number.isFinite(value) ? rounded(value) : null);
const estimateEntry = ({ low, likely, high, level }: Estimate): EstimateEntry => ({
  low: orNull(low),
  likely: orNull(likely),
  high: orNull(high),
  level,
});

/** A view of a cook as plain, rounded data. */
export function probeDocument(
  view: CourseView,
  words: ProbeWords,
  priors: PriorChanges | undefined,
): ProbeDocument {
  const { plan, nowMinutes, estimate, remaining, clockAt, lateMinutes, advice } = view;
  const pulled = estimate.pulledAtMinutes;
  const at = (minutes: number): { clock?: string } =>
    clockAt === undefined || !Number.isFinite(minutes)
      ? {}
      : { clock: clockText(clockAt(minutes)) };
  return {
    schemaVersion: PROBE_SCHEMA_VERSION,
    nowMinutes: rounded(nowMinutes),
    ...at(nowMinutes),
    centreC: orNull(view.centreC),
    secondC: orNull(view.secondC),
    ovenC: orNull(view.ovenC),
    state: pulled !== undefined ? 'out' : nowMinutes < 0 ? 'waiting' : 'heating',
    pull: {
      centreC: rounded(plan.pull.centreC),
      plannedMinutes: rounded(plan.pull.minutes),
      minutes: estimateEntry(estimate.pullMinutes),
      remainingMinutes: estimateEntry(remaining),
      ...at(estimate.pullMinutes.likely),
    },
    peakC: estimateEntry(estimate.peakC),
    ...(estimate.betterPull === undefined
      ? {}
      : {
          betterPull: {
            centreC: rounded(estimate.betterPull.centreC),
            minutes: rounded(estimate.betterPull.minutes),
            ...at(estimate.betterPull.minutes),
          },
        }),
    ...(pulled === undefined ? {} : { pulledAtMinutes: rounded(pulled) }),
    doorOpenedAtMinutes: estimate.doorOpenedAtMinutes.map((minutes) => rounded(minutes)),
    ...(lateMinutes === undefined ? {} : { lateMinutes: rounded(lateMinutes) }),
    contradicts: estimate.contradicts,
    misfit: rounded(estimate.misfit),
    samples: estimate.samples,
    beliefs: beliefEntries(estimate.beliefs, plan, priors),
    explains: sayBeliefs(estimate.beliefs, plan, words.units),
    advice: advice.map((one) => ({ ...roundedAll(one), text: adviceSentence(one, words) })),
    warnings: warningEntries(plan, words.units),
  };
}

function beliefEntries(beliefs: readonly Belief[], plan: Plan, changes: PriorChanges | undefined) {
  const priors = priorsFor(plan.roast, cookedRequest(plan).heat, changes);
  return beliefs.map(({ input, value, standardError, movedBy }) => ({
    input,
    form: priors[input].form,
    unit: priors[input].unit,
    value: rounded(value, 4),
    standardError: rounded(standardError, 4),
    movedBy: rounded(movedBy),
  }));
}

const warningEntries = ({ warnings }: Plan, units: UnitSystem) =>
  warnings.map((warning) => ({ ...roundedAll(warning), text: sayWarning(warning, units) }));

/** The same data, every number with two decimals. */
const roundedAll = <T>(data: T): T =>
  (typeof data === 'number'
    ? rounded(data)
    : Array.isArray(data)
      ? data.map(roundedAll)
      : typeof data === 'object' && data !== null
        ? Object.fromEntries(Object.entries(data).map(([key, value]) => [key, roundedAll(value)]))
        : data) as T;
