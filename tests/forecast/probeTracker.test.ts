import { ProbeTracker, type Reading, rest } from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { library } from '../support/insideLibrary.js';
import { syntheticLog } from '../support/syntheticLog.mjs';

const log = syntheticLog(library, 720_004);
const { roast, request, plan, readings, pullMinutes } = log;
const tracker = (): ProbeTracker => new ProbeTracker(roast, request, { plan });

/** The same roast on the board, from the true pull on, every half minute. */
const resting: Reading[] = (() => {
  const { run, at } = log;
  const startS = run.atS;
  const found: Reading[] = [];
  run.run(rest({ minutes: 40 }), {
    onStep: () => {
      const minutes = pullMinutes + (run.atS - startS) / 60;
      if (minutes > (found.at(-1)?.minutes ?? 0) + 0.5) {
        found.push({ minutes, centreC: run.temperatureOf(at) });
      }
      return false;
    },
  });
  return found;
})();

describe('live', () => {
  test('says what the fit of the whole log says', () => {
    const seen = readings.filter(({ minutes }) => minutes < 0.7 * pullMinutes);
    const live = tracker();
    for (const reading of seen) live.add(reading);
    const { pullMinutes: found } = live.estimate();
    const { pullMinutes: expected } = library.fitLog(roast, request, seen, { plan });
    expect(Math.abs(found.likely - expected.likely)).toBeLessThan(0.3);
    expect(Math.abs(found.high - expected.high)).toBeLessThan(0.6);
  });

  test('follows a cook to its pull without being fooled, whatever the order within a minute', () => {
    const live = tracker();
    let next = 5;
    for (let i = 0; i < readings.length; i += 3) {
      for (const late of [2, 0, 1]) {
        const reading = readings[i + late];
        if (reading !== undefined) live.add(reading);
      }
      if (readings[i].minutes < next) continue;
      next += 5;
      const found = live.estimate();
      expect(found.pulledAtMinutes).toBeUndefined();
      expect(found.remainingMinutes.low).toBeLessThanOrEqual(found.remainingMinutes.likely);
    }
    const last = live.estimate();
    expect(Math.abs(last.pullMinutes.likely - pullMinutes)).toBeLessThan(1.5);
    expect(last).toBe(live.estimate()); // nothing new, nothing computed
  });

  test('notices from the centre alone, within 25 minutes, that the roast was taken out', () => {
    const live = tracker();
    for (const reading of readings) live.add(reading);
    let noticed: number | undefined;
    for (const reading of resting) {
      live.add(reading);
      const { pulledAtMinutes } = live.estimate();
      if (pulledAtMinutes === undefined) continue;
      noticed = reading.minutes;
      expect(Math.abs(pulledAtMinutes - pullMinutes)).toBeLessThan(5);
      break;
    }
    expect(noticed).toBeLessThan(pullMinutes + 25);
    expect(live.estimate().remainingMinutes.likely).toBe(0);
  });

  test('an oven thermometer tells it within minutes, and tells a door from it', () => {
    const { ovenC } = request.heat;
    const live = tracker();
    const door = 0.5 * pullMinutes;
    for (const r of readings) {
      const open = r.minutes > door && r.minutes < door + 1.5;
      live.add({ ...r, ovenC: open ? ovenC - 60 : ovenC + 3 * Math.sin(r.minutes) });
    }
    const before = live.estimate();
    expect(before.pulledAtMinutes).toBeUndefined();
    expect(before.doorOpenedAtMinutes).toHaveLength(1);
    expect(Math.abs(before.doorOpenedAtMinutes[0] - door)).toBeLessThan(1.5);
    for (const r of resting.filter(({ minutes }) => minutes < pullMinutes + 6)) {
      live.add({ ...r, ovenC: 40 });
    }
    expect(Math.abs((live.estimate().pulledAtMinutes ?? 0) - pullMinutes)).toBeLessThan(1.5);
  });

  test('told of the pull it follows the rest to the peak', () => {
    const live = tracker();
    for (const reading of readings) live.add(reading);
    live.pulledAt(pullMinutes);
    for (const reading of resting) live.add(reading);
    const found = live.estimate();
    expect(found.pulledAtMinutes).toBe(pullMinutes);
    const seenC = Math.max(...resting.map(({ centreC }) => centreC));
    // the thermometer sits off the axis, where it is a little warmer at the pull and no cooler at the peak
    expect(Math.abs(found.peakC.likely - seenC)).toBeLessThan(2);
    expect(found.peakC.high - found.peakC.low).toBeLessThan(
      tracker().estimate().peakC.high - tracker().estimate().peakC.low,
    );
  });

  test('memory stays flat: of one-second readings a few of every half minute are kept', () => {
    const live = tracker();
    const kept = [0, 1, 2, 3, 4, 5].map((hour) => {
      let count = 0;
      for (let s = 0; s < 3600; s++) {
        if (live.add({ minutes: 60 * hour + s / 60, centreC: 20 + hour })) count++;
      }
      return count;
    });
    expect(new Set(kept)).toEqual(new Set([9 * 120]));
  });

  test('what cannot be a temperature or a time is passed over', () => {
    const live = tracker();
    const empty = live.estimate();
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, -300, 9000]) {
      expect(live.add({ minutes: 5, centreC: bad })).toBe(false);
    }
    expect(live.add({ minutes: Number.NaN, centreC: 20 })).toBe(false);
    expect(live.estimate()).toBe(empty);
  });
});
