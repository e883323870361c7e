import { lengthOf, type Stage, simulate } from '@roastsim/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { anyRecipe, anyTimedStage, COARSE, decimal, roastOf } from '../support/anyCook.js';

const anySplit = fc
  .tuple(
    fc.array(
      anyTimedStage.filter(({ kind }) => kind !== 'oven-sear'),
      { minLength: 1, maxLength: 3 },
    ),
    fc.nat(),
    decimal(0.1, 0.9),
  )
  .map(([stages, pick, share]) => ({ stages, at: pick % stages.length, share }));

const minutesOf = (stage: Stage): number =>
  stage.kind !== 'pan-sear' && 'minutes' in stage.until ? stage.until.minutes : 0;

const NEAR_END_M = 0.03;

// A stage begins with short steps, so a split changes the steps and with them the error in time: largest near an end face, where a
// splitting of radius and axis meets a sudden change outside.
test('law: a stage cut in two changes the axis by less than 0.02 °C, within 30 mm of an end 0.15 °C', () => {
  fc.assert(
    fc.property(anyRecipe, anySplit, (recipe, { stages, at, share }) => {
      const roast = roastOf(recipe);
      const stage = stages[at];
      const minutes = minutesOf(stage);
      const cutStages: Stage[] = [
        ...stages.slice(0, at),
        { ...stage, until: { minutes: minutes * share } },
        { ...stage, until: { minutes: minutes * (1 - share) } },
        ...stages.slice(at + 1),
      ];
      const whole = simulate(roast, stages, COARSE);
      const cut = simulate(roast, cutStages, COARSE);
      for (const [i, record] of whole.stages.entries()) {
        if (i < at) continue;
        for (const [station, atM] of whole.body.atM.entries()) {
          const axis = station * (COARSE.shells + 1);
          const gapK = Math.abs(record.endFieldC[axis] - cut.stages[i + 1].endFieldC[axis]);
          const fromEndM = Math.min(atM, lengthOf(roast.profile) - atM);
          expect(gapK).toBeLessThan(fromEndM < NEAR_END_M ? 0.15 : 0.02);
        }
      }
    }),
    { numRuns: 80 },
  );
});
