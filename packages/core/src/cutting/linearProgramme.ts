/** A variable times its factor. */
export type Term = readonly [variable: string, factor: number];

const TERMS_A_LINE = 6; // readers of the format take lines of some 500 characters
const DIGITS = 12;

/** A sum of terms that has to reach a limit. */
export interface AtLeast {
  readonly terms: readonly Term[];
  readonly limit: number;
}

/** A mixed-integer linear programme in the making, written out in CPLEX LP format. All variables are 0 or more. */
export class LinearProgramme {
  private readonly upper = new Map<string, number>();
  private readonly integers: string[] = [];
  private readonly rows: string[] = [];

  /** A new variable from 0 to `upper`. */
  variable(kind: 'whole number' | 'number', upper: number): string {
    const name = `v${this.upper.size}`;
    this.upper.set(name, upper);
    if (kind === 'whole number') this.integers.push(name);
    return name;
  }

  /** A row: the sum of the terms is at most, or exactly, `limit`. A row without terms says nothing. */
  row(terms: readonly Term[], relation: '<=' | '=', limit: number): void {
    const sum = expression(terms);
    if (sum !== '') this.rows.push(` r${this.rows.length}:${sum}\n  ${relation} ${written(limit)}`);
  }

  /** The programme with something to be maximised, and further rows: sums that are at least their limit. */
  text(objective: readonly Term[], atLeast: readonly AtLeast[] = []): string {
    const bounds = [...this.upper].map(([name, upper]) => ` 0 <= ${name} <= ${written(upper)}`);
    return [
      'Maximize',
      ` goal:${expression(objective) || ' 0 v0'}`,
      'Subject To',
      ...this.rows,
      ...atLeast.map(
        ({ terms, limit }, i) => ` more${i}:${expression(terms)}
  >= ${written(limit)}`,
      ),
      'Bounds',
      ...bounds,
      'Generals',
      ...this.integers.map((name) => ` ${name}`),
      'End',
      '',
    ].join('\n');
  }
}

/** A number that reads back to the accuracy the solver works to. */
const written = (value: number): string => String(Number(value.toPrecision(DIGITS)));

/** The sum of terms; a variable that stands in it twice is added up first. */
function expression(terms: readonly Term[]): string {
  const factors = new Map<string, number>();
  for (const [name, factor] of terms) factors.set(name, (factors.get(name) ?? 0) + factor);
  let text = '';
  let count = 0;
  for (const [name, factor] of factors) {
    if (factor === 0) continue;
    if (count > 0 && count % TERMS_A_LINE === 0) text += '\n ';
    text += ` ${factor < 0 ? '-' : '+'} ${written(Math.abs(factor))} ${name}`;
    count++;
  }
  return text;
}
