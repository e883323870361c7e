import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  besselJ0,
  besselJ1,
  finiteCylinderTheta,
  firstModes,
  fourierAtTheta,
  meanTheta,
  type Shape,
  theta,
} from '../../packages/cli/src/check/exact/series.js';

type Pair = readonly [zeta: number, coefficient: number];

interface Conduction {
  readonly one_term: {
    readonly rows: readonly {
      readonly Bi: number | 'infinity';
      readonly wall: Pair;
      readonly cylinder: Pair;
      readonly sphere: Pair;
    }[];
  };
  readonly cylinder_roots: {
    readonly rows: readonly {
      readonly Bi: number;
      readonly zeta: readonly number[];
      readonly C: readonly number[];
    }[];
  };
  readonly worked_examples: readonly {
    readonly id: string;
    readonly inputs: Readonly<Record<string, number>>;
    readonly verification: Readonly<Record<string, number>>;
  }[];
  readonly solver_vectors: {
    readonly rows: readonly {
      readonly Bi: number;
      readonly Fo: number;
      readonly theta_centre: number;
      readonly theta_mid_radius: number;
      readonly theta_surface: number;
      readonly one_term_centre: number;
    }[];
  };
}

const published: Conduction = JSON.parse(
  readFileSync(new URL('../../data/published/transient-conduction.json', import.meta.url), 'utf8'),
);

const shapes: readonly Shape[] = ['slab', 'cylinder', 'sphere'];
/** Surface over volume, times R: also the number of dimensions heat comes from. */
const dimensions: Readonly<Record<Shape, number>> = { slab: 1, cylinder: 2, sphere: 3 };
const biots: readonly number[] = [0.1, 1, 7, 50];
const everyCase = shapes.flatMap((shape) => biots.map((biot) => ({ shape, biot })));

const gap = (found: number, expected: number): number => Math.abs(found - expected);

/** Simpson's rule; `intervals` is even. */
function integral(f: (x: number) => number, from: number, to: number, intervals = 400): number {
  const step = (to - from) / intervals;
  let sum = f(from) + f(to);
  for (let i = 1; i < intervals; i++) sum += (i % 2 === 1 ? 4 : 2) * f(from + i * step);
  return (sum * step) / 3;
}

describe('Bessel functions', () => {
  // Abramowitz and Stegun, Table 9.1, covers 0 to 17.5 (J0 to 15 places, J1 to 10); the print was not
  // at hand. Every digit, and the rows beyond, computed with mpmath 1.3 at 30 digits. The rows at 25
  // straddle the change of method.
  const rows: readonly (readonly [x: number, j0: number, j1: number])[] = [
    [0.5, 0.938469807240813, 0.242268457674874],
    [1, 0.765197686557967, 0.440050585744933],
    [2, 0.223890779141236, 0.576724807756873],
    [5, -0.177596771314338, -0.327579137591465],
    [10, -0.245935764451348, 0.043472746168861],
    [17.5, -0.103110398228686, -0.163419969425755],
    [24.99, 0.095008236967548, -0.126356985007805],
    [25, 0.096266783275958, -0.12535024958029],
    [25.01, 0.097515201593196, -0.124331404403968],
    [100, 0.019985850304223, -0.077145352014112],
    [630, 0.019862638249163, 0.024834773773836],
  ];
  test.each(rows)('J0 and J1 at %f', (x, j0, j1) => {
    expect(gap(besselJ0(x), j0)).toBeLessThan(2e-15);
    expect(gap(besselJ1(x), j1)).toBeLessThan(2e-15);
  });

  test('at the origin', () => {
    expect(besselJ0(0)).toBe(1);
    expect(besselJ1(0)).toBe(0);
  });

  test('zeros of J0 (an infinite Biot number), A&S Table 9.5 to 10 places, confirmed as above', () => {
    const zeros = firstModes('cylinder', Number.POSITIVE_INFINITY, 20).map((mode) => mode.zeta);
    expect(gap(zeros[0] ?? 0, 2.4048255577)).toBeLessThan(1e-10);
    expect(gap(zeros[1] ?? 0, 5.5200781103)).toBeLessThan(1e-10);
    expect(gap(zeros[2] ?? 0, 8.6537279129)).toBeLessThan(1e-10);
    expect(gap(zeros[19] ?? 0, 62.0484691902)).toBeLessThan(1e-10);
  });

  test.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('refuses %f', (x) => {
    expect(() => besselJ0(x)).toThrow(RangeError);
    expect(() => besselJ1(x)).toThrow(RangeError);
  });
});

