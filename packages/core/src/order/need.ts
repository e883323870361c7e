import { RoastError } from '../errors.js';
import { PORTION_KG, PORTION_RANGE_KG } from '../judge/index.js';

/** Share of a grown-up's portion a child eats. Common practice, no source. */
export const CHILD_APPETITE = 0.5;

/** Who eats, and how much. */
export interface Eaters {
  /** Grown-ups, 0 to 500. */
  readonly guests: number;
  /** One appetite a child, as a share of a portion, 0.1 to 1; {@link CHILD_APPETITE} is usual. Default none. */
  readonly children?: readonly number[];
  /**
   * Raw trimmed weight for a grown-up [kg], 0.02 to 2; default 0.227, 8 oz. A lean appetite takes 6 to 7 oz. Common practice,
   * no source.
   */
  readonly portionKg?: number;
  /** Cooked leftovers wanted for each person, children too [kg], 0 to 1; 0.06 to 0.11 (2 to 4 oz) is usual. Default none. */
  readonly leftoversKg?: number;
}

/** What {@link Eaters} come to. */
export interface Need {
  /** Grown-ups and children. */
  readonly people: number;
  /** Grown-up portions: a child counts by its appetite. */
  readonly portions: number;
  readonly portionKg: number;
  /** Raw trimmed weight of what is eaten at once [kg]. */
  readonly platesKg: number;
  /** Cooked weight of all leftovers [kg]. */
  readonly leftoversKg: number;
}

const PEOPLE = [0, 500] as const;
const APPETITE = [0.1, 1] as const;
const LEFTOVERS_KG = [0, 1] as const;

function check(
  found: number,
  [low, high]: readonly [number, number],
  field: string,
  what: string,
  unit: string,
): number {
  if (found >= low && found <= high) return found;
  const accepted = `${low} to ${high}${unit}`;
  throw new RoastError(`${what} is ${found}${unit}; it can be ${accepted}`, {
    code: Number.isFinite(found) ? 'out-of-range' : 'not-a-number',
    path: [field],
    found,
    accepted,
  });
}

/**
 * Adds up who eats.
 *
 * @throws RoastError `out-of-range`, `not-a-number`, or `missing` when nobody eats
 * @example
 * needOf({ guests: 6, children: [0.5, 0.5] }).portions // => 7
 */
export function needOf(eaters: Eaters): Need {
  const { guests, children = [] } = eaters;
  check(guests, PEOPLE, 'guests', 'the number of guests', '');
  if (!Number.isInteger(guests)) {
    throw new RoastError(`the number of guests is ${guests}; guests come whole`, {
      code: 'out-of-range',
      path: ['guests'],
      found: guests,
      accepted: 'a whole number',
    });
  }
  check(children.length, PEOPLE, 'children', 'the number of children', '');
  for (const appetite of children) {
    check(appetite, APPETITE, 'children', "a child's appetite", ' of a portion');
  }
  if (guests + children.length === 0) {
    throw new RoastError('nobody eats', {
      code: 'missing',
      path: ['guests'],
      found: guests,
      accepted: 'one guest or more',
    });
  }
  const portionKg = check(
    eaters.portionKg ?? PORTION_KG,
    PORTION_RANGE_KG,
    'portionKg',
    'a portion',
    ' kg',
  );
  const leftKg = check(
    eaters.leftoversKg ?? 0,
    LEFTOVERS_KG,
    'leftoversKg',
    'what is left for each',
    ' kg',
  );
  const portions = children.reduce((sum, appetite) => sum + appetite, guests);
  const people = guests + children.length;
  return {
    people,
    portions,
    portionKg,
    platesKg: portions * portionKg,
    leftoversKg: people * leftKg,
  };
}

/**
 * Raw trimmed weight that covers a need [kg].
 *
 * @param lossFraction - share of the raw weight that cooks off
 */
export const rawFor = (need: Need, lossFraction: number): number =>
  need.platesKg + need.leftoversKg / (1 - lossFraction);
