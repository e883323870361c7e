/** What a solver is told beside the programme. */
export interface SolveOptions {
  /** Seconds it may take. */
  readonly timeLimitS: number;
  /** The best answer counts as found when no other can be better by more than this. */
  readonly gap: number;
  /** Whether to look for simplifications first: it helps with most programmes, and hinders with some. */
  readonly presolve: boolean;
  /** A feasible answer to begin with, by variable; those left out are 0. */
  readonly start: Readonly<Record<string, number>>;
}

/** What a solver found. */
export interface Solved {
  /** `optimal` within the gap asked for; `stopped` by the clock, with what it had. */
  readonly status: 'optimal' | 'stopped';
  readonly objective: number;
  /** No answer can be above this. */
  readonly bound: number;
  /** Variables by name. */
  readonly values: Readonly<Record<string, number>>;
}

/**
 * Solves a mixed-integer linear programme that is to be MAXIMISED. The library brings no solver: hand in one that reads the
 * CPLEX LP format.
 *
 * @param lp - the programme as text in CPLEX LP format
 */
export type Solve = (lp: string, options: SolveOptions) => Promise<Solved>;
