import { bracketedRoot } from '@roastsim/core';
import { published } from '../published.js';
import { type Shape, theta } from './series.js';
import { COOK_STEPS, SolidLine } from './solidLine.js';

type Numbers = Readonly<Record<string, number>>;

const { worked_examples, water_bath_table } = published<{
  readonly worked_examples: readonly {
    readonly id: string;
    readonly inputs: Readonly<Record<string, unknown>>;
    readonly book_answers?: Numbers | null;
    readonly published_answers?: Numbers;
    readonly verification: Readonly<Record<string, unknown>>;
  }[];
  readonly water_bath_table: {
    readonly rows: readonly { readonly diameter_mm: number; readonly time_min: number }[];
    readonly computed_with: {
      readonly h_W_m2K: number;
      readonly k_W_mK: number;
      readonly alpha_m2_s: number;
    };
  };
}>('transient-conduction');

function example(id: string) {
  const found = worked_examples.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no worked example ${id}`);
  return { ...found, inputs: found.inputs as Numbers };
}

/** One figure of a worked example, and how the library's line computes it. */
export interface Example {
  readonly id: string;
  readonly what: string;
  readonly unit: string;
  readonly decimals: number;
  readonly model: () => number;
  /** By the whole series, worked out by another program, as printed in the table. */
  readonly exact: number;
  /** As the book prints it. */
  readonly book?: number;
  readonly warning?: string;
}

const sphereRadius = (massKg: number, densityKgPerM3: number): number =>
  Math.cbrt((3 * massKg) / (4 * Math.PI * densityKgPerM3));

/** Time to a centre excess of `target` [s]. */
function secondsTo(
  shape: Shape,
  radiusM: number,
  { h, k, rhoC }: { readonly h: number; readonly k: number; readonly rhoC: number },
  target: number,
): number {
  const fourier = new SolidLine(shape, (h * radiusM) / k).fourierTo(target);
  return (fourier * radiusM ** 2 * rhoC) / k;
}

function ribRoast(): Example[] {
  const { id, inputs, book_answers, verification } = example('cengel-rib-roast');
  const full = verification.full_series_solved_exactly as Numbers;
  const { T0_C, T_oven_C } = inputs;
  const radiusM = sphereRadius(inputs.mass_kg, inputs.rho_kg_m3);
  const fourierPerS = inputs.alpha_m2_s / radiusM ** 2;
  const excess = (tempC: number): number => (T_oven_C - tempC) / (T_oven_C - T0_C);
  // the film coefficient is what makes the centre rare at the listed time
  const biot = (): number => {
    const gap = (bi: number): number =>
      theta('sphere', bi, inputs.rare_time_s * fourierPerS, 0) - excess(inputs.rare_centre_C);
    return bracketedRoot(gap, 5, gap(5), 60, gap(60), 1e-9, 60).x;
  };
  const hours = (tempC: number): number =>
    new SolidLine('sphere', biot()).fourierTo(excess(tempC)) / fourierPerS / 3600;
  return [
    {
      id,
      what: 'rib roast of 3.2 kg as a sphere, to 71 °C',
      unit: 'h',
      decimals: 2,
      model: () => hours(inputs.medium_centre_C),
      exact: full.medium_h,
      ...(book_answers?.medium_time_h === undefined ? {} : { book: book_answers.medium_time_h }),
      warning: 'one term, out of its range',
    },
    {
      id,
      what: 'the same, to 77 °C',
      unit: 'h',
      decimals: 2,
      model: () => hours(inputs.well_centre_C),
      exact: full.well_h,
    },
    {
      id,
      what: 'the same, its surface below the oven when rare',
      unit: 'K',
      decimals: 1,
      model: () =>
        (T_oven_C - T0_C) *
        new SolidLine('sphere', biot())
          .advance(inputs.rare_time_s * fourierPerS, COOK_STEPS)
          .theta(1),
      exact: T_oven_C - full.surface_C,
      ...(book_answers?.surface_C === undefined ? {} : { book: T_oven_C - book_answers.surface_C }),
      warning: 'one term, out of its range',
    },
  ];
}

function smallRoast(): Example {
  const { id, inputs, book_answers, verification } = example('kreith-1.5-kg-roast');
  const { T0_C, T_oven_C, target_centre_C, mass_kg, rho_kg_m3, cp_J_kgK } = inputs;
  const matter = { h: inputs.h_W_m2K, k: inputs.k_W_mK, rhoC: rho_kg_m3 * cp_J_kgK };
  const target = (T_oven_C - target_centre_C) / (T_oven_C - T0_C);
  return {
    id,
    what: 'roast of 1.5 kg as a sphere, to 77 °C',
    unit: 'min',
    decimals: 1,
    model: () => secondsTo('sphere', sphereRadius(mass_kg, rho_kg_m3), matter, target) / 60,
    exact: (verification as Numbers).full_series_min,
    ...(book_answers?.time_min === undefined ? {} : { book: book_answers.time_min }),
  };
}

function chilledSlab(): Example {
  const { id, verification } = example('cengel-meat-slab-chilling');
  const { Bi, theta_surface_over_centre } = verification as Numbers;
  return {
    id,
    what: 'meat slab being chilled, surface over centre',
    unit: '',
    decimals: 4,
    model: () => {
      const late = new SolidLine('slab', Bi).advance(1, COOK_STEPS);
      return late.theta(1) / late.theta(0);
    },
    exact: theta_surface_over_centre,
  };
}

function hamburgers(): Example[] {
  const { id, inputs, verification } = example('incropera-hamburger');
  const { thickness_m, T0_C } = inputs as unknown as Readonly<Record<string, readonly number[]>>;
  const { T_inf_C, target_centre_C, rho_kg_m3, cp_J_kgK } = inputs;
  const matter = { h: inputs.h_W_m2K, k: inputs.k_W_mK, rhoC: rho_kg_m3 * cp_J_kgK };
  return T0_C.flatMap((startC) =>
    thickness_m.map((thickness, i) => ({
      id,
      what: `hamburger of ${1000 * thickness} mm from ${startC} °C in boiling water`,
      unit: 's',
      decimals: 1,
      model: () =>
        secondsTo('slab', thickness / 2, matter, (T_inf_C - target_centre_C) / (T_inf_C - startC)),
      exact: (verification as Readonly<Record<string, readonly number[]>>)[
        `one_term_s_from_${startC}C`
      ][i],
    })),
  );
}

function fivePounds(): Example {
  const { id, inputs, verification } = example('sphere-5-lb-roast');
  const { k_W_mK, rho_kg_m3, cp_J_kgK } = verification.assumed as Numbers;
  const target = (inputs.T_oven_F - inputs.target_F) / (inputs.T_oven_F - inputs.T0_F);
  const matter = { h: inputs.h_W_m2K, k: k_W_mK, rhoC: rho_kg_m3 * cp_J_kgK };
  return {
    id,
    what: 'roast of 5 lb as a sphere, to 200 °F',
    unit: 'h',
    decimals: 2,
    model: () =>
      secondsTo('sphere', sphereRadius(inputs.mass_kg, rho_kg_m3), matter, target) / 3600,
    exact: (verification as Numbers).time_h,
  };
}

function apple(): Example {
  const { id, inputs, verification } = example('singh-heldman-apple');
  const target = (inputs.target_C - inputs.T_inf_C) / (inputs.T0_C - inputs.T_inf_C);
  const matter = {
    h: inputs.h_W_m2K,
    k: inputs.k_W_mK,
    rhoC: inputs.rho_kg_m3 * inputs.cp_J_kgK,
  };
  return {
    id,
    what: 'apple of 6 cm chilled in water',
    unit: 'h',
    decimals: 3,
    model: () => secondsTo('sphere', inputs.diameter_m / 2, matter, target) / 3600,
    exact: (verification as Numbers).time_h,
  };
}

function infiniteCylinder(): Example {
  const { id, inputs, published_answers, verification } = example('umich-infinite-cylinder');
  const { radius_m, k_W_mK } = inputs;
  const fourier = (k_W_mK * inputs.time_s) / (inputs.rho_kg_m3 * inputs.cp_J_kgK * radius_m ** 2);
  return {
    id,
    what: 'cylinder at half radius after 10 min, share of the excess left',
    unit: '',
    decimals: 4,
    model: () =>
      new SolidLine('cylinder', (inputs.h_W_m2K * radius_m) / k_W_mK)
        .advance(fourier, COOK_STEPS)
        .theta(inputs.r_over_R),
    exact: (verification as Numbers).theta,
    ...(published_answers?.theta === undefined ? {} : { book: published_answers.theta }),
    warning: 'chart misread by a factor of eight',
  };
}

/** Worked examples, in the order of the table. */
export const EXAMPLES: readonly Example[] = [
  ...ribRoast(),
  smallRoast(),
  chilledSlab(),
  ...hamburgers(),
  fivePounds(),
  apple(),
  infiniteCylinder(),
];

/** Meat cylinders in a water bath, 5 °C to half a degree below the bath: the table's minutes and the library's. */
export function bathExample() {
  const { h_W_m2K, k_W_mK, alpha_m2_s } = water_bath_table.computed_with;
  const matter = { h: h_W_m2K, k: k_W_mK, rhoC: k_W_mK / alpha_m2_s };
  return water_bath_table.rows.map(({ diameter_mm, time_min }) => ({
    diameterMm: diameter_mm,
    printedMin: time_min,
    minutes: secondsTo('cylinder', diameter_mm / 2000, matter, 0.01) / 60,
  }));
}
