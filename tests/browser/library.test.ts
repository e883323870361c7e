import * as library from '@roastsim/core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasChromium, needsChromium, testBrowser, type WatchedPage } from '../support/browser.js';
import { bundled } from '../support/bundle.js';

// The built library in a page, against the sources in Node. Engines need not agree on the last bit of a power or an exponential.

const LARGEST_DIFFERENCE = 1e-9; // relative

type Library = typeof library;

/** The default plan: everything a reader of it may look at. Stands alone, since a page gets only its text. */
function defaultPlan(lib: Library): unknown {
  const roast = lib.tenderloin({ massKg: 2.2 });
  const plan = lib.planCook(roast, {
    before: [lib.temper({ minutes: 30 })],
    heat: lib.roastIn({ ovenC: 230, until: { minutes: 0 } }),
    after: [lib.rest({ minutes: 20 })],
  });
  const { history, pull, peak, firstLook, afterPull, putBack, slices, loss, safety } = plan;
  const { axisC, frontC, outsideC, meanC, airC, wallC, vapourPa, rows } = history;
  const { stations } = history.body.body;
  const ends = [axisC, frontC, outsideC, meanC].map((series) => [
    ...series.slice((rows - 1) * stations),
  ]);
  const around = [airC, wallC, vapourPa].map((series) => series[rows - 1]);
  const { hottestC, evaporatedKg, drippedKg, water, deficit, endDeficit } = history;
  const fields = [hottestC, evaporatedKg, drippedKg, water, deficit, endDeficit].map((field) => [
    ...field,
  ]);
  const end = [history.seconds[rows - 1], history.steps, ends, around, fields, history.ledger];
  return { pull, peak, firstLook, afterPull, putBack, slices, loss, safety, end };
}

function guestSearch(lib: Library): unknown {
  const roast = lib.tenderloin({ massKg: 1.1, cut: 'centre' });
  const { best, others, plan, remedies } = lib.planForGuests(
    roast,
    {
      before: [lib.temper({ minutes: 30 })],
      heat: lib.roastIn({ ovenC: 200, until: { minutes: 0 } }),
      after: [lib.rest({ minutes: 15 })],
      wishes: [{ doneness: 'rare' }, { doneness: 'medium' }, { doneness: 58 }],
      vary: ['oven'],
    },
    { stations: 12, shells: 12 },
  );
  const of = ({ heatMinutes, slicePeakC, seating }: library.GuestOption) => [
    heatMinutes,
    [...slicePeakC],
    seating.places.map(({ slice, missK }) => [slice, missK]),
  ];
  return [of(best), others.map(of), plan.pull, remedies.length];
}

function interval(lib: Library): unknown {
  const roast = lib.tenderloin({ massKg: 2.2 });
  const request = {
    before: [lib.temper({ minutes: 30 })],
    heat: lib.roastIn({ ovenC: 230, until: { minutes: 0 } }),
    after: [lib.rest({ minutes: 20 })],
  };
  return lib.quickInterval(lib.planCook(roast, request), request);
}

/** Largest relative difference of two sets of figures, and where. Words, and what is there at all, must agree. */
function difference(
  a: unknown,
  b: unknown,
  path = '',
): { readonly at: string; readonly by: number } {
  if (typeof a === 'number' && typeof b === 'number') {
    const size = Math.max(Math.abs(a), Math.abs(b));
    return { at: path, by: a === b ? 0 : Math.abs(a - b) / size };
  }
  if (typeof a !== 'object' || a === null || typeof b !== 'object' || b === null) {
    expect(b, path).toBe(a);
    return { at: path, by: 0 };
  }
  expect(Object.keys(b).sort(), path).toEqual(Object.keys(a).sort());
  return Object.keys(a)
    .map((key) => difference(a[key as keyof typeof a], b[key as keyof typeof b], `${path}.${key}`))
    .reduce((most, next) => (next.by > most.by ? next : most), { at: path, by: 0 });
}

const count = (a: unknown): number =>
  typeof a === 'object' && a !== null
    ? Object.values(a).reduce((sum: number, value) => sum + count(value), 0)
    : Number(typeof a === 'number');

describe.skipIf(!hasChromium)(`the library in a browser${needsChromium}`, () => {
  const browser = testBrowser();
  let watched: WatchedPage;
  beforeAll(async () => {
    const { text } = await bundled("export * from '@roastsim/core';", undefined, 'roastsim');
    watched = await browser.open(`<!doctype html><title>roastsim</title><script>${text}</script>`);
  });
  afterAll(() => watched.page.close());

  test.each([
    ['the default plan', defaultPlan, 2000],
    ['a search for guests', guestSearch, 40],
    ['an interval', interval, 10],
  ] as const)('%s has the numbers of Node', { timeout: 120_000 }, async (_name, work, least) => {
    const there = await watched.page.evaluate(`(${work})(roastsim)`);
    const here: unknown = JSON.parse(JSON.stringify(work(library)));
    expect(count(here)).toBeGreaterThan(least);
    const { at, by } = difference(here, JSON.parse(JSON.stringify(there)));
    console.log(`${count(here)} numbers, largest relative difference ${by.toExponential(1)} ${at}`);
    expect(by, at).toBeLessThan(LARGEST_DIFFERENCE);
    expect(watched.doings).toEqual([]);
  });
});
