import { airFilmToVapour, type History, saturation, simulate } from '@roastsim/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { latentHeat } from '../../packages/core/src/heat/index.js';
import { bracketedRoot } from '../../packages/core/src/numerics/index.js';
import { anyRecipe, anyStages, COARSE, roastOf } from '../support/anyCook.js';

/**
 * Wet bulb [°C] of moving air: where the heat it gives and the heat evaporation takes are equal. Heat and vapour cross the same
 * film, so the film cancels. In air that holds more vapour than it can, condensation puts it above the air.
 */
function wetBulb(airC: number, vapourPa: number): number {
  const balance = (tempC: number): number =>
    airC - tempC - latentHeat(tempC) * airFilmToVapour(1) * (saturation(tempC)[0] - vapourPa);
  return bracketedRoot(balance, -40, balance(-40), 150, balance(150), 1e-9, 100).x;
}

/** Lowest and highest temperature the surroundings of a row can bring about. */
function limits(cook: History, row: number): readonly [lowC: number, highC: number] {
  const { stage } = cook.stages.find((s) => row >= s.firstRow && row <= s.lastRow)!;
  const coldC = Math.min(cook.airC[row], cook.wallC[row]);
  const hotC = Math.max(cook.airC[row], cook.wallC[row]);
  const sealed = stage.kind === 'bath';
  const onPan = stage.kind === 'pan-sear' && cook.airC[row] === stage.panC;
  if (sealed || onPan) return [coldC, hotC]; // no vapour passes, or none condenses
  const vapourPa = cook.vapourPa[row];
  return [wetBulb(coldC, vapourPa), Math.max(hotC, wetBulb(hotC, vapourPa))];
}

// Walls may be colder than the air, so the wet bulb is taken for the colder of both: radiation only warms from there.
test('law: nothing gets hotter than the hottest it met, nor colder than the coldest wet bulb', () => {
  fc.assert(
    fc.property(anyRecipe, anyStages, (recipe, stages) => {
      const roast = roastOf(recipe);
      const cook = simulate(roast, stages, { ...COARSE, fields: true });
      const fieldC = cook.fieldC!;
      const width = fieldC.length / cook.rows;
      let lowC = roast.startC;
      let highC = roast.startC;
      for (let row = 0; row < cook.rows; row++) {
        const [low, high] = limits(cook, row);
        lowC = Math.min(lowC, low);
        highC = Math.max(highC, high);
        const nodes = fieldC.subarray(row * width, (row + 1) * width);
        const crusts = cook.outsideC.subarray(row * COARSE.stations, (row + 1) * COARSE.stations);
        expect(Math.min(...nodes, ...crusts)).toBeGreaterThan(lowC - 1e-9);
        expect(Math.max(...nodes, ...crusts)).toBeLessThan(highC + 1e-9);
      }
    }),
    { numRuns: 100 },
  );
});