describe('roots and coefficients', () => {
  test.each(published.one_term.rows)('one-term table at Bi $Bi, four places', (row) => {
    const biot = row.Bi === 'infinity' ? Number.POSITIVE_INFINITY : row.Bi;
    for (const [shape, [zeta, coefficient]] of [
      ['slab', row.wall],
      ['cylinder', row.cylinder],
      ['sphere', row.sphere],
    ] as const) {
      const [first] = firstModes(shape, biot, 1);
      expect(gap(first?.zeta ?? 0, zeta), `${shape} root`).toBeLessThan(5.001e-5);
      expect(gap(first?.coefficient ?? 0, coefficient), `${shape} C`).toBeLessThan(5.001e-5);
    }
  });

  test.each(published.cylinder_roots.rows)('cylinder at Bi $Bi, six places', ({ Bi, zeta, C }) => {
    const modes = firstModes('cylinder', Bi, zeta.length);
    expect(modes).toHaveLength(6);
    for (const [i, mode] of modes.entries()) {
      expect(gap(mode.zeta, zeta[i] ?? 0)).toBeLessThan(1e-6);
      expect(gap(mode.coefficient, C[i] ?? 0)).toBeLessThan(1e-6);
    }
  });

  // The integral over all time of the mean excess is the mean of w, where div grad w = -1 in the body
  // and -w' = Bi w at the surface, so w = (1 - r^2)/(2 m) + 1/(m Bi). A missing or doubled root shows.
  // Large roots lie pi apart and their terms tend to 2 m Bi^2/zeta^6 from below, hence the rest allowed.
  test.each(everyCase)('200 terms of a $shape at Bi $biot sum to the whole', ({ shape, biot }) => {
    const m = dimensions[shape];
    let sum = 0;
    let last = 0;
    for (const { zeta, coefficient } of firstModes(shape, biot, 200)) {
      const meanProfile = {
        slab: Math.sin(zeta) / zeta,
        cylinder: (2 * besselJ1(zeta)) / zeta,
        sphere: (3 * (Math.sin(zeta) / zeta - Math.cos(zeta))) / zeta ** 2,
      }[shape];
      sum += (coefficient * meanProfile) / zeta ** 2;
      last = zeta;
    }
    const whole = 1 / (m * biot) + 1 / (m * (m + 2));
    const rest = (2 * m * biot ** 2) / (5 * Math.PI * last ** 5);
    expect(gap(sum, whole)).toBeLessThan(1.01 * rest + 1e-14 * whole);
  });
});

