import { planCook, rest, searInPan, tenderloin, waterBath } from '@roastsim/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';

// The search goes back and forth between kept places; the history it leaves must be that of one cook.

test('law: the history of a searched plan is the history of the same cook run straight through', () => {
  fc.assert(
    fc.property(fc.double({ min: 54, max: 60, noNaN: true }), (bathC) => {
      const roast = tenderloin({ massKg: 2.2 });
      const request = {
        before: [],
        heat: waterBath({ bathC, until: { minutes: 0 } }),
        after: [searInPan(), rest({ minutes: 5, tented: false })],
      };
      const coarse = { stations: 8, shells: 12 };
      const found = planCook(roast, { ...request, aim: { doneness: bathC - 0.5 } }, coarse);
      const straight = planCook(
        roast,
        { ...request, aim: { doneness: bathC - 0.5 }, pull: { minutes: found.pull.minutes } },
        coarse,
      );
      for (const series of ['seconds', 'airC', 'axisC', 'meanC'] as const) {
        const [a, b] = [found.history[series], straight.history[series]];
        // the pull cuts a step of its own into the searched history
        expect(Math.abs(a.length - b.length)).toBeLessThanOrEqual(
          2 * (a.length / found.history.rows),
        );
      }
      for (let row = 1; row < found.history.rows; row++) {
        const step = found.history.seconds[row] - found.history.seconds[row - 1];
        expect(step).toBeGreaterThanOrEqual(0);
        expect(step).toBeLessThanOrEqual(20 + 1e-9);
      }
      const bathRows = found.history.stages[0].lastRow;
      for (let row = 1; row <= bathRows; row++) expect(found.history.airC[row]).toBe(bathC);
      expect(found.slices.map((s) => s.peakCentreC)).toEqual(
        straight.slices.map((s) => expect.closeTo(s.peakCentreC, 1) as unknown as number),
      );
    }),
    { numRuns: 12 },
  );
});
