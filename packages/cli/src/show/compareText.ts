import {
  type CookedWay,
  cautions,
  fahrenheitRise,
  SAFETY_LIMITS,
  temperatureText,
  type UnitSystem,
  type WayPiece,
} from '@roastsim/core';
import type { Colors } from 'picocolors/types.js';
import {
  aimText,
  bathsSaid,
  type Comparison,
  conclusionOf,
  hoursText,
  isCooked,
  letterOf,
  percent,
  warningsSaid,
  wayLine,
} from './comparison.js';
import { roastTitle } from './text.js';
import { COLUMNS, paragraph } from './wrap.js';

/** Ways side by side as a cook reads them, 80 columns wide. */
export function compareReport(comparison: Comparison, colors: Colors): string {
  const { roast, ways, units, assumed } = comparison;
  const said = new Set(['thermometer', 'guidance', 'local']);
  const parts = [
    paragraph('', `${roastTitle({ roast }, units)}; wanted ${aimText(comparison)}`),
    ways.map((_, i) => wayText(comparison, i)).join('\n'),
    ...(ways.some(isCooked) ? [table(comparison, colors)] : []),
    colors.bold(paragraph('', conclusionOf(comparison))),
    ...warningsSaid(comparison).map(({ letters, text }) =>
      paragraph('! ', `${letters.join(', ')}: ${text}`),
    ),
    ...bathsSaid(comparison).map(({ letters, text }) =>
      paragraph('  ', `${letters.join(', ')}: ${text}`),
    ),
    [
      'Take care',
      ...cautions(units)
        .filter(({ code }) => said.has(code))
        .map(({ text }) => paragraph('  - ', text)),
    ].join('\n'),
    paragraph(
      '',
      `Assumed: ${assumed.join(', ')}. For the timetable of one of them: roastsim with --stages and its line.`,
    ),
  ];
  return `${parts.join('\n\n')}\n`;
}

/** A way's letter, name and line, and why it did not come out. */
function wayText(comparison: Comparison, i: number): string {
  const compared = comparison.ways[i];
  const { way } = compared;
  const name = way.name === '' ? '' : `${way.name}: `;
  const mark = `  ${letterOf(i)}  `;
  const line = paragraph(mark, name + wayLine(way, comparison));
  return isCooked(compared)
    ? line
    : `${line}\n${paragraph(' '.repeat(mark.length), `Cannot be done: ${compared.failure.message}.`)}`;
}

/** A line of the table; nothing where a way has no such figure. */
interface Row {
  readonly label: string;
  readonly value: (way: CookedWay) => string | undefined;
}

const LABEL_COLUMNS = 32;
const WIDEST_COLUMN = 9;

function table(comparison: Comparison, colors: Colors): string {
  const { ways, units, aim } = comparison;
  const width = Math.min(WIDEST_COLUMN, Math.floor((COLUMNS - LABEL_COLUMNS) / ways.length));
  const lineOf = (label: string, cells: readonly string[]): string =>
    (label.padEnd(LABEL_COLUMNS) + cells.map((cell) => cell.padStart(width)).join('')).trimEnd();
  const twoPieces = ways.some((way) => isCooked(way) && way.pieces.length > 1);
  return [
    colors.dim(
      lineOf(
        '',
        ways.map((_, i) => letterOf(i)),
      ),
    ),
    ...rowsOf(units, aim.band.name, twoPieces).map(({ label, value }) =>
      lineOf(
        label,
        ways.map((way) => (isCooked(way) ? (value(way) ?? '') : '-')),
      ),
    ),
  ].join('\n');
}

function rowsOf(units: UnitSystem, band: string, twoPieces: boolean): Row[] {
  const degree = units === 'us' ? '°F' : '°C';
  const temp = (tempC: number): string => temperatureText(tempC, units).replace(/ °[CF]$/, '');
  const { heatingFromC, heatingToC } = SAFETY_LIMITS;
  const pulls = (i: number, of: string): Row[] => {
    const at = (figure: (piece: WayPiece) => string) => (way: CookedWay) => {
      const piece = way.pieces.at(i);
      return piece === undefined ? undefined : figure(piece);
    };
    return [
      { label: `${of}Pull after, h:min`, value: at(({ plan }) => hoursText(plan.pull.minutes)) },
      { label: `${of}Pull at, ${degree}`, value: at(({ plan }) => temp(plan.pull.centreC)) },
      { label: `${of}Peak, ${degree}`, value: at(({ plan }) => temp(plan.peak.centreC)) },
    ];
  };
  const figure =
    (of: (way: CookedWay['figures']) => string) =>
    ({ figures }: CookedWay): string =>
      of(figures);
  return [
    { label: 'Time in all, h:min', value: figure((way) => hoursText(way.totalMinutes)) },
    { label: 'Hands on, min', value: figure((way) => whole(way.handsOnMinutes)) },
    ...pulls(0, ''),
    ...(twoPieces ? pulls(1, 'Thin piece: ') : []),
    {
      label: `Aimed-at face ${band}, %`,
      value: figure(({ aimedFaceShare }) => percent(aimedFaceShare)),
    },
    { label: `All faces ${band}, %`, value: figure(({ allFacesShare }) => percent(allFacesShare)) },
    {
      label: `Rim done through, ${units === 'us' ? 'in' : 'mm'}`,
      value: figure(({ rimMm, doneRightThrough }) =>
        doneRightThrough ? 'all' : units === 'us' ? (rimMm / 25.4).toFixed(1) : whole(rimMm),
      ),
    },
    {
      label: `Slices' peaks apart, ${degree}`,
      value: figure(({ peakSpreadK }) =>
        whole(units === 'us' ? fahrenheitRise(peakSpreadK) : peakSpreadK),
      ),
    },
    { label: 'Cooks off, %', value: figure(({ lossShare }) => percent(lossShare)) },
    {
      label: `Coldest spot at pull, ${degree}`,
      value: figure(({ safety }) => temp(safety.coldestC)),
    },
    {
      label: `Coldest spot, peak, ${degree}`,
      value: figure(({ safety }) => temp(safety.coldestPeakC)),
    },
    {
      label: 'Salmonella down, powers of ten',
      value: figure(({ safety }) =>
        safety.logReductionCapped
          ? `>${safety.logReduction.toFixed(1)}`
          : safety.logReduction < LEAST_CLAIM
            ? 'none'
            : safety.logReduction.toFixed(1),
      ),
    },
    {
      label: 'At room temperature, min',
      value: figure(({ safety }) => limited(safety.roomMinutes, safety.roomLimitMinutes)),
    },
    {
      label: `${temp(heatingFromC)} to ${temp(heatingToC)} ${degree}, min`,
      value: figure(({ safety }) => limited(safety.heatingMinutes, safety.heatingLimitMinutes)),
    },
    {
      label: 'Whole-cut guidance',
      value: figure(({ safety }) => (safety.meetsWholeCutGuidance ? 'met' : 'below')),
    },
  ];
}

const LEAST_CLAIM = 0.5; // powers of ten: less is not worth claiming, as in the report of a plan

const whole = (value: number): string => value.toFixed(0);

/** Minutes, marked when they are more than they may be. */
const limited = (minutes: number, limitMinutes: number): string =>
  `${minutes > limitMinutes ? '!' : ''}${whole(minutes)}`;
