import {
  type CourseAdvice,
  cautions,
  durationText,
  type Estimate,
  type OvenChange,
  type Plan,
  riseText,
  sayWarning,
  temperatureText,
  thicknessText,
  type UnitSystem,
} from '@roastsim/core';
import type { Colors } from 'picocolors/types.js';
import type { CourseView } from '../ask/course.js';
import { sayBeliefs } from './probeBeliefs.js';
import { roastTitle } from './text.js';
import { COLUMNS, paragraph } from './wrap.js';

/** How to say it. */
export interface ProbeWords {
  readonly units: UnitSystem;
  readonly colors: Colors;
  /** Serving time as it was typed. */
  readonly serve?: string;
}

const DAY_MINUTES = 24 * 60;
const two = (value: number): string => String(value).padStart(2, '0');

/** `18:07`. */
export function clockText(minutes: number): string {
  const whole = Math.round(minutes);
  const ofDay = ((whole % DAY_MINUTES) + DAY_MINUTES) % DAY_MINUTES;
  return `${two(Math.floor(ofDay / 60))}:${two(ofDay % 60)}`;
}

const bare = (text: string): string => text.replace(/ °[CF]$/, '');

/** `9 to 14 min`, rounded outwards; `9 min or more`. */
function minutesSpan({ low, high }: Estimate): string {
  const [from, to] = [Math.floor(low), Math.ceil(high)];
  if (!Number.isFinite(to)) return `${durationText(from)} or more`;
  return to < 100 ? `${from} to ${to} min` : `${durationText(from)} to ${durationText(to)}`;
}

const peakSpan = ({ low, high }: Estimate, units: UnitSystem): string =>
  `${bare(temperatureText(low, units))} to ${temperatureText(high, units)}`;

/** Notices that must never be missing, as in a plan. */
const notices = (plan: Plan, units: UnitSystem): string[] =>
  plan.warnings.map((warning) => paragraph('! ', sayWarning(warning, units)));

function title(plan: Plan, { units, colors }: ProbeWords): string {
  const { aim } = plan;
  const wanted =
    aim.at === 'coldest'
      ? `at least ${temperatureText(aim.targetC, units)} throughout (strict safety rules)`
      : `wanted ${aim.band.name} (${temperatureText(aim.targetC, units)})`;
  return colors.bold(paragraph('', `${roastTitle(plan, units)}; ${wanted}`));
}

/** What stands above the lines of a log that runs. */
export function probeHead(plan: Plan, words: ProbeWords): string {
  return [title(plan, words), '', ...notices(plan, words.units), '', ''].join('\n');
}

/** What a log says, 80 columns wide. */
export function probeReport(view: CourseView, words: ProbeWords): string {
  const { plan, estimate } = view;
  const { units } = words;
  const beliefs = sayBeliefs(estimate.beliefs, plan, units);
  const doors = estimate.doorOpenedAtMinutes.map((minutes) => Math.round(minutes));
  const parts = [
    title(plan, words),
    [...state(view, words), ...outlook(view, words)].join('\n'),
    ...contradiction(view),
    ...view.advice.map((advice) => sayAdvice(advice, words)),
    [
      ...(beliefs.length === 0
        ? ['The log fits what was said and usual; nothing stands out.']
        : ['What explains the log best:', ...beliefs.map((belief) => paragraph('  - ', belief))]),
      ...(doors.length === 0
        ? []
        : [paragraph('', `The oven was opened after ${listed(doors)} min.`)]),
      `Read: ${estimate.samples} minutes with a reading.`,
    ].join('\n'),
    ...notices(plan, units),
    ['Take care', ...cautions(units).map(({ text }) => paragraph('  - ', text))].join('\n'),
  ];
  return `${parts.join('\n\n')}\n`;
}

const listed = (values: readonly number[]): string =>
  values.length === 1
    ? String(values[0])
    : `${values.slice(0, -1).join(', ')} and ${values[values.length - 1]}`;

/** What the thermometers show, and where the roast is. */
function state(view: CourseView, { units }: ProbeWords): string[] {
  const { nowMinutes, centreC, secondC, ovenC, estimate, plan } = view;
  const where =
    nowMinutes < 0
      ? `${durationText(-nowMinutes)} before the ${heatWord(plan)}`
      : estimate.pulledAtMinutes === undefined
        ? `${durationText(nowMinutes)} in the ${heatWord(plan)}`
        : `${durationText(Math.max(0, nowMinutes - estimate.pulledAtMinutes))} after the pull`;
  const shown = [
    ['the middle', centreC],
    ['the second probe', secondC],
    ['the oven', ovenC],
  ] as const;
  const texts = shown
    .filter(([, c]) => !Number.isNaN(c))
    .map(([what, c], i) => `${what} ${i === 0 ? 'shows ' : ''}${temperatureText(c, units)}`);
  const said = texts.length === 0 ? 'no thermometer shows anything' : texts.join(', ');
  return [paragraph('  ', `${where}: ${said}.`)];
}

