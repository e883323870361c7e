import {
  COMPOSITIONS,
  type Composition,
  conductivity,
  heatCapacity,
  heatContent,
  latentHeat,
  meatOf,
  saturation,
} from '@roastsim/core';
import { once } from '../cook.js';
import { fixed, page, table } from '../markdown.js';
import { published } from '../published.js';
import { type Allowance, distance, just, type Row, type Section, share } from '../row.js';
import { gapText, rowCells, rowHead, VERDICT_HEAD, verdictText } from '../rowWords.js';

const { measured, check_vectors, composition, latent_heat_kJ_kg } = published<{
  readonly measured: readonly {
    readonly food: string;
    readonly source: string;
    readonly cp_above_kJ_kgK?: number;
    readonly k_W_mK?: number;
    readonly alpha_m2_s?: number;
    readonly rho_kg_m3?: number;
  }[];
  readonly check_vectors: {
    readonly rows: readonly {
      readonly food: string;
      readonly T_C: number;
      readonly rho_kg_m3: number;
      readonly k_parallel_W_mK: number;
      readonly 'cp_kJ_kgK_with_4.1762': number;
    }[];
  };
  readonly composition: {
    readonly tenderloin: readonly (Readonly<Record<'water' | 'protein' | 'fat' | 'ash', number>> & {
      readonly ndb: string;
    })[];
  };
  readonly latent_heat_kJ_kg: {
    readonly rows: readonly { readonly T_C: number; readonly h_fg: number }[];
  };
}>('thermal-properties');

/** Published values of lean beef scatter by 7 %. */
const MEASURED: Allowance = share(0.05, 0.1);
const TABLES: Allowance = share(0.004, 0.01);

const fractions = (water: number, protein: number, fat: number, ash: number): Composition => {
  const sum = water + protein + fat + ash;
  return { water: water / sum, protein: protein / sum, fat: fat / sum, ash: ash / sum };
};
const lean: Composition = COMPOSITIONS['lean-tenderloin'];

// What the source says of its meat; where it states only the water, protein 21.5 % of lean meat and the rest fat.
const HEAT_CAPACITIES: readonly (readonly [string, Composition, fromC: number, toC: number])[] = [
  ['beef tenderloin, lean', fractions(68.4, 20.78, 7.9, 1.04), 0, 10],
  ['beef sirloin, lean', lean, 0, 10],
  ['beef round, full cut, lean', lean, 0, 10],
  ['beef T-bone steak, lean', lean, 0, 10],
  ['beef slab (textbook problem data)', lean, 0, 10],
  ['beef, lean, 72 % water, 0-100 C', lean, 0, 100],
  ['beef, lean, 74.5 % water, 0-10 C', fractions(74.5, 21.5, 3, 1), 0, 10],
  ['beef, 74.5-78.5 % water, 0-30 C', fractions(76.5, 20.5, 2, 1), 0, 30],
  ['beef, 75 % water', fractions(75, 21.5, 2.5, 1), 0, 10],
  ['beef, fatty, 51 % water, 0-100 C', fractions(51, 15.5, 32.5, 1), 0, 100],
];

const record = (food: string): (typeof measured)[number] => {
  const found = measured.find((row) => row.food === food);
  if (found === undefined) throw new Error(`no measured ${food}`);
  return found;
};

const measuredRow = (
  what: string,
  unit: string,
  found: number | undefined,
  model: number,
  decimals: number,
  source: string,
): Row => ({
  what,
  kind: 'check',
  must: false,
  published: just(found ?? Number.NaN),
  model: just(model),
  unit,
  decimals,
  allow: MEASURED,
  source,
});

function heatRow([food, parts, fromC, toC]: (typeof HEAT_CAPACITIES)[number]): Row {
  const { cp_above_kJ_kgK, source } = record(food);
  const meat = meatOf({ composition: parts });
  const model = (heatContent(meat, toC) - heatContent(meat, fromC)) / (toC - fromC) / 1000;
  return measuredRow(`${food}: heat capacity`, 'kJ/(kg K)', cp_above_kJ_kgK, model, 2, source);
}

