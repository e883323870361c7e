/*
 * Rational approximations of Wichura's algorithm AS 241 (PPND16), lowest power first, numerator and denominator for the middle,
 * the shoulders and the tails. Source: Wichura 1988, Applied Statistics 37:477-484.
 */
const MIDDLE = [
  [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946,
    45921.95393154987, 67265.7709270087, 33430.57558358813, 2509.0809287301227,
  ],
  [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597,
    39307.89580009271, 28729.085735721943, 5226.495278852854,
  ],
] as const;
const SHOULDER = [
  [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045,
    1.2704582524523684, 0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
  ],
  [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008,
    0.015198666563616457, 0.0005475938084995345, 1.0507500716444169e-9,
  ],
] as const;
const TAIL = [
  [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487,
    0.026532189526576124, 0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
  ],
  [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133,
    1.8463183175100548e-5, 1.421511758316446e-7, 2.0442631033899397e-15,
  ],
] as const;
const MIDDLE_HALF_WIDTH = 0.425;
const MIDDLE_SHIFT = 0.180625;
const SHOULDER_SHIFT = 1.6;
const TAIL_FROM = 5;

const polynomial = (coefficients: readonly number[], x: number): number =>
  coefficients.reduceRight((sum, a) => sum * x + a, 0);

const ratio = ([top, bottom]: readonly [readonly number[], readonly number[]], x: number): number =>
  polynomial(top, x) / polynomial(bottom, x);

/**
 * Standard normal deviate below which a share `p` lies: the inverse of {@link normalShare}, to about 1 part in 10¹⁶.
 *
 * @param p - 0 to 1; the ends give -Infinity and Infinity
 */
export function normalDeviate(p: number): number {
  const q = p - 0.5;
  if (Math.abs(q) <= MIDDLE_HALF_WIDTH) return q * ratio(MIDDLE, MIDDLE_SHIFT - q * q);
  const tail = q < 0 ? p : 1 - p;
  if (tail <= 0) return q < 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  const r = Math.sqrt(-Math.log(tail));
  const size = r <= TAIL_FROM ? ratio(SHOULDER, r - SHOULDER_SHIFT) : ratio(TAIL, r - TAIL_FROM);
  return q < 0 ? -size : size;
}

const FAR = 8.5; // beyond, the share differs from 0 and 1 by less than a rounding of 1

/**
 * Share of a standard normal distribution below `z`, to about 1e-15 absolute.
 *
 * Source: series of Marsaglia 2004, J Stat Softw 11(4) (from memory).
 */
export function normalShare(z: number): number {
  if (z < -FAR) return 0;
  if (z > FAR) return 1;
  let term = z;
  let sum = z;
  for (let i = 3, before = 0; sum !== before; i += 2) {
    before = sum;
    term *= (z * z) / i;
    sum += term;
  }
  return 0.5 + (sum * Math.exp(-0.5 * z * z)) / Math.sqrt(2 * Math.PI);
}
