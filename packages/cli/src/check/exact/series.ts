/**
 * Exact transient conduction with convection, for checking solvers: a body at one uniform
 * temperature meets surroundings at another through a constant film coefficient; properties are
 * constant. Separation of variables gives
 *
 *   theta(Fo, r) = sum over n of C_n exp(-zeta_n^2 Fo) profile(zeta_n r)
 *
 * theta = (T - T_surroundings)/(T_start - T_surroundings), Fo = alpha t/R^2, Bi = h R/k, r in units
 * of R. R is the radius of cylinder and sphere and the half thickness of the slab.
 * Source: Incropera et al., Fundamentals of Heat and Mass Transfer, sections 5.5 and 5.6; Carslaw
 * and Jaeger, Conduction of Heat in Solids, 2nd ed., sections 3.11, 7.7 and 9.4 (section numbers
 * from memory). The equations themselves are checked in tests/numerics/series.test.ts.
 */
export type Shape = 'slab' | 'cylinder' | 'sphere';

/** One term of the series: its root [rad] and its coefficient for a uniform start. */
export interface Mode {
  readonly zeta: number;
  readonly coefficient: number;
}

/** Where and when to read a cylinder of finite length whose ends see the same film coefficient. */
export interface FiniteCylinderPoint {
  /** h R/k, R the radius. */
  readonly biot: number;
  /** alpha t/R^2. */
  readonly fourier: number;
  /** Half the length over the radius, above 0. */
  readonly halfLengthRatio: number;
  /** 0 on the axis, 1 at the side. */
  readonly radiusFraction: number;
  /** 0 at mid-length, 1 at an end. */
  readonly lengthFraction: number;
}

/** Below this Fo more than MAX_MODES terms would be needed. */
const SMALLEST_FOURIER = 5e-6;
const MAX_MODES = 1000;
/** exp(-46) is 1e-20: the terms that follow cannot change a double of order one. */
const NEGLIGIBLE_EXPONENT = 46;

/** From here on the asymptotic series reaches full precision (its smallest term is about e^-50). */
const ASYMPTOTIC_FROM = 25;

/**
 * Bessel function of the first kind, order 0 or 1.
 *
 * Up to 25: the integral of Abramowitz and Stegun 9.1.18 by the trapezoidal rule on a quarter
 * period. The integrand is periodic and analytic, so 16 intervals (64 on the full period) leave an
 * error of order J_64(25), about 1e-19. Above: Hankel's expansion, A&S 9.2.5, 9.2.9 and 9.2.10.
 */
function bessel(order: 0 | 1, x: number): number {
  if (!(x >= 0 && x < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`Bessel argument must be finite and not negative, found ${x}`);
  }
  return x < ASYMPTOTIC_FROM ? besselByIntegral(order, x) : besselByHankel(order, x);
}

function besselByIntegral(order: 0 | 1, x: number): number {
  const intervals = 16;
  const at = (sine: number): number =>
    order === 0 ? Math.cos(x * sine) : Math.sin(x * sine) * sine;
  let sum = (at(0) + at(1)) / 2;
  for (let k = 1; k < intervals; k++) sum += at(Math.sin((k * Math.PI) / (2 * intervals)));
  return sum / intervals;
}

function besselByHankel(order: 0 | 1, x: number): number {
  const mu = 4 * order * order;
  let p = 1;
  let q = 0;
  let term = 1;
  for (let k = 1; Math.abs(term) > 1e-18; k++) {
    term *= (mu - (2 * k - 1) ** 2) / (k * 8 * x);
    const signed = k % 4 < 2 ? term : -term;
    if (k % 2 === 1) q += signed;
    else p += signed;
  }
  // The phase x - pi/4 (order 0) or x - 3 pi/4 (order 1) by the addition theorem: no rounding of x.
  const sum = (Math.cos(x) + Math.sin(x)) * Math.SQRT1_2;
  const difference = (Math.sin(x) - Math.cos(x)) * Math.SQRT1_2;
  const wave = order === 0 ? p * sum - q * difference : p * difference + q * sum;
  return Math.sqrt(2 / (Math.PI * x)) * wave;
}