function otherRows(): Row[] {
  const meat = meatOf();
  const slab = record('beef slab (textbook problem data)');
  const handbook = record('lean beef');
  const at = (tempC: number): number => conductivity(meat, tempC);
  const diffusivity = (tempC: number): number =>
    at(tempC) /
    (meat.densityKgPerM3 * (heatContent(meat, tempC + 0.5) - heatContent(meat, tempC - 0.5)));
  return [
    measuredRow(
      'lean beef near 10 °C: conductivity',
      'W/(m K)',
      handbook.k_W_mK,
      at(10),
      2,
      `${handbook.source}, from memory`,
    ),
    measuredRow('beef slab, 4 °C: conductivity', 'W/(m K)', slab.k_W_mK, at(4), 2, slab.source),
    measuredRow(
      'beef slab, 4 °C: diffusivity',
      '1e-7 m²/s',
      1e7 * (slab.alpha_m2_s ?? Number.NaN),
      1e7 * diffusivity(4),
      2,
      slab.source,
    ),
    measuredRow('beef slab: density', 'kg/m³', slab.rho_kg_m3, meat.densityKgPerM3, 0, slab.source),
  ];
}

const measuredRows = once((): Row[] => [...HEAT_CAPACITIES.map(heatRow), ...otherRows()]);

/** The component equations worked out twice by other programs: they test the mixing to the printed digits, not the truth. */
const vectorRows = once((): Row[] =>
  check_vectors.rows.flatMap((row) => {
    const usda = composition.tenderloin.find(({ ndb }) => row.food.startsWith(ndb));
    if (usda === undefined) throw new Error(`no composition of ${row.food}`);
    const meat = meatOf({ composition: fractions(usda.water, usda.protein, usda.fat, usda.ash) });
    const vector = (
      what: string,
      unit: string,
      found: number,
      model: number,
      decimals: number,
    ): Row => ({
      what: `record ${usda.ndb} at ${row.T_C} °C: ${what}`,
      kind: 'exact',
      must: true,
      published: just(found),
      model: just(model),
      unit,
      decimals,
      allow: distance(1.01 * 10 ** -decimals, 10 ** (1 - decimals)),
      source: 'thermal-properties: check_vectors',
    });
    return [
      vector('conductivity', 'W/(m K)', row.k_parallel_W_mK, conductivity(meat, row.T_C), 5),
      vector(
        'heat capacity',
        'kJ/(kg K)',
        row['cp_kJ_kgK_with_4.1762'],
        heatCapacity(meat, row.T_C) / 1000,
        4,
      ),
    ];
  }),
);

/** Steam tables (IAPWS-IF97), from memory [°C, Pa]. */
const SATURATION_PA = [
  [20, 2339.2],
  [40, 7384.9],
  [60, 19947],
  [80, 47415],
  [100, 101418],
] as const;

const waterRows = once((): Row[] => {
  const water = { kind: 'exact', must: true, allow: TABLES } as const;
  return [
    ...SATURATION_PA.map(
      ([tempC, pa]): Row => ({
        ...water,
        what: `water at ${tempC} °C: saturation pressure`,
        published: just(pa / 1000),
        model: just(saturation(tempC)[0] / 1000),
        unit: 'kPa',
        decimals: 3,
        source: 'steam tables, from memory',
      }),
    ),
    ...latent_heat_kJ_kg.rows.map(
      ({ T_C, h_fg }): Row => ({
        ...water,
        what: `water at ${T_C} °C: latent heat`,
        published: just(h_fg),
        model: just(latentHeat(T_C) / 1000),
        unit: 'kJ/kg',
        decimals: 0,
        source: 'thermal-properties: latent_heat_kJ_kg, from memory',
      }),
    ),
  ];
});

function propertyPage(): string {
  return page(
    '## Properties of beef',
    'Choi and Okos with parallel mixing, nothing fitted. Published conductivities of lean beef scatter by 7 % and lie 3-8 % lower ' +
      'across the fibres. Lean beef agrees within 5 % except for an old, low value; fatty beef (51 % water) does not, and is not what this is for. ' +
      'Equations to their printed digits: `tests/published/properties-of-beef.test.ts`.',
    table(
      ['what', 'published', 'model', 'off by', 'source', VERDICT_HEAD],
      measuredRows().map((row) => [
        `${row.what}, ${row.unit}`,
        fixed(row.published[0], row.decimals),
        fixed(row.model?.[0], row.decimals),
        gapText(row),
        row.source,
        verdictText(row),
      ]),
    ),
    'The component equations for compositions of the nutrient database, worked out by other programs: to the last printed digit, which is one off in ' +
      'two rows. Water and steam: within 0.4 %.',
    table(rowHead(), [...vectorRows(), ...waterRows()].map(rowCells)),
  );
}

/** Heat capacity, conductivity and density beside measured and handbook values. */
export const propertySection: Section = {
  id: 'properties',
  title: 'Properties of beef and water',
  rows: () => [...measuredRows(), ...vectorRows(), ...waterRows()],
  page: propertyPage,
};