describe('theta', () => {
  test.each(published.solver_vectors.rows)('cylinder at Bi $Bi, Fo $Fo, five places', (row) => {
    const { Bi, Fo } = row;
    expect(gap(theta('cylinder', Bi, Fo, 0), row.theta_centre)).toBeLessThan(5e-6);
    expect(gap(theta('cylinder', Bi, Fo, 0.5), row.theta_mid_radius)).toBeLessThan(5e-6);
    expect(gap(theta('cylinder', Bi, Fo, 1), row.theta_surface)).toBeLessThan(5e-6);
    const [first] = firstModes('cylinder', Bi, 1);
    const oneTerm = (first?.coefficient ?? 0) * Math.exp(-((first?.zeta ?? 0) ** 2) * Fo);
    expect(gap(oneTerm, row.one_term_centre)).toBeLessThan(5e-6);
  });

  // Other program: the Laplace transform of the problem inverted numerically (Talbot's contour, 40
  // points, mpmath 1.3 at 30 digits). No root and no series enters it.
  const inverted: readonly (readonly [
    shape: Shape,
    biot: number,
    fourier: number,
    centre: number,
    midRadius: number,
    surface: number,
    mean: number,
  ])[] = [
    ['slab', 0.1, 0.02, 0.999999995738, 0.999920311563, 0.984240200923, 0.998021078611],
    ['slab', 0.1, 0.15, 0.997125497581, 0.98942193748, 0.957748691859, 0.985426036528],
    ['slab', 0.1, 2, 0.837326106506, 0.827219684661, 0.79714438556, 0.823888852706],
    ['slab', 1, 0.02, 0.999999958726, 0.999243760943, 0.858479616467, 0.981943471372],
    ['slab', 1, 0.15, 0.97552960954, 0.913885578069, 0.678320016739, 0.884606894612],
    ['slab', 1, 2, 0.254668042381, 0.231466817334, 0.166090581458, 0.224394003829],
    ['slab', 7, 0.02, 0.999999761395, 0.996068199691, 0.430345169546, 0.921802349333],
    ['slab', 7, 0.15, 0.915947927015, 0.741745098984, 0.196020936995, 0.677831403159],
    ['slab', 7, 2, 0.028312342961, 0.021866252026, 0.00546324236, 0.020180108021],
    ['slab', 50, 0.02, 0.999999248113, 0.990367582508, 0.079013388203, 0.858842820075],
    ['slab', 50, 0.15, 0.874527475434, 0.651708898947, 0.029038378418, 0.582451029084],
    ['slab', 50, 2, 0.011085317001, 0.007958244424, 0.000341267248, 0.007194818156],
    ['cylinder', 0.1, 0.02, 0.999999971847, 0.99988284436, 0.983175099412, 0.996044259457],
    ['cylinder', 0.1, 0.15, 0.991461676432, 0.981985287967, 0.948535448775, 0.970983706191],
    ['cylinder', 0.1, 2, 0.693583635134, 0.685152737771, 0.660167284259, 0.676807277029],
    ['cylinder', 1, 0.02, 0.99999972761, 0.998889713428, 0.849645687326, 0.964067868055],
    ['cylinder', 1, 0.15, 0.928969615189, 0.856363605144, 0.62196872473, 0.778059081159],
    ['cylinder', 1, 2, 0.051520718461, 0.046566493392, 0.033125185592, 0.042010574867],
    ['cylinder', 7, 0.02, 0.999998434244, 0.994266620917, 0.407679569367, 0.847511438967],
    ['cylinder', 7, 0.15, 0.773518450651, 0.594649404168, 0.141317952358, 0.437139613111],
    ['cylinder', 7, 2, 0.000239988094, 0.000178604652, 0.00004083912, 0.0001304255],
    ['cylinder', 50, 0.02, 0.999995142397, 0.986149944399, 0.070140034837, 0.732921305351],
    ['cylinder', 50, 0.15, 0.682262199459, 0.47592751889, 0.0178327101, 0.313782111241],
    ['cylinder', 50, 2, 0.000023866415, 0.00001627037, 0.000000595255, 0.000010712592],
    ['sphere', 0.1, 0.02, 0.999999881361, 0.999830575745, 0.982054184696, 0.994069675588],
    ['sphere', 0.1, 0.15, 0.983233873368, 0.972601314313, 0.938234486084, 0.956693443263],
    ['sphere', 0.1, 2, 0.571909374058, 0.564927564114, 0.544288544419, 0.555266989624],
    ['sphere', 1, 0.02, 0.999998853394, 0.998396690257, 0.840423087839, 0.946383076486],
    ['sphere', 1, 0.15, 0.864221776686, 0.787155406736, 0.563050040482, 0.681102600198],
    ['sphere', 1, 2, 0.00915699029, 0.008244187765, 0.005829521074, 0.007087847703],
    ['sphere', 7, 0.02, 0.999993448328, 0.991780251686, 0.38494022143, 0.777179146177],
    ['sphere', 7, 0.15, 0.601545037674, 0.442194819812, 0.095668277457, 0.268066782736],
    ['sphere', 7, 2, 0.0000007274, 0.000000523497, 0.000000110442, 0.000000314301],
    ['sphere', 50, 0.02, 0.999979999689, 0.98043331105, 0.061830865037, 0.621365484815],
    ['sphere', 50, 0.15, 0.474889944709, 0.312555723557, 0.009945457109, 0.155760748323],
    ['sphere', 50, 2, 0.000000011658, 0.000000007569, 0.000000000237, 0.000000003757],
  ];
  test.each(inverted)('%s at Bi %f, Fo %f, twelve places', (shape, biot, fourier, ...expected) => {
    const [centre, midRadius, surface, mean] = expected;
    expect(gap(theta(shape, biot, fourier, 0), centre)).toBeLessThan(1e-12);
    expect(gap(theta(shape, biot, fourier, 0.5), midRadius)).toBeLessThan(1e-12);
    expect(gap(theta(shape, biot, fourier, 1), surface)).toBeLessThan(1e-12);
    expect(gap(meanTheta(shape, biot, fourier), mean)).toBeLessThan(1e-12);
  });

  test.each(everyCase)('$shape at Bi $biot: mean is the volume integral', ({ shape, biot }) => {
    const m = dimensions[shape];
    const summed = integral((r) => m * r ** (m - 1) * theta(shape, biot, 0.06, r), 0, 1);
    expect(gap(summed, meanTheta(shape, biot, 0.06))).toBeLessThan(1e-9);
  });

  test.each(everyCase)(
    '$shape at Bi $biot: heat lost has passed the surface',
    ({ shape, biot }) => {
      const passed = integral((fourier) => theta(shape, biot, fourier, 1), 0.05, 0.25);
      const lost = meanTheta(shape, biot, 0.05) - meanTheta(shape, biot, 0.25);
      expect(gap(dimensions[shape] * biot * passed, lost)).toBeLessThan(1e-9);
    },
  );

  test('the last place still at its start while the first cools', () => {
    for (const { shape, biot } of everyCase) {
      expect(gap(theta(shape, biot, 1e-3, 0), 1), `${shape} ${biot}`).toBeLessThan(1e-12);
    }
  });

  test.each([
    ['slab', 0, 1e-3, 0],
    ['slab', Number.NaN, 1e-3, 0],
    ['cylinder', 1, 0, 0],
    ['cylinder', 1, 1e-6, 0],
    ['sphere', 1, 0.1, 1.01],
    ['sphere', 1, 0.1, -0.01],
  ] as const)('refuses %s with Bi %f, Fo %f, r/R %f', (shape, biot, fourier, radiusFraction) => {
    expect(() => theta(shape, biot, fourier, radiusFraction)).toThrow(RangeError);
  });
});