/** J0(x) for finite x >= 0; absolute error below 1e-15. Throws RangeError outside. */
export const besselJ0 = (x: number): number => bessel(0, x);

/** J1(x) for finite x >= 0; absolute error below 1e-15. Throws RangeError outside. */
export const besselJ1 = (x: number): number => bessel(1, x);

const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(x) / x);

interface Geometry {
  /** Zero at a root; share = Bi/(1 + Bi), so that an infinite Bi needs no case of its own. */
  residual(zeta: number, share: number): number;
  /** Holds the n-th root (n from 1) and no other, for every Bi including infinity. */
  bracket(n: number): readonly [low: number, high: number];
  coefficient(zeta: number): number;
  profile(argument: number): number;
  /** Volume mean of profile(zeta r) over the body. */
  meanProfile(zeta: number): number;
}

const geometries: Readonly<Record<Shape, Geometry>> = {
  slab: {
    residual: (z, share) => (1 - share) * z * Math.sin(z) - share * Math.cos(z),
    bracket: (n) => [Math.max(0, (n - 1.25) * Math.PI), (n - 0.25) * Math.PI],
    coefficient: (z) => (4 * Math.sin(z)) / (2 * z + Math.sin(2 * z)),
    profile: Math.cos,
    meanProfile: sinc,
  },
  cylinder: {
    residual: (z, share) => (1 - share) * z * besselJ1(z) - share * besselJ0(z),
    // The root lies between a zero of J1 and the next of J0, and j1,n > (n + 1/8) pi, j0,n < (n - 1/8) pi.
    bracket: (n) => [n === 1 ? 0 : (n - 0.875) * Math.PI, (n - 0.125) * Math.PI],
    coefficient: (z) => {
      const j0 = besselJ0(z);
      const j1 = besselJ1(z);
      return ((2 / z) * j1) / (j0 * j0 + j1 * j1);
    },
    profile: besselJ0,
    meanProfile: (z) => (2 * besselJ1(z)) / z,
  },
  sphere: {
    residual: (z, share) => (1 - share) * (Math.cos(z) - sinc(z)) + share * sinc(z),
    // From n = 2 on a root lies above the positive root n - 1 of tan z = z, the first of which is 1.43 pi.
    bracket: (n) => [n === 1 ? 0 : (n - 0.75) * Math.PI, (n + 0.1) * Math.PI],
    coefficient: (z) => (4 * (Math.sin(z) - z * Math.cos(z))) / (2 * z - Math.sin(2 * z)),
    profile: sinc,
    meanProfile: (z) => (3 * (Math.sin(z) - z * Math.cos(z))) / z ** 3,
  },
};

/** Halves the bracket until its ends are neighbouring doubles. `f` must change sign in it. */
function bisect(f: (x: number) => number, low: number, high: number): number {
  const rising = f(high) > f(low);
  let a = low;
  let b = high;
  for (;;) {
    const middle = (a + b) / 2;
    if (middle <= a || middle >= b) return middle;
    if (f(middle) > 0 === rising) b = middle;
    else a = middle;
  }
}

const known = new Map<string, Mode[]>();

/** Terms 1 to `count`, or fewer if `enough` says so of one; each is computed once and kept. */
function* modes(shape: Shape, biot: number): Generator<Mode> {
  if (!(biot > 0)) throw new RangeError(`Biot number must be above 0, found ${biot}`);
  const key = `${shape} ${biot}`;
  const found = known.get(key) ?? [];
  known.set(key, found);
  for (let n = 1; n <= MAX_MODES; n++) {
    const kept = found[n - 1];
    if (kept) {
      yield kept;
      continue;
    }
    const { residual, bracket, coefficient } = geometries[shape];
    const share = biot === Number.POSITIVE_INFINITY ? 1 : biot / (1 + biot);
    const [low, high] = bracket(n);
    const zeta = bisect((z) => residual(z, share), low, high);
    const mode = { zeta, coefficient: coefficient(zeta) };
    found.push(mode);
    yield mode;
  }
}

