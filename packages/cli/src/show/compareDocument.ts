import {
  type ComparedWay,
  type CookedWay,
  cautions,
  type RoastError,
  sayWarning,
  type Warning,
  type WayFigures,
  winningWays,
} from '@roastsim/core';
import { type Comparison, conclusionOf, isCooked, letterOf, wayLine } from './comparison.js';
import { type RoastEntry, roastEntry } from './roastEntry.js';
import { rounded } from './rounded.js';

/** Version of the document's form; it rises when a field changes its meaning or goes away. */
export const COMPARE_SCHEMA_VERSION = 1;

/** One piece of a way. */
export interface PieceEntry {
  readonly fromMm: number;
  readonly toMm: number;
  readonly massKg: number;
  readonly pull: {
    readonly minutes: number;
    readonly atMinutes: number;
    readonly centreC: number;
    readonly coldestC: number;
  };
  readonly peak: { readonly minutes: number; readonly centreC: number };
  readonly slices: readonly {
    readonly rawKg: number;
    readonly peakCentreC: number;
    readonly band: string;
  }[];
}

/** One way; either its figures or why there are none. */
export type WayEntry = {
  readonly letter: string;
  readonly name: string;
  readonly stageLine: string;
} & (
  | (WayFigures & {
      readonly pieces: readonly PieceEntry[];
      readonly warnings: readonly (Warning & { readonly text: string })[];
    })
  | { readonly failure: Pick<RoastError, 'code' | 'message'> }
);

/** Ways side by side as plain data; docs/compare.schema.json describes every field. */
export interface CompareDocument {
  readonly schemaVersion: typeof COMPARE_SCHEMA_VERSION;
  readonly version: string;
  readonly roast: RoastEntry;
  readonly aim: {
    readonly scale: string;
    readonly band: string;
    readonly targetC: number;
    readonly at: string;
  };
  readonly ways: readonly WayEntry[];
  /** Letters of the ways that win; absent when none came out. */
  readonly best?: Readonly<Record<'fastest' | 'leastWork' | 'mostEven' | 'leastLoss', string>>;
  readonly conclusion: string;
  readonly notes: readonly string[];
  readonly assumed: readonly string[];
}

/** A comparison as one plain, rounded, JSON-able object, by docs/compare.schema.json. */
export function compareDocument(comparison: Comparison, version: string): CompareDocument {
  const { roast, aim, ways, units, assumed } = comparison;
  const wins = winningWays(ways);
  return rounded({
    schemaVersion: COMPARE_SCHEMA_VERSION,
    version,
    roast: roastEntry(roast),
    aim: { scale: aim.scale.name, band: aim.band.name, targetC: aim.targetC, at: aim.at },
    ways: ways.map((way, i) => entryOf(way, i, comparison)),
    ...(wins === undefined
      ? {}
      : {
          best: {
            fastest: letterOf(wins.fastest),
            leastWork: letterOf(wins.leastWork),
            mostEven: letterOf(wins.mostEven),
            leastLoss: letterOf(wins.leastLoss),
          },
        }),
    conclusion: conclusionOf(comparison),
    notes: cautions(units).map(({ text }) => text),
    assumed: [...assumed],
  });
}

function entryOf(compared: ComparedWay, i: number, comparison: Comparison): WayEntry {
  const { way } = compared;
  const head = { letter: letterOf(i), name: way.name, stageLine: wayLine(way, comparison) };
  if (!isCooked(compared)) {
    const { code, message } = compared.failure;
    return { ...head, failure: { code, message } };
  }
  return {
    ...head,
    ...compared.figures,
    pieces: compared.pieces.map(pieceEntry),
    warnings: compared.warnings.map((warning) => ({
      ...warning,
      text: sayWarning(warning, comparison.units),
    })),
  };
}

function pieceEntry({ fromMm, toMm, plan }: CookedWay['pieces'][number]): PieceEntry {
  const { pull, peak, roast, slices } = plan;
  return {
    fromMm,
    toMm,
    massKg: roast.massKg,
    pull: {
      minutes: pull.minutes,
      atMinutes: pull.atMinutes,
      centreC: pull.centreC,
      coldestC: pull.coldestC,
    },
    peak: { minutes: peak.atMinutes, centreC: peak.centreC },
    slices: slices.map(({ rawKg, peakCentreC, band }) => ({ rawKg, peakCentreC, band })),
  };
}
