import {
  type CookOptions,
  CookRun,
  DEFAULT_SHELLS,
  DEFAULT_STATIONS,
  type Roast,
  rest,
  roastIn,
  tenderloin,
} from '@roastsim/core';
import { fixed, page, signed, table } from '../markdown.js';

interface MeshCase {
  readonly name: string;
  readonly roast: Roast;
  readonly ovenC: number;
  readonly fan?: boolean;
  readonly pullC: number;
}

const CASES: readonly MeshCase[] = [
  {
    name: 'whole 2.2 kg, 230 °C to 52 °C',
    roast: tenderloin({ massKg: 2.2 }),
    ovenC: 230,
    pullC: 52,
  },
  {
    name: 'whole 2.2 kg untied, unfolded, 180 °C to 50 °C',
    roast: tenderloin({ massKg: 2.2, folded: false, tied: false }),
    ovenC: 180,
    pullC: 50,
  },
  {
    name: 'centre 1.13 kg, 218 °C to 57.2 °C',
    roast: tenderloin({ massKg: 1.134, cut: 'centre' }),
    ovenC: 218.3,
    pullC: 57.2,
  },
  {
    name: 'butt 0.9 kg, fan at 150 °C to 54 °C',
    roast: tenderloin({ massKg: 0.9, cut: 'butt' }),
    ovenC: 150,
    fan: true,
    pullC: 54,
  },
];

interface Numbers {
  readonly minutes: number;
  readonly peakC: number;
}

/** Pull time and peak of the axis at one place, the same for all meshes. */
function solve(
  { roast, ovenC, fan = false, pullC }: MeshCase,
  options: CookOptions,
  atMm?: number,
) {
  const run = new CookRun(roast, options);
  const at = { atMm: atMm ?? ('coldest' as const) };
  run.run(roastIn({ ovenC, fan, until: { reachesC: pullC, at } }));
  const place = run.fixed(at);
  const minutes = run.atS / 60;
  let peakC = pullC;
  run.run(rest({ minutes: 35 }), {
    onStep: () => {
      peakC = Math.max(peakC, run.temperatureOf(place));
      return false;
    },
  });
  const found: Numbers = { minutes, peakC };
  return { ...found, place: place.atMm === 'coldest' ? 0 : place.atMm };
}

function meshRow(one: MeshCase): string[] {
  const base = solve(one, {});
  const finer = [
    { shells: 2 * DEFAULT_SHELLS },
    { stations: 2 * DEFAULT_STATIONS },
    { shells: 2 * DEFAULT_SHELLS, stations: 2 * DEFAULT_STATIONS },
    { longestStepS: 10 },
  ].map((options) => solve(one, options, base.place));
  return [
    one.name,
    fixed(base.minutes, 1),
    fixed(base.peakC, 1),
    ...finer.map(
      ({ minutes, peakC }) =>
        `${signed(100 * (minutes / base.minutes - 1), 2)} %, ${signed(peakC - base.peakC, 2)} K`,
    ),
  ];
}

/** What a finer mesh changes. */
export function meshSection(): string {
  return page(
    '## Mesh and steps',
    `Pull time and peak of the axis at its coldest place at the default ${DEFAULT_STATIONS} stations, ${DEFAULT_SHELLS} shells and steps up to 20 s, ` +
      'and what a finer solution changes in them:',
    table(
      [
        'cook',
        'pull min',
        'peak °C',
        `${2 * DEFAULT_SHELLS} shells`,
        `${2 * DEFAULT_STATIONS} stations`,
        'both',
        'steps to 10 s',
      ],
      CASES.map(meshRow),
    ),
    'Next to everything else on this page these errors are nothing.',
  );
}