/**
 * The first terms of the series, smallest root first.
 *
 * @param biot - above 0; infinity means a surface held at the surroundings' temperature
 * @param count - 1 to 1000
 * @throws RangeError for a Biot number or count outside
 */
export function firstModes(shape: Shape, biot: number, count: number): Mode[] {
  if (!(count >= 1 && count <= MAX_MODES)) {
    throw new RangeError(`count must be 1 to ${MAX_MODES}, found ${count}`);
  }
  const list: Mode[] = [];
  for (const mode of modes(shape, biot)) {
    if (list.length >= count) break;
    list.push(mode);
  }
  return list;
}

function sumOfModes(
  shape: Shape,
  biot: number,
  fourier: number,
  spatial: (zeta: number) => number,
): number {
  if (!(fourier >= SMALLEST_FOURIER)) {
    throw new RangeError(`Fourier number must be at least ${SMALLEST_FOURIER}, found ${fourier}`);
  }
  let sum = 0;
  for (const { zeta, coefficient } of modes(shape, biot)) {
    const exponent = zeta * zeta * fourier;
    sum += coefficient * Math.exp(-exponent) * spatial(zeta);
    if (exponent > NEGLIGIBLE_EXPONENT) break;
  }
  return sum;
}

/**
 * Dimensionless temperature at one place and time; 1 at the start, 0 in balance.
 *
 * @param biot - h R/k, above 0, infinity allowed
 * @param fourier - alpha t/R^2, at least 5e-6 (smaller ones need more than 1000 terms)
 * @param radiusFraction - r/R, 0 at the centre to 1 at the surface
 * @throws RangeError for an argument outside
 */
export function theta(shape: Shape, biot: number, fourier: number, radiusFraction: number): number {
  if (!(radiusFraction >= 0 && radiusFraction <= 1)) {
    throw new RangeError(`r/R must be 0 to 1, found ${radiusFraction}`);
  }
  const { profile } = geometries[shape];
  return sumOfModes(shape, biot, fourier, (zeta) => profile(zeta * radiusFraction));
}

/** Volume mean of theta: the share of the heat to be exchanged that is still to come. Same ranges. */
export function meanTheta(shape: Shape, biot: number, fourier: number): number {
  return sumOfModes(shape, biot, fourier, geometries[shape].meanProfile);
}

/**
 * When a place reaches a given theta: the Fo at which theta(shape, biot, Fo, radiusFraction) equals
 * `target`.
 *
 * @param target - above 0, below 1 and below the value at Fo = 5e-6
 * @throws RangeError for an argument outside
 */
export function fourierAtTheta(
  shape: Shape,
  biot: number,
  target: number,
  radiusFraction: number,
): number {
  const excess = (fourier: number): number => theta(shape, biot, fourier, radiusFraction) - target;
  if (!(target > 0 && target < 1 && excess(SMALLEST_FOURIER) > 0)) {
    throw new RangeError(`theta ${target} is not passed after Fo ${SMALLEST_FOURIER}`);
  }
  let high = 1;
  while (excess(high) > 0) high *= 2;
  return bisect(excess, SMALLEST_FOURIER, high);
}

/**
 * Theta in a cylinder of finite length: the product of the infinite cylinder and the slab, exact
 * because both factors solve the equation with the same film coefficient all round.
 *
 * @throws RangeError for an argument outside the ranges of {@link theta}
 */
export function finiteCylinderTheta(point: FiniteCylinderPoint): number {
  const { biot, fourier, halfLengthRatio, radiusFraction, lengthFraction } = point;
  if (!(halfLengthRatio > 0)) {
    throw new RangeError(`half length over radius must be above 0, found ${halfLengthRatio}`);
  }
  return (
    theta('cylinder', biot, fourier, radiusFraction) *
    theta('slab', biot * halfLengthRatio, fourier / halfLengthRatio ** 2, lengthFraction)
  );
}
