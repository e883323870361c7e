import { CookRun, temper, tenderloin } from '@roastsim/core';
import { expect, test } from 'vitest';

// other steps: three seconds at most, a second with the stride that the counter allows
test.each([10, 30, 60, 90])(
  '%i min on the counter in steps of up to a minute: every node within 0.01 °C',
  (minutes) => {
    const roast = tenderloin({ massKg: 2.2 });
    const fieldAfter = (options: object): { tempC: Float64Array; steps: number } => {
      const run = new CookRun(roast, options);
      run.run(temper({ minutes, roomC: 28 }));
      return { tempC: run.state.tempC, steps: run.history().steps };
    };
    const usual = fieldAfter({});
    const fine = fieldAfter({ longestStepS: 1, firstStepS: 0.2 });
    expect(usual.steps).toBeLessThan(minutes + 25); // the first twenty or so grow from a second
    const worst = usual.tempC.reduce((w, c, i) => Math.max(w, Math.abs(c - fine.tempC[i])), 0);
    console.log(`${minutes} min on the counter: worst node ${worst.toFixed(5)} °C`);
    expect(worst).toBeLessThan(0.01);
  },
);
