import {
  askText,
  type BandWish,
  type Candidate,
  type Order,
  type OrderCut,
  type Recommendation,
  sayChildren,
  sayRecommendation,
  sayWarning,
  TRIM_NAMES,
  type Trimming,
  type TyingReport,
  type UnitSystem,
  type Warning,
} from '@roastsim/core';
import { moneyText } from './orderText.js';
import { rounded } from './rounded.js';

/** Version of the document's form; it rises when a field changes its meaning or goes away. */
export const ORDER_SCHEMA_VERSION = 1;

/** What a document needs beside the order. */
export interface OrderDocumentContext {
  /** Version of the program. */
  readonly version: string;
  /** Units of the sentences and of the steps weights are rounded to; all numbers are °C, kg, mm and minutes. */
  readonly units: UnitSystem;
  /** Language of amounts of money in sentences. */
  readonly locale: string;
  readonly assumed: readonly string[];
  readonly children: number;
  /** How each candidate's heaviest piece is tied. */
  readonly tying: ReadonlyMap<OrderCut, TyingReport>;
}

/** A candidate with what to say at the counter and how to tie it. */
type CandidateEntry = Omit<Candidate, 'comesOff' | 'warnings'> & {
  readonly ask: string;
  readonly comesOff: readonly (Trimming & { readonly name: string; readonly goodFor: string })[];
  readonly warnings: readonly (Warning & { readonly text: string })[];
  readonly tying?: TyingReport;
};

/** One order as plain data; docs/order.schema.json describes every field. */
export interface OrderDocument {
  readonly schemaVersion: typeof ORDER_SCHEMA_VERSION;
  readonly version: string;
  readonly need: Order['need'] & {
    readonly guests: number;
    readonly children: number;
    readonly wishes: readonly BandWish[];
  };
  readonly cook: {
    readonly scale: string;
    readonly doneness: string | number;
    readonly ovenC: number | null;
  };
  readonly candidates: readonly CandidateEntry[];
  readonly recommendation: Recommendation & { readonly text: string };
  readonly notes: readonly string[];
  readonly assumed: readonly string[];
}

/**
 * An order as one plain, rounded, JSON-able object, by docs/order.schema.json.
 *
 * @throws Error should a figure not be finite: a fault of the program, and a document never carries one
 */
export function orderDocument(order: Order, context: OrderDocumentContext): OrderDocument {
  const { need, cook, wishes, candidates, recommendation } = order;
  const { version, units, locale, assumed, children, tying } = context;
  return rounded({
    schemaVersion: ORDER_SCHEMA_VERSION,
    version,
    need: { guests: need.people - children, children, wishes, ...need },
    cook: {
      scale: cook.aim?.scale?.name ?? 'kitchen',
      doneness: cook.aim?.doneness ?? 'medium-rare',
      ovenC: cook.heat.kind === 'roast' ? cook.heat.ovenC : null,
    },
    candidates: candidates.map((candidate) => {
      const tied = tying.get(candidate.cut);
      return {
        ...candidate,
        ask: askText(candidate, units),
        comesOff: candidate.comesOff.map((each) => ({ ...each, ...TRIM_NAMES[each.part] })),
        warnings: candidate.warnings.map((warning) => ({
          ...warning,
          text: sayWarning(warning, units),
        })),
        ...(tied === undefined ? {} : { tying: tied }),
      };
    }),
    recommendation: {
      ...recommendation,
      text: sayRecommendation(order, units, moneyText(order, locale)),
    },
    notes: children > 0 ? [sayChildren(units)] : [],
    assumed,
  });
}
