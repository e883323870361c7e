import { gapsOf, REFERENCE, ReferenceCook } from '../../support/referenceLines.js';
import { meanTheta, theta } from '../../support/series.js';
import { COOK_STEPS, SolidLine } from '../../support/solidLine.js';
import { bullets, fixed, page } from '../markdown.js';

const BIOT = 2;
const SPAN_K = 214; // 4 to 218 °C

/** Worst gap to the exact series at axis, half radius, surface and in the mean, as a share of the driving difference. */
function worstGap(): number {
  const gaps = [0.05, 0.1, 0.2, 0.5, 1].flatMap((fourier) => {
    const line = new SolidLine('cylinder', BIOT).advance(fourier, COOK_STEPS);
    return [
      ...[0, 0.5, 1].map((at) => line.theta(at) - theta('cylinder', BIOT, fourier, at)),
      line.meanTheta() - meanTheta('cylinder', BIOT, fourier),
    ];
  });
  return Math.max(...gaps.map(Math.abs));
}

/** The equations are solved right: exact solutions, textbook examples, another program. */
export function exactSection(): string {
  const gap = worstGap();
  const of = REFERENCE.B;
  const { time, peakK, peakS, worst } = gapsOf(of, new ReferenceCook(of));
  return page(
    '## Is the arithmetic right?',
    'Whether the equations are solved is one question, whether they describe meat another. Everything above is about the second; the first ' +
      'is settled by tests that allow little:',
    bullets(
      `exact Bessel series, cylinder at Biot number ${BIOT}, default mesh and steps, Fourier numbers 0.05 to 1: worst error ` +
        `${fixed(100 * gap, 3)} % of the driving difference, ${fixed(SPAN_K * gap, 2)} K from 4 to 218 °C (\`tests/numerics/lines.test.ts\`; ` +
        'orders of convergence: `orders.test.ts`; finite cylinders: `finiteCylinder.test.ts`);',
      `the full model of one line in an independent program with 800 cells and error control, tempered, 230 °C to 52 °C, rested (case B): ` +
        `stage lengths within ${fixed(100 * time, 2)} %, peak within ${fixed(peakK, 2)} K and ${fixed(peakS, 0)} s, axis within ` +
        `${fixed(worst.axisC, 2)} K throughout (\`tests/published/reference-lines.test.ts\`, five cases);`,
      'worked examples of heat-transfer textbooks, where the books are right (`tests/published/handbook.test.ts`; some are not, see there).',
    ),
  );
}
