import { once } from '../cook.js';
import { meanTheta, type Shape, theta } from '../exact/series.js';
import { COOK_STEPS, SolidLine } from '../exact/solidLine.js';
import { fixed, page, table } from '../markdown.js';
import { type Allowance, distance, just, type Row, type Section } from '../row.js';
import { VERDICT_HEAD, verdictText } from '../rowWords.js';

const SHAPES = ['cylinder', 'slab', 'sphere'] as const satisfies readonly Shape[];
const BIOTS = [0.1, 0.5, 1, 2, 5, 10, 20, 50] as const;
const FOURIERS = [0.02, 0.05, 0.1, 0.2, 0.5, 1, 2] as const;
const SPAN_K = 214; // 4 to 218 °C

/** In % of the driving difference. The volume of a sphere crowds into the coarse shells least of all. */
const ALLOWED: Readonly<Record<Shape, Allowance>> = {
  cylinder: distance(0.05, 0.1),
  slab: distance(0.05, 0.1),
  sphere: distance(0.1, 0.2),
};

/** Worst gap to the series at the centre, half radius, surface and in the mean, as a share of the driving difference. */
function worstGap(shape: Shape, biot: number): number {
  const line = new SolidLine(shape, biot);
  let at = 0;
  let worst = 0;
  for (const fourier of FOURIERS) {
    line.advance(fourier - at, COOK_STEPS);
    at = fourier;
    const gaps = [
      ...[0, 0.5, 1].map((place) => line.theta(place) - theta(shape, biot, fourier, place)),
      line.meanTheta() - meanTheta(shape, biot, fourier),
    ];
    worst = Math.max(worst, ...gaps.map(Math.abs));
  }
  return worst;
}

const seriesRows = once(() =>
  SHAPES.flatMap((shape) =>
    BIOTS.map((biot) => {
      const row: Row = {
        what: `${shape}, Biot number ${biot}: worst gap`,
        kind: 'exact',
        must: true,
        published: just(0),
        model: just(100 * worstGap(shape, biot)),
        unit: '%',
        decimals: 3,
        allow: ALLOWED[shape],
        source: 'exact series, Fourier numbers 0.02 to 2',
      };
      return { shape, biot, row };
    }),
  ),
);

function exactPage(): string {
  const cylinder = seriesRows().filter(({ shape }) => shape === 'cylinder');
  const worst = Math.max(...cylinder.map(({ row }) => row.model?.[0] ?? Number.NaN));
  return page(
    '## Is the arithmetic right?',
    'Whether the equations are solved is one question, whether they describe meat another. Everything above is about the second; the first is settled by ' +
      'this section and the next three, which allow little.',
    '### Exact series',
    'Transient conduction with convection at a constant film coefficient, default mesh and steps: worst gap to the exact series at centre, half radius, ' +
      `surface and in the mean, in % of the driving difference, Fourier numbers ${FOURIERS[0]} to ${FOURIERS[FOURIERS.length - 1]}. For the cylinder ` +
      `${fixed(worst, 3)} % at worst, ${fixed((SPAN_K * worst) / 100, 2)} K from 4 to 218 °C. Orders of convergence, finite cylinders: \`tests/numerics\`.`,
    table(
      ['Biot number', ...SHAPES.flatMap((shape) => [shape, VERDICT_HEAD])],
      BIOTS.map((biot) => [
        `${biot}`,
        ...SHAPES.flatMap((shape) => {
          const found = seriesRows().find((one) => one.shape === shape && one.biot === biot);
          return found === undefined
            ? ['', '']
            : [fixed(found.row.model?.[0], 3), verdictText(found.row)];
        }),
      ]),
    ),
  );
}

/** Bodies whose temperatures are known exactly. */
export const exactSection: Section = {
  id: 'series',
  title: 'Exact series of conduction, % of the driving difference',
  against: 'exact',
  rows: () => seriesRows().map(({ row }) => row),
  page: exactPage,
};
