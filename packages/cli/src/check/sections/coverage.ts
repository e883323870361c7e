import coverage from '../../../../../data/reference/coverage.json' with { type: 'json' };
import { page, table } from '../markdown.js';

/** How honest the intervals of a thermometer's log are: a recorded run, because it takes minutes. */
export const coveragePage = (): string =>
  page(
    '## Does an interval hold what it says?',
    `A thermometer's log gives the minutes that remain as a ${coverage.levelPercent} % interval (\`roastsim probe\`). Tried on ` +
      `${coverage.cooks} synthetic cooks drawn from the doubts of [forecast.md](forecast.md), whose truth has another structure than the fit ` +
      '(heat along the axis, finer mesh and steps, crust and juice that are not fitted, a probe 3 to 12 mm off, noise, drift); seeds fixed ' +
      'beforehand and used once. Errors and widths in shares of the whole cook. Recorded, not computed here: `tests/bench/coverage.mjs`.',
    table(
      ['oven time passed %', 'interval holds the truth %', 'median error %', 'median width %'],
      coverage.rows.map((row) => [
        String(row.passedPercent),
        row.heldPercent.toFixed(1),
        row.medianErrorPercent.toFixed(1),
        row.medianWidthPercent.toFixed(1),
      ]),
    ),
    'Asked for is 86 to 94 %, an error of at most 6 % half-way and 1.7 % at 85 %. From 85 % on the interval is a little too careful, at the very ' +
      "beginning a little too bold. The truth shares the model's equations, so this shows that the arithmetic of doubt is right, not that real " +
      'roasts behave so.',
  );