const heatWord = ({ history, pull }: Plan): 'oven' | 'bath' =>
  history.stages.find(({ lastRow }) => lastRow === pull.row)?.stage.kind === 'bath'
    ? 'bath'
    : 'oven';

/** When to pull, and the peak to expect. */
function outlook(view: CourseView, { units, colors, serve }: ProbeWords): string[] {
  const { plan, estimate, remaining, clockAt, clockFrom, lateMinutes } = view;
  const temp = (c: number): string => temperatureText(c, units);
  const peak = Number.isFinite(estimate.peakC.likely)
    ? [`  Peak to expect: ${temp(estimate.peakC.likely)} (${peakSpan(estimate.peakC, units)}).`]
    : [];
  const pulled = estimate.pulledAtMinutes;
  if (pulled !== undefined) {
    const at = clockAt === undefined ? '' : `, at ${clockText(clockAt(pulled))}`;
    const pull = `Taken out after ${durationText(pulled)}${at}; planned was ${durationText(plan.pull.minutes)}.`;
    return [paragraph('  ', pull), ...peak];
  }
  const { likely } = remaining;
  if (!Number.isFinite(likely)) {
    return [
      colors.bold(
        paragraph('  ', `As it goes, the middle never shows ${temp(plan.pull.centreC)}.`),
      ),
    ];
  }
  const at = clockAt === undefined ? '' : `, at ${clockText(clockAt(view.nowMinutes + likely))}`;
  const when =
    likely < 0.5
      ? waitsFor(view)
        ? `At the planned pull: the middle is at ${temp(plan.pull.centreC)}.`
        : `PULL NOW: the middle is at ${temp(plan.pull.centreC)}.`
      : `PULL at ${temp(plan.pull.centreC)} in ${durationText(likely)}${at}; 9 in 10: in ${minutesSpan(remaining)}.`;
  const { pullMinutes } = estimate;
  const turned = view.advice.some(({ code }) => code !== 'pull-now'); // says how late it is itself
  const planned = `Planned after ${durationText(plan.pull.minutes)} in the ${heatWord(plan)}; it looks like ${durationText(pullMinutes.likely)} (${minutesSpan(pullMinutes)}).`;
  return [
    colors.bold(paragraph('  ', when)),
    paragraph('  ', planned),
    ...peak,
    ...better(view, units),
    ...(serve === undefined || lateMinutes === undefined || turned
      ? []
      : [paragraph('  ', `${punctual(lateMinutes)} for ${serve}.${PRESUMED[clockFrom ?? 'log']}`)]),
  ];
}

/** Whether the planned peak needs a hotter pull than the planned one, and that is still to come. */
const waitsFor = ({ plan, estimate: { betterPull }, nowMinutes }: CourseView): boolean =>
  betterPull !== undefined &&
  betterPull.centreC > plan.pull.centreC &&
  betterPull.minutes > nowMinutes;

/** The pull that would meet the planned peak, where the planned one is believed to miss it. */
function better({ plan, estimate, nowMinutes, clockAt }: CourseView, units: UnitSystem): string[] {
  const { betterPull } = estimate;
  if (betterPull === undefined) return [];
  const { centreC, minutes } = betterPull;
  const temp = (c: number): string => temperatureText(c, units);
  const peak = temp(plan.peak.centreC);
  const left = minutes - nowMinutes;
  if (left < -0.5) {
    return [
      paragraph(
        '  ',
        `The pull for a peak of ${peak}, at ${temp(centreC)}, is past: the sooner it is out, the nearer.`,
      ),
    ];
  }
  const at = clockAt === undefined ? '' : `, at ${clockText(clockAt(minutes))}`;
  const when = left < 0.5 ? 'now' : `in ${durationText(left)}${at}`;
  const what =
    centreC > plan.pull.centreC
      ? `leave it in until ${temp(centreC)}`
      : `take it out at ${temp(centreC)} already`;
  return [paragraph('  ', `For a peak of ${peak} ${what}: ${when}.`)];
}

const PRESUMED = {
  log: '',
  here: '',
  plan: ' (The log has no clock: taken as begun on time.)',
} as const;

function punctual(lateMinutes: number): string {
  const minutes = Math.round(Math.abs(lateMinutes));
  if (minutes < 1) return 'Just in time';
  return `About ${durationText(minutes)} ${lateMinutes > 0 ? 'late' : 'early'}`;
}

function contradiction({ estimate }: CourseView): string[] {
  if (!estimate.contradicts) return [];
  return [
    paragraph(
      '! ',
      'The log contradicts the model and what was said about roast and oven, so the ranges are widened: go by the thermometer, ' +
        'not by these minutes. Check the weight, the oven setting, when the log began (--log-start), its units (--log-units), ' +
        "and that the thermometer's tip is in the middle.",
    ),
  ];
}

