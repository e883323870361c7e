import { mirrored, simulate } from '@roastsim/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { anyRecipe, anyStages, COARSE, roastOf } from '../support/anyCook.js';

test('law: a mirrored roast cooks the same from the other end, to 1e-9 °C', () => {
  fc.assert(
    fc.property(anyRecipe, anyStages, (recipe, stages) => {
      const roast = roastOf(recipe);
      const one = simulate(roast, stages, COARSE);
      const other = simulate({ ...roast, profile: mirrored(roast.profile) }, stages, COARSE);
      const nodes = COARSE.shells + 1;
      const gaps = one.hottestC.map((tempC, at) => {
        const station = COARSE.stations - 1 - Math.floor(at / nodes);
        return Math.abs(tempC - other.hottestC[station * nodes + (at % nodes)]);
      });
      expect(Math.max(...gaps)).toBeLessThan(1e-9);
    }),
    { numRuns: 60 },
  );
});
