import { simulate } from '@roastsim/core';
import fc from 'fast-check';
import { test } from 'vitest';
import { anyRoast, anyStages, COARSE } from '../support/anyCook.js';

test('x', () => {
  let worst = 0;
  fc.assert(
    fc.property(anyRoast, anyStages, (roast, stages) => {
      const { ledger } = simulate(roast, stages, COARSE);
      const { heatInJ, latentJ, storedJ } = ledger;
      const moved = Math.abs(heatInJ) + Math.abs(latentJ) + Math.abs(storedJ);
      const gap = Math.abs(heatInJ - latentJ - storedJ)/moved;
      if (gap > worst) {worst=gap; console.log(gap, JSON.stringify(stages), roast.cut, roast.massKg);}
    }),
    { numRuns: 300 },
  );
});