/** One piece of advice in a sentence or two. */
export function adviceSentence(advice: CourseAdvice, { units, serve }: ProbeWords): string {
  const temp = (c: number): string => temperatureText(c, units);
  if (advice.code === 'pull-now') {
    return (
      `The middle is ${riseText(advice.pastK, units)} past the pull: take it out now and do not cover it. Uncovered it should peak ` +
      `at ${temp(advice.openPeakC)}, under foil at ${temp(advice.peakC)} (simulated from here).`
    );
  }
  const { changes, lateMinutes, stay } = advice;
  const ways = changes.map(
    ({ ovenC, gainMinutes, pullC, rimMm }) =>
      `at ${temp(ovenC)} ${Math.abs(gainMinutes).toFixed(0)} min ${gainMinutes > 0 ? 'sooner' : 'later'}, pull at ` +
      `${temp(pullC)}, done through outside ${thicknessText(rimMm, units)}`,
  );
  return (
    `${punctual(lateMinutes)}${serve === undefined ? '' : ` for ${serve}`}. From now on: ${ways.join('; ')}. Left at ` +
    `${temp(stay.ovenC)}: ${thicknessText(stay.rimMm, units)} (simulated).`
  );
}

/** Advice as the report shows it. */
export function sayAdvice(advice: CourseAdvice, words: ProbeWords): string {
  if (advice.code === 'pull-now') return paragraph('! ', adviceSentence(advice, words));
  const { units, serve } = words;
  const temp = (c: number): string => temperatureText(c, units);
  const { stay, changes, lateMinutes } = advice;
  const way = advice.code === 'hotter' ? 'hotter' : 'cooler';
  const gains = way === 'hotter' ? 'sooner' : 'later';
  const wish = serve === undefined ? '' : ` for ${serve}`;
  const row = (cells: readonly string[]): string =>
    `  ${cells.map((cell, i) => (i === 0 ? cell.padEnd(10) : cell.padStart(11))).join('')}`.trimEnd();
  const line = (change: OvenChange): string =>
    row([
      temp(change.ovenC),
      `${Math.round(change.minutes)} min`,
      change === stay ? '-' : `${Math.abs(change.gainMinutes).toFixed(0)} min`,
      temp(change.pullC),
      thicknessText(change.rimMm, units),
      riseText(change.spreadK, units),
    ]);
  return [
    paragraph(
      '',
      `${punctual(lateMinutes)}${wish}. A ${way} oven from now on, simulated (same peak; rim: done through outside, at the aimed-at ` +
        'slice; apart: from the least to the most done slice):',
    ),
    row(['oven', 'pull in', gains, 'pull at', 'rim', 'apart']),
    ...[stay, ...changes].map(line),
  ].join('\n');
}

/** The same in one line of at most 80 columns. */
export function liveLine(view: CourseView, { units }: ProbeWords): string {
  const { plan, nowMinutes, centreC, estimate, remaining, clockAt, lateMinutes, advice } = view;
  const temp = (c: number, digits = 0): string => temperatureText(c, units, digits);
  const seconds = Math.floor(60 * Math.abs(nowMinutes));
  const time = `${nowMinutes < 0 ? '-' : ''}${Math.floor(seconds / 60)}:${two(seconds % 60)}`;
  const shown = Number.isNaN(centreC) ? '--' : temp(centreC, 1);
  const pulled = estimate.pulledAtMinutes;
  const { peakC } = estimate;
  const peak = Number.isFinite(peakC.likely)
    ? `peak ${bare(temp(peakC.likely))} (${bare(temp(peakC.low))}-${bare(temp(peakC.high))})`
    : '';
  const pull = (): string => {
    const { low, likely, high } = remaining;
    if (advice.some(({ code }) => code === 'pull-now')) return 'PULL NOW, no foil';
    if (!Number.isFinite(likely)) return `never ${temp(plan.pull.centreC)}`;
    if (likely < 0.5) return waitsFor(view) ? 'at the planned pull' : 'PULL NOW';
    const to = Number.isFinite(high) ? `-${Math.ceil(high)}` : '+';
    const at = clockAt === undefined ? '' : `, ${clockText(clockAt(nowMinutes + likely))}`;
    return `pull ${bare(temp(plan.pull.centreC))} in ${Math.round(likely)} min (${Math.floor(low)}${to})${at}`;
  };
  const parts = [
    `${time}  ${shown}`,
    pulled === undefined ? pull() : `out since ${Math.round(nowMinutes - pulled)} min`,
    peak,
    ...(estimate.betterPull !== undefined && estimate.betterPull.minutes > nowMinutes
      ? [`for ${bare(temp(plan.peak.centreC))}: pull ${bare(temp(estimate.betterPull.centreC))}`]
      : []),
    ...(lateMinutes !== undefined && Math.abs(lateMinutes) >= 2
      ? [`${Math.round(Math.abs(lateMinutes))} min ${lateMinutes > 0 ? 'late' : 'early'}`]
      : []),
    ...(estimate.contradicts ? ['log contradicts!'] : []),
  ];
  const line = parts.filter((part) => part !== '').join('  ');
  return [...line].slice(0, COLUMNS - 1).join('');
}
