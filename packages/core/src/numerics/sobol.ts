import { RoastError } from '../errors.js';

/**
 * Degree, inner coefficients of the primitive polynomial and first direction numbers of dimensions 2 to 24.
 *
 * Source: Joe and Kuo 2008, SIAM J Sci Comput 30:2635-2654, table new-joe-kuo-6.21201.
 */
const JOE_KUO: readonly (readonly [
  degree: number,
  polynomial: number,
  first: readonly number[],
])[] = [
  [1, 0, [1]],
  [2, 1, [1, 3]],
  [3, 1, [1, 3, 1]],
  [3, 2, [1, 1, 1]],
  [4, 1, [1, 1, 3, 3]],
  [4, 4, [1, 3, 5, 13]],
  [5, 2, [1, 1, 5, 5, 17]],
  [5, 4, [1, 1, 5, 5, 5]],
  [5, 7, [1, 1, 7, 11, 19]],
  [5, 11, [1, 1, 5, 1, 1]],
  [5, 13, [1, 1, 1, 3, 11]],
  [5, 14, [1, 3, 5, 5, 31]],
  [6, 1, [1, 3, 3, 9, 7, 49]],
  [6, 13, [1, 1, 1, 15, 21, 21]],
  [6, 16, [1, 3, 1, 13, 27, 49]],
  [6, 19, [1, 1, 1, 15, 7, 5]],
  [6, 22, [1, 3, 1, 15, 13, 25]],
  [6, 25, [1, 1, 5, 5, 19, 61]],
  [7, 1, [1, 3, 7, 11, 23, 15, 103]],
  [7, 4, [1, 3, 7, 13, 13, 15, 69]],
  [7, 7, [1, 1, 3, 13, 7, 35, 63]],
  [7, 8, [1, 3, 5, 9, 1, 25, 53]],
  [7, 14, [1, 3, 1, 13, 9, 35, 107]],
];

const BITS = 32;

/** Most dimensions a point can have. */
export const SOBOL_DIMENSIONS = JOE_KUO.length + 1;

/** Direction numbers of one dimension, highest bit first; recurrence of Bratley and Fox 1988, ACM TOMS 14:88-100 (from memory). */
function directions(dimension: number): Uint32Array {
  const v = new Uint32Array(BITS);
  if (dimension === 0) {
    for (let i = 0; i < BITS; i++) v[i] = 1 << (BITS - 1 - i);
    return v;
  }
  const [degree, polynomial, first] = JOE_KUO[dimension - 1];
  for (let i = 0; i < BITS; i++) {
    if (i < degree) {
      v[i] = first[i] << (BITS - 1 - i);
      continue;
    }
    let next = v[i - degree] ^ (v[i - degree] >>> degree);
    for (let k = 1; k < degree; k++) {
      if ((polynomial >>> (degree - 1 - k)) & 1) next ^= v[i - k];
    }
    v[i] = next;
  }
  return v;
}

/** Spreads every bit of a whole number over all 32. Source: finaliser of MurmurHash3, public domain (from memory). */
export function mixBits(x: number): number {
  let h = x | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

const GOLDEN = 0x9e3779b9;

/**
 * Owen's nested scramble: every bit is flipped or not by a coin that depends on the bits above it, so that a net stays a net
 * while each point becomes uniform. Source: Owen 1995; the coins come from a hash as in Burley 2020, J Comput Graph Tech 9(4).
 */
function scrambled(x: number, seed: number): number {
  let result = 0;
  for (let bit = BITS - 1; bit >= 0; bit--) {
    const above = bit === BITS - 1 ? 0 : x >>> (bit + 1);
    const coin = mixBits(mixBits(above + Math.imul(bit + 1, GOLDEN)) ^ seed) & 1;
    result |= (((x >>> bit) & 1) ^ coin) << bit;
  }
  return result >>> 0;
}

/**
 * Scrambled Sobol points: evenly spread in all coordinates at once, so that a thousand serve where plain random numbers need ten
 * thousand. Point i follows from its number and the scrambling alone, in whatever order points are taken.
 *
 * The first 2^k points put exactly one into each of 2^k equal intervals of every coordinate.
 */
export class SobolPoints {
  readonly dimensions: number;
  readonly #directions: readonly Uint32Array[];
  readonly #seeds: Uint32Array | undefined;

  /**
   * @param dimensions - coordinates of a point, 1 to {@link SOBOL_DIMENSIONS}
   * @param seed - any whole number; without one the points are not scrambled and the first is the origin's corner
   * @throws RoastError `out-of-range`
   */
  constructor(dimensions: number, seed?: number) {
    if (!Number.isInteger(dimensions) || dimensions < 1 || dimensions > SOBOL_DIMENSIONS) {
      throw new RoastError(
        `a point has ${dimensions} coordinates; it can have 1 to ${SOBOL_DIMENSIONS}`,
        {
          code: 'out-of-range',
          path: ['dimensions'],
          found: dimensions,
          accepted: `a whole number from 1 to ${SOBOL_DIMENSIONS}`,
        },
      );
    }
    this.dimensions = dimensions;
    this.#directions = Array.from({ length: dimensions }, (_, d) => directions(d));
    if (seed === undefined) return;
    if (!Number.isSafeInteger(seed)) {
      throw new RoastError(`scrambling by ${seed} is not possible; it takes a whole number`, {
        code: Number.isFinite(seed) ? 'out-of-range' : 'not-a-number',
        path: ['seed'],
        found: seed,
        accepted: 'a whole number',
      });
    }
    const high = Math.floor(seed / 2 ** BITS);
    this.#seeds = Uint32Array.from({ length: dimensions }, (_, d) =>
      mixBits(mixBits(seed) ^ mixBits(high + Math.imul(d + 1, GOLDEN))),
    );
  }

  /** Point `index` (0 to 2³² - 1): coordinates above 0 and below 1, written into `into`. */
  at(index: number, into: Float64Array): Float64Array {
    for (let d = 0; d < this.dimensions; d++) {
      const v = this.#directions[d];
      let x = 0;
      for (let rest = index >>> 0, bit = 0; rest !== 0; rest >>>= 1, bit++) {
        if (rest & 1) x ^= v[bit];
      }
      const bits = this.#seeds === undefined ? x >>> 0 : scrambled(x >>> 0, this.#seeds[d]);
      into[d] = (bits + 0.5) / 2 ** BITS;
    }
    return into;
  }
}
