// Makes the invented thermometer logs of data/demo from simulated cooks with known faults, always the same:
//   node tests/support/demoLogs.mjs        (after a build)
// Plain JavaScript, so that it runs without a build step of its own.

import { writeFile } from 'node:fs/promises';
import { pathToFileURL } from 'node:url';
import { randomFrom } from './syntheticLog.mjs';

/** @typedef {import('./syntheticLog.mjs').Library} Library */

/**
 * A reading of a simulated cook.
 *
 * @typedef {object} Shown
 * @property {number} minutes - since the roast went into the oven
 * @property {number} centreC
 * @property {number} ovenC
 */

/**
 * Cooks the demo roast (2.2 kg, 30 min on the counter, oven set to 200 °C) with deviations and reads it every `stepS` seconds.
 *
 * @param {Library} lib
 * @param {{ by?: Partial<import('@roastsim/core').Deviations>, pullC: number, restMinutes: number, stepS: number, seed: number }} cook
 * @returns {Shown[]}
 */
export function cooked(lib, { by = {}, pullC, restMinutes, stepS, seed }) {
  const random = randomFrom(lib, seed);
  const normal = () => lib.normalDeviate(random());
  const roast = lib.tenderloin({ massKg: 2.2 });
  const all = { ...lib.NO_DEVIATION, ...by };
  const { roast: other, options } = lib.varied(roast, {}, all);
  const body = lib.thickened(lib.bodyOf(other, { stations: 24, shells: 24 }), all.size);
  const run = new lib.CookRun(other, { ...options, body, longestStepS: 5 });
  const cuts = lib.cutsOf(roast, lib.PORTION_KG);
  const at = { atMm: cuts[Math.floor((cuts.length - 1) / 2)].middleMm, offAxis: all.probe };
  run.run(lib.temper({ minutes: 30 }));
  const startS = run.atS;
  /** @type {{ s: number, centreC: number, ovenC: number }[]} */
  const rows = [];
  let inOven = true;
  const note = () => {
    const s = run.atS - startS;
    const airC = inOven ? 200 + all.ovenOffset - 28 * Math.exp(-s / 180) : 24;
    rows.push({ s, centreC: run.temperatureOf(at), ovenC: airC });
    return false;
  };
  note();
  run.run(lib.roastIn({ ovenC: 200, until: { reachesC: pullC, at } }), { onStep: note });
  inOven = false;
  run.run(lib.rest({ minutes: restMinutes }), { onStep: note });
  const shown = [];
  for (let s = 0, row = 1; s <= rows[rows.length - 1].s; s += stepS) {
    while (rows[row].s < s) row++;
    const part = (s - rows[row - 1].s) / (rows[row].s - rows[row - 1].s);
    const between = (/** @type {'centreC' | 'ovenC'} */ of) =>
      rows[row - 1][of] + part * (rows[row][of] - rows[row - 1][of]);
    shown.push({
      minutes: s / 60,
      centreC: between('centreC') + 0.15 * normal(),
      ovenC: between('ovenC') + 4 * Math.sin(s / 140) + normal(),
    });
  }
  return shown;
}

/** The three cooks: what is true about them, and what the log has to find out. */
export const COOKS = {
  good: {
    by: { ovenOffset: -4, size: 1.03, probe: 0.06 },
    pullC: 44,
    restMinutes: 12,
    stepS: 10,
    seed: 11,
  },
  slowOven: {
    by: { ovenOffset: -22, wallOffset: -6, size: 1.04, probe: 0.08 },
    pullC: 44,
    restMinutes: 1,
    stepS: 30,
    seed: 12,
  },
  messy: {
    by: { ovenOffset: 6, size: 0.97, probe: 0.1 },
    pullC: 44,
    restMinutes: 1,
    stepS: 15,
    seed: 13,
  },
};

const two = (/** @type {number} */ x) => String(x).padStart(2, '0');

/** @param {number} startMinutes - of the day @param {number} minutes */
function clock(startMinutes, minutes) {
  const s = Math.round(60 * (startMinutes + minutes)) % 86_400;
  return `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
}

const fahrenheit = (/** @type {number} */ c) => 1.8 * c + 32;

/** The oven a little weak, everything else as said; the log goes on ten minutes into the rest. @param {Library} lib */
function goodCook(lib) {
  const shown = cooked(lib, COOKS.good);
  const lines = shown.map(
    ({ minutes, centreC, ovenC }) =>
      `${clock(17 * 60 + 12, minutes)},${centreC.toFixed(1)},${ovenC.toFixed(0)}`,
  );
  return ['time,centre C,oven C', ...lines, ''].join('\n');
}

/** An oven that runs 22 °C cool; its first 36 minutes. @param {Library} lib */
function slowOven(lib) {
  const shown = cooked(lib, COOKS.slowOven);
  const lines = shown
    .filter(({ minutes }) => minutes <= 36)
    .map(
      ({ minutes, centreC, ovenC }) =>
        `2026-12-24T${clock(17 * 60 + 40, minutes)},${centreC.toFixed(1)},${ovenC.toFixed(0)}`,
    );
  return ['timestamp,probe 1 (°C),ambient (°C)', ...lines, ''].join('\n');
}

/** Everything that goes wrong with a log, and two looks into the oven; over midnight and in Fahrenheit. @param {Library} lib */
function messyCook(lib) {
  const random = randomFrom(lib, 21);
  const shown = cooked(lib, COOKS.messy).filter(({ minutes }) => minutes < 34);
  /** @type {string[]} */
  const lines = [];
  for (const { minutes, centreC, ovenC } of shown) {
    if (minutes > 20 && minutes < 23.5) continue; // the logger slept
    const looked = [12, 27].find((at) => minutes >= at && minutes < at + 2);
    const oven = looked === undefined ? ovenC : ovenC - 70 * Math.exp(-(minutes - looked));
    const out = minutes > 15 && minutes < 16.2; // the probe was pulled out and put back
    const centre = out ? 96 + 8 * random() : minutes < 2 ? Number.NaN : centreC;
    const spike = random() < 0.02 ? 40 * (random() - 0.3) : 0;
    const cell = Number.isNaN(centre) ? '--' : fahrenheit(centre + spike).toFixed(1);
    const line = `${clock(23 * 60 + 38, minutes)};${cell.replace('.', ',')};${fahrenheit(oven).toFixed(0)}`;
    lines.push(line);
    if (random() < 0.05) lines.push(line); // sent twice
    if (random() < 0.03) lines.push('#reconnect', `${clock(23 * 60 + 38, minutes)};E04;`);
  }
  for (let i = 8; i < lines.length - 8; i += 37) {
    [lines[i], lines[i + 2]] = [lines[i + 2], lines[i]]; // late packets
  }
  return ['\ufeffClock;Core temp (F);Oven temp (F)', ...lines, ''].join('\r\n');
}

/** The logs by the name of their file. @param {Library} lib @returns {Record<string, string>} */
export const demoLogs = (lib) => ({
  'probe-good.csv': goodCook(lib),
  'probe-slow-oven.csv': slowOven(lib),
  'probe-messy.csv': messyCook(lib),
});

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  /** @param {string} file */
  const built = (file) => import(new URL(`../../packages/core/dist/${file}`, import.meta.url).href);
  const { mixBits, normalDeviate } = await built('numerics/index.js');
  const { thickened } = await built('cook/index.js');
  const lib = { ...(await built('index.js')), mixBits, normalDeviate, thickened };
  for (const [name, text] of Object.entries(demoLogs(lib))) {
    await writeFile(new URL(`../../data/demo/${name}`, import.meta.url), text);
  }
}