describe('surface soon after the start', () => {
  /** exp(x^2) erfc(x) by its power series, for |x| up to 1: sum of (-x)^n / Gamma(1 + n/2). */
  function scaledErfc(x: number): number {
    let even = 1;
    let odd = (-2 * x) / Math.sqrt(Math.PI);
    let sum = even + odd;
    for (let n = 2; n < 80; n += 2) {
      even *= (x * x) / (n / 2);
      odd *= (x * x) / ((n + 1) / 2);
      sum += even + odd;
    }
    return sum;
  }

  const early = [1e-5, 1e-3, 0.02].flatMap((fourier) =>
    [0.5, 2, 7].map((biot) => ({ fourier, biot })),
  );

  // Half-space solution (Carslaw and Jaeger, section 2.7, number from memory); the far side changes
  // it by exp(-1/Fo), 2e-22 at the latest time. In a sphere r (1 - theta) obeys the same with Bi - 1.
  test.each(early)('slab at Bi $biot, Fo $fourier', ({ biot, fourier }) => {
    const exact = scaledErfc(biot * Math.sqrt(fourier));
    expect(gap(theta('slab', biot, fourier, 1), exact)).toBeLessThan(1e-12);
  });

  test.each(early)('sphere at Bi $biot, Fo $fourier', ({ biot, fourier }) => {
    const exact = 1 - (biot / (biot - 1)) * (1 - scaledErfc((biot - 1) * Math.sqrt(fourier)));
    expect(gap(theta('sphere', biot, fourier, 1), exact)).toBeLessThan(1e-12);
  });

  test('cylinder: what two terms in the root of Fo leave falls as Fo^1.5', () => {
    const biot = 2;
    // Two terms of the transform for large argument, I1/I0 = 1 - 1/(2 sqrt s), inverted.
    const left = (fourier: number): number =>
      1 -
      theta('cylinder', biot, fourier, 1) -
      biot * (2 * Math.sqrt(fourier / Math.PI) - (biot - 0.5) * fourier);
    const order = Math.log(left(4e-4) / left(1e-4)) / Math.log(4);
    expect(gap(order, 1.5)).toBeLessThan(0.03);
  });
});

