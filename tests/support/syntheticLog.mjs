// Cooks whose truth is known, to try the fit of a thermometer's log on. Plain JavaScript, so that the script in tests/bench can
// use it without a build step of its own; the library is handed in.

/**
 * The library, and what it keeps to itself.
 *
 * @typedef {typeof import('@roastsim/core')
 *   & Pick<typeof import('../../packages/core/src/cook/index.js'), 'thickened'>
 *   & Pick<typeof import('../../packages/core/src/numerics/index.js'), 'mixBits' | 'normalDeviate'>} Library
 */

/**
 * Uniform random numbers above 0 and below 1: a hash of a counter.
 *
 * @param {Library} lib
 * @param {number} seed
 * @returns {() => number}
 */
export function randomFrom({ mixBits }, seed) {
  let count = 0;
  const start = mixBits(seed + 0x5bd1e995);
  return () => (mixBits(start ^ mixBits(++count * 0x9e3779b1)) + 0.5) / 2 ** 32;
}

/**
 * A cook drawn from the priors, errors of the model included, and what a thermometer showed every ten seconds. Its structure is not
 * that of the fit: heat along the axis, a finer mesh, shorter steps, crust, juice and carryover parameters that are not fitted, a
 * thermometer 3 to 12 mm off the axis with noise of 0.3 K and a drift of up to 0.5 K.
 *
 * @param {Library} lib
 * @param {number} seed
 */
export function syntheticLog(lib, seed) {
  const random = randomFrom(lib, seed);
  /** @param {number} low @param {number} high */
  const between = (low, high) => low + (high - low) * random();
  const normal = () => lib.normalDeviate(random());
  /** @type {import('@roastsim/core').TenderloinCut} */
  const cut = /** @type {const} */ (['whole', 'whole', 'centre', 'butt'])[Math.floor(4 * random())];
  const [lightKg, heavyKg] = lib.CUTS[cut].usualKg;
  const roast = lib.tenderloin({ cut, massKg: between(lightKg, heavyKg) });
  const fan = random() < 0.25;
  const request = {
    before: [lib.temper({ minutes: 30 })],
    heat: lib.roastIn({ ovenC: between(150, fan ? 220 : 240), fan, until: { minutes: 0 } }),
    after: [lib.rest({ minutes: 20 })],
    aim: { doneness: between(50, 62) },
  };
  const plan = lib.planCook(roast, request, { stations: 16, shells: 16 });

  const priors = lib.priorsFor(roast, request.heat);
  const by = lib.deviationsOf(
    priors,
    lib.INPUTS.map(() => normal()),
  );
  const { roast: other, options } = lib.varied(roast, {}, by);
  const mesh = { stations: 24, shells: 24 };
  const body = lib.thickened(lib.bodyOf(other, mesh), by.size);
  const run = new lib.CookRun(other, { ...options, body, longestStepS: 10 });
  const { atMm } = plan.aim.point;
  const radiusMm =
    (typeof atMm === 'number' ? lib.diameterAt(roast.profile, atMm / 1000) : 0.08) * 500 * by.size;
  const at = { atMm, offAxis: Math.min(0.9, between(3, 12) / radiusMm) };
  const drift = {
    size: between(-0.5, 0.5),
    phase: between(0, 6.3),
    periodMinutes: between(30, 120),
  };
  /** @param {number} minutes */
  const driftAt = (minutes) =>
    drift.size * Math.sin(drift.phase + (6.2832 * minutes) / drift.periodMinutes);

  for (const stage of request.before) run.run(stage);
  const startS = run.atS;
  const heatStart = run.save();
  /** @type {number[]} */
  const minutes = [0];
  const shown = [run.temperatureOf(at) + driftAt(0)];
  const pullC = plan.pull.centreC;
  run.run(
    { ...request.heat, until: { minutes: 12 * 60 } },
    {
      onStep: () => {
        const now = (by.modelTime * (run.atS - startS)) / 60;
        minutes.push(now);
        shown.push(run.temperatureOf(at) + driftAt(now));
        return shown[shown.length - 1] >= pullC;
      },
    },
  );
  const last = shown.length - 1;
  const reached = shown[last] >= pullC;
  const part = (pullC - shown[last - 1]) / (shown[last] - shown[last - 1]);
  const pullMinutes = minutes[last - 1] + part * (minutes[last] - minutes[last - 1]);
  /** @type {{ minutes: number; centreC: number }[]} */
  const readings = [];
  for (let m = 0, row = 1; m < pullMinutes; m += 1 / 6) {
    while (minutes[row] < m) row++;
    const share = (m - minutes[row - 1]) / (minutes[row] - minutes[row - 1]);
    const centreC = shown[row - 1] + share * (shown[row] - shown[row - 1]) + 0.3 * normal();
    readings.push({ minutes: m, centreC });
  }
  /**
   * Peak of the true axis when the roast is taken out as soon as the thermometer shows `pulledC`; NaN where it never does.
   *
   * @param {number} pulledC
   */
  const peakAfter = (pulledC) => {
    run.restore(heatStart);
    let there = false;
    run.run(
      { ...request.heat, until: { minutes: 12 * 60 } },
      {
        onStep: () => {
          const now = (by.modelTime * (run.atS - startS)) / 60;
          there = run.temperatureOf(at) + driftAt(now) >= pulledC;
          return there;
        },
      },
    );
    if (!there) return Number.NaN;
    const axis = { atMm };
    const pullC = run.temperatureOf(axis);
    let peakC = pullC;
    for (const stage of request.after) {
      run.run(stage, {
        onStep: () => {
          peakC = Math.max(peakC, run.temperatureOf(axis));
          return false;
        },
      });
    }
    return pullC + by.modelRise * (peakC - pullC);
  };
  const offAxis = at.offAxis;
  return { roast, request, plan, readings, pullMinutes, reached, by, offAxis, run, at, peakAfter };
}

