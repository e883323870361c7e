import {
  type InputName,
  type Interval,
  type Narrowing,
  type Plan,
  type Share,
  type Spread,
  temperatureText,
  type UnitSystem,
} from '@roastsim/core';
import type { Forecast, SureForecast } from '../ask/forecast.js';
import { rangeText } from './range.js';
import { initials } from './section.js';
import { paragraph } from './wrap.js';

/** What the spread comes from, after "Most of this is". */
const CAUSES: Readonly<Record<InputName, string>> = {
  size: 'how thick the roast is for its weight and length',
  modelTime: 'the model itself',
  conductivity: 'how well this piece of meat conducts heat',
  vent: 'how well your oven is vented',
  ovenOffset: "your oven's thermostat",
  wallOffset: "your oven's walls and elements",
  probe: "where the thermometer's tip sits",
  heatCapacity: 'how much heat this piece of meat takes',
  film: 'how the air moves in your oven',
  crustVapour: 'how the crust dries',
  start: 'how cold the meat was at the start',
  emissivity: 'how the surface takes up radiation',
  crustHeat: 'how the crust insulates',
  juice: 'how much juice runs out',
  juiceDelay: 'how fast juice runs out',
  juiceShare: 'where juice runs out',
  modelRise: 'how far the model lets it climb',
};

const MEASURES: Readonly<Record<Narrowing['advice'], string>> = {
  'measure-girth': 'a tape round the roast (--girth)',
  'oven-thermometer': 'an oven thermometer for a few euros',
};

const WORTH_SAYING = 0.05; // of the range's width
const HALF = [0.45, 0.58] as const; // what may be called half

/** One sentence on what the spread comes from and what would narrow it. */
export function driverText(shares: readonly Share[], narrowings: readonly Narrowing[]): string {
  const [{ input, share }] = shares;
  const part = share >= 0.5 ? 'Most of this' : 'The largest part of this';
  const [best] = narrowings;
  const says = `${part} (${Math.round(100 * share)} %) is ${CAUSES[input]}`;
  if (best === undefined || best.share < WORTH_SAYING) return `${says}.`;
  const effect =
    best.share >= HALF[0] && best.share <= HALF[1]
      ? 'halve the range'
      : `narrow the range by ${Math.round(100 * best.share)} %`;
  return `${says}; ${MEASURES[best.advice]} would ${effect}.`;
}

/** What came out of the many cooks, 80 columns wide. */
export function sureReport(
  plan: Plan,
  { interval, sure }: Forecast & { readonly sure: SureForecast },
  units: UnitSystem,
): string {
  const { ensemble, level, narrowings } = sure;
  const cooks = ensemble.members.toLocaleString('en-GB');
  return [
    `How sure: ${Math.round(100 * level)} % of ${cooks} simulated cooks lie within these ranges`,
    ...(ensemble.unreached === 0
      ? []
      : [
          paragraph(
            '  ! ',
            `in ${ensemble.unreached} of them the thermometer never shows the pull.`,
          ),
        ]),
    `  Pull after ${rangeText(interval)}.`,
    `  Peak ${temperatureSpan(ensemble.peakC, units)}, most likely ${temperatureText(ensemble.peakC.likely, units)}.`,
    '',
    chances(plan, ensemble.slices, units),
    '',
    paragraph('  ', driverText(ensemble.shares, narrowings)),
  ].join('\n');
}

/** `51 to 61 °C`. */
export function temperatureSpan(
  { intervals }: { readonly intervals: readonly Interval[] },
  units: UnitSystem,
): string {
  const [{ low, high }] = intervals;
  return `${temperatureText(low, units).replace(/ °[CF]$/, '')} to ${temperatureText(high, units)}`;
}

/** For every slice: the range of its peak, and the chance of each band. */
function chances(
  { aim }: Plan,
  slices: readonly { readonly peakC: Spread; readonly bandShares: readonly number[] }[],
  units: UnitSystem,
): string {
  const { bands } = aim.scale;
  const shown = bands
    .map((band, i) => ({ band, i }))
    .filter(({ i }) => slices.some(({ bandShares }) => bandShares[i] >= 0.005));
  const cell = (text: string): string => text.padStart(6);
  const head = `  slice  peak ${''.padEnd(9)}${shown.map(({ band }) => cell(initials(band.name))).join('')}`;
  const rows = slices.map(({ peakC, bandShares }, slice) => {
    const cells = shown.map(({ i }) => {
      const percent = Math.round(100 * bandShares[i]);
      return cell(percent === 0 ? '-' : `${percent} %`);
    });
    return `  ${String(slice + 1).padStart(5)}  ${temperatureSpan(peakC, units).padEnd(14)}${cells.join('')}`;
  });
  const key = shown.map(({ band }) => `${initials(band.name)} ${band.name}`).join(', ');
  return [head, ...rows, paragraph('  ', `Chance of each band: ${key}.`)].join('\n');
}
