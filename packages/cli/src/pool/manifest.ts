import { readFile } from 'node:fs/promises';
import { PAPERS, type Paper } from '../show/card/cardModel.js';
import { isRoastLine, type RoastLine } from '../show/daySheet.js';

/** What is remembered of a file that was made. */
export interface Made {
  /** Digest of all it was made from: the words of the order, the settings, the program. */
  readonly from: string;
  /** Digest of the file itself. */
  readonly bytes: string;
  /** What the day sheet says of a card. */
  readonly line?: RoastLine;
  /** What a card is set for. */
  readonly paper?: Paper;
}

/** What a run leaves for the next one. */
export interface Manifest {
  readonly files: Readonly<Record<string, Made>>;
  /** Files about to be put in place; where the bytes agree, they were. */
  readonly placing: Readonly<Record<string, Made>>;
}

const NOTHING: Manifest = { files: {}, placing: {} };

/** Reads a manifest. One that is missing or damaged knows of nothing, so that every file there is somebody else's. */
export async function readManifest(file: string): Promise<Manifest> {
  const text = await readFile(file, 'utf8').catch(() => '');
  try {
    const { files, placing }: Partial<Record<string, unknown>> = JSON.parse(text) ?? {};
    return { files: entriesOf(files), placing: entriesOf(placing) };
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    return NOTHING;
  }
}

function entriesOf(value: unknown): Record<string, Made> {
  if (typeof value !== 'object' || value === null) return {};
  return Object.fromEntries(
    Object.entries(value).filter(([file, made]) => !/[/\\]/.test(file) && isMade(made)),
  );
}

function isMade(value: unknown): value is Made {
  if (typeof value !== 'object' || value === null) return false;
  const { from, bytes, line, paper }: Partial<Record<keyof Made, unknown>> = value;
  return (
    typeof from === 'string' &&
    typeof bytes === 'string' &&
    (line === undefined || isRoastLine(line)) &&
    (paper === undefined || (typeof paper === 'string' && Object.hasOwn(PAPERS, paper)))
  );
}