/**
 * Peaks of the true cook after the planned pull and after the one that the fit offers, where it offers one.
 *
 * @param {Library} lib
 * @param {readonly number[]} seeds
 * @param {number} share - of the oven time that has passed
 */
export function tryBetterPulls(lib, seeds, share) {
  return seeds.flatMap((seed) => {
    const log = syntheticLog(lib, seed);
    if (!log.reached) return [];
    const nowMinutes = share * log.pullMinutes;
    const seen = log.readings.filter((reading) => reading.minutes <= nowMinutes);
    const { betterPull } = lib.fitLog(log.roast, log.request, seen, { plan: log.plan, nowMinutes });
    if (betterPull === undefined) return [{ seed, offered: false, planned: 0, better: 0 }];
    const wishedC = log.plan.peak.centreC;
    return [
      {
        seed,
        offered: true,
        planned: log.peakAfter(log.plan.pull.centreC) - wishedC,
        better: log.peakAfter(betterPull.centreC) - wishedC,
      },
    ];
  });
}

/**
 * What the fit makes of the first part of each log.
 *
 * @param {Library} lib
 * @param {readonly number[]} seeds
 * @param {readonly number[]} shares - of the oven time that has passed
 */
export function tryFits(lib, seeds, shares) {
  return seeds.flatMap((seed) => {
    const log = syntheticLog(lib, seed);
    if (!log.reached) return [];
    const { pullMinutes, plan } = log;
    return [
      shares.map((share) => {
        const nowMinutes = share * pullMinutes;
        const seen = log.readings.filter((reading) => reading.minutes <= nowMinutes);
        const fit = lib.fitLog(log.roast, log.request, seen, { plan, nowMinutes });
        const { low, likely, high } = fit.pullMinutes;
        return {
          seed,
          share,
          covered: low <= pullMinutes && pullMinutes <= high,
          below: pullMinutes < low,
          error: Math.abs(likely - pullMinutes) / pullMinutes,
          signed: (likely - pullMinutes) / pullMinutes,
          width: (high - low) / pullMinutes,
          misfit: fit.misfit,
          contradicts: fit.contradicts,
        };
      }),
    ];
  });
}
