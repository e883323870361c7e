/** Stable names of what can be wrong with an input. Programs branch on these; people read the message. */
export type ErrorCode =
  | 'out-of-range'
  | 'missing'
  | 'unknown-name'
  | 'contradiction'
  | 'not-a-number'
  | 'missing-unit'
  | 'wrong-unit'
  | 'unreadable'
  | 'unwritable'
  | 'unreachable'
  | 'unsafe';

/** What is wrong, where, what was found and what would be accepted: everything a caller needs to point at the field. */
export interface Issue {
  readonly code: ErrorCode;
  /** Steps to the offending field; `['stages', 2, 'ovenC']` prints as `stages[2].ovenC`. */
  readonly path: readonly (string | number)[];
  /** The offending value as it was handed in. */
  readonly found: unknown;
  /** What would be accepted, in words: `60 to 320 °C`. */
  readonly accepted: string;
  /** The nearest right spelling or the likely slip. */
  readonly hint?: string;
}

/**
 * The one error this library throws.
 *
 * @example
 * let said = ''
 * try {
 *   temper({ minutes: -1 })
 * } catch (error) {
 *   if (error instanceof RoastError) said = `${error.code}: ${error.message}`
 * }
 * said // => 'out-of-range: a stage lasts -1 min; accepted is 0 to 1440 min'
 */
export class RoastError extends Error implements Issue {
  readonly code: ErrorCode;
  readonly path: readonly (string | number)[];
  readonly found: unknown;
  readonly accepted: string;
  readonly hint?: string;

  /** @param sentence - the whole story in one sentence a cook understands, without the hint */
  constructor(sentence: string, issue: Issue) {
    super(issue.hint === undefined ? sentence : `${sentence} (${issue.hint})`);
    this.name = 'RoastError';
    this.code = issue.code;
    this.path = issue.path;
    this.found = issue.found;
    this.accepted = issue.accepted;
    if (issue.hint !== undefined) this.hint = issue.hint;
  }
}

/**
 * `['stages', 2, 'ovenC']` as `stages[2].ovenC`.
 *
 * @example
 * pathText(['stages', 2, 'ovenC']) // => 'stages[2].ovenC'
 */
export function pathText(path: readonly (string | number)[]): string {
  return path.reduce<string>(
    (text, step) =>
      typeof step === 'number' ? `${text}[${step}]` : text === '' ? step : `${text}.${step}`,
    '',
  );
}