describe('cylinder of finite length', () => {
  const point = { biot: 2, fourier: 0.2, radiusFraction: 0.3, lengthFraction: 0 };

  test('a long one is the infinite one at mid-length', () => {
    const long = finiteCylinderTheta({ ...point, halfLengthRatio: 40 });
    expect(gap(long, theta('cylinder', 2, 0.2, 0.3))).toBeLessThan(1e-12);
  });

  test('a disc far from its rim is the slab', () => {
    const disc = finiteCylinderTheta({
      biot: 20,
      fourier: 1e-3,
      halfLengthRatio: 0.05,
      radiusFraction: 0,
      lengthFraction: 0.6,
    });
    expect(gap(disc, theta('slab', 1, 0.4, 0.6))).toBeLessThan(1e-12);
  });

  // Per radius, side over volume is 2 and the two ends over volume are 1/halfLengthRatio.
  test('heat lost has passed the side and the ends', () => {
    const biot = 2;
    const halfLengthRatio = 1.3;
    const at = (fourier: number, radiusFraction: number, lengthFraction: number): number =>
      finiteCylinderTheta({ biot, fourier, halfLengthRatio, radiusFraction, lengthFraction });
    const overLength = (f: (z: number) => number): number => integral(f, 0, 1, 40);
    const overDisc = (f: (r: number) => number): number => integral((r) => 2 * r * f(r), 0, 1, 40);
    const mean = (fourier: number): number => overDisc((r) => overLength((z) => at(fourier, r, z)));
    const leaving = (fourier: number): number =>
      2 * biot * overLength((z) => at(fourier, 1, z)) +
      (biot / halfLengthRatio) * overDisc((r) => at(fourier, r, 1));
    expect(gap(integral(leaving, 0.1, 0.2, 40), mean(0.1) - mean(0.2))).toBeLessThan(1e-6);
  });

  test.each([0, Number.NaN])('refuses half length over radius %f', (halfLengthRatio) => {
    expect(() => finiteCylinderTheta({ ...point, halfLengthRatio })).toThrow(RangeError);
  });
});

describe('time to a theta', () => {
  test.each(everyCase)('$shape at Bi $biot: back to where it came from', ({ shape, biot }) => {
    for (const fourier of [0.05, 0.7]) {
      for (const radiusFraction of [0, 0.8]) {
        const target = theta(shape, biot, fourier, radiusFraction);
        const found = fourierAtTheta(shape, biot, target, radiusFraction);
        expect(gap(found / fourier, 1)).toBeLessThan(1e-10);
      }
    }
  });

  const example = (id: string) => {
    const found = published.worked_examples.find((row) => row.id === id);
    if (!found) throw new Error(`no worked example ${id}`);
    return found;
  };

  test('a textbook roast as a sphere: minutes to a centre temperature', () => {
    const { inputs, verification } = example('kreith-1.5-kg-roast');
    const { mass_kg, rho_kg_m3, cp_J_kgK, k_W_mK, h_W_m2K } = inputs;
    const { T0_C, T_oven_C, target_centre_C } = inputs;
    const radiusM = Math.cbrt((3 * mass_kg) / (4 * Math.PI * rho_kg_m3));
    const biot = (h_W_m2K * radiusM) / k_W_mK;
    const target = (T_oven_C - target_centre_C) / (T_oven_C - T0_C);
    const minutesPerFourier = (radiusM ** 2 * rho_kg_m3 * cp_J_kgK) / k_W_mK / 60;
    const minutes = fourierAtTheta('sphere', biot, target, 0) * minutesPerFourier;
    expect(gap(minutes, verification.full_series_min)).toBeLessThan(0.05);
    const [first] = firstModes('sphere', biot, 1);
    const oneTerm = Math.log((first?.coefficient ?? 0) / target) / (first?.zeta ?? 0) ** 2;
    expect(gap(oneTerm * minutesPerFourier, verification.one_term_min)).toBeLessThan(0.05);
  });

  test('a textbook cylinder: theta at half the radius', () => {
    const { inputs, verification } = example('umich-infinite-cylinder');
    const { radius_m, rho_kg_m3, cp_J_kgK, k_W_mK, h_W_m2K, time_s, r_over_R } = inputs;
    const biot = (h_W_m2K * radius_m) / k_W_mK;
    const fourier = (k_W_mK * time_s) / (rho_kg_m3 * cp_J_kgK * radius_m ** 2);
    expect(gap(theta('cylinder', biot, fourier, r_over_R), verification.theta)).toBeLessThan(5e-5);
  });

  test.each([0, 1, Number.NaN])('refuses a target of %f', (target) => {
    expect(() => fourierAtTheta('cylinder', 1, target, 0)).toThrow(RangeError);
  });
});
