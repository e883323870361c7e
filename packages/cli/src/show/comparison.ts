import {
  type Aim,
  type ComparedWay,
  type CookedWay,
  type CookWay,
  isHeat,
  type Roast,
  sayBath,
  sayWarning,
  temperatureText,
  type UnitSystem,
  type Warning,
  type WarningCode,
  winningWays,
} from '@roastsim/core';
import { stageLineText } from './stageLineText.js';

/** Ways side by side, and what they have in common. */
export interface Comparison {
  readonly roast: Roast;
  readonly aim: Aim;
  readonly ways: readonly ComparedWay[];
  readonly units: UnitSystem;
  readonly assumed: readonly string[];
}

/** Letter of a way by its place: A, B, C. */
export const letterOf = (index: number): string => String.fromCharCode(65 + index);

/** Whether a way came out. */
export const isCooked = (way: ComparedWay): way is CookedWay => 'figures' in way;

/** A way as a line that `--way` reads, without its name. */
export function wayLine(way: CookWay, { units, aim }: Comparison): string {
  const line = stageLineText([...way.before, way.heat, ...way.after], {
    units,
    probe: aim.point,
    pullSearched: way.pull === undefined,
  });
  return way.pieces === 2 ? `two pieces, ${line}` : line;
}

const WHERE = {
  middle: 'in the middle slice',
  thick: 'in the thickest slice',
  thin: 'in the thinnest slice',
} as const;

/** What all ways aim at: `medium-rare, 56 °C in the middle slice`. */
export function aimText({ aim, units }: Comparison): string {
  const target = temperatureText(aim.targetC, units);
  return aim.at === 'coldest'
    ? `at least ${target} throughout (strict safety rules)`
    : `${aim.band.name}, ${target} ${WHERE[aim.at]}`;
}

/** Something to say about one or more ways. */
export interface Notice {
  /** Letters of the ways it is about. */
  readonly letters: readonly string[];
  readonly text: string;
}

/** The figure by which the worst of several warnings of one code is known; the larger the worse. */
function badness(warning: Warning): number {
  switch (warning.code) {
    case 'below-guidance':
      return -warning.coldestC;
    case 'fold-below-guidance':
      return -warning.foldC;
    case 'room-time':
    case 'heating-time':
      return warning.minutes;
    case 'still-rising':
      return warning.peakC;
    case 'cool-oven':
    case 'slow-oven':
      return -warning.ovenC;
    case 'hot-oven':
      return warning.ovenC;
    case 'cool-bath':
      return -warning.bathC;
    case 'early-pull':
      return -warning.pullC;
    case 'late-pull':
      return warning.pullC;
    default:
      return 0;
  }
}

/** All warnings, each code once, with the figures of the way that is worst. */
export function warningsSaid({ ways, units }: Comparison): (Notice & { code: WarningCode })[] {
  const found = ways.flatMap((way, i) =>
    isCooked(way) ? way.warnings.map((warning) => ({ letter: letterOf(i), warning })) : [],
  );
  const codes = [...new Set(found.map(({ warning }) => warning.code))];
  return codes.map((code) => {
    const alike = found.filter(({ warning }) => warning.code === code);
    const worst = alike.reduce((a, b) => (badness(b.warning) > badness(a.warning) ? b : a));
    const text = sayWarning(worst.warning, units);
    const differ = alike.some(({ warning }) => sayWarning(warning, units) !== text);
    return {
      code,
      letters: alike.map(({ letter }) => letter),
      text: differ ? `${text} (Figures of ${worst.letter}.)` : text,
    };
  });
}

/** What each water bath is credited with. */
export const bathsSaid = ({ ways, units }: Comparison): Notice[] =>
  ways.flatMap((way, i) =>
    isCooked(way) && stagesOf(way.way).some(({ kind }) => kind === 'bath')
      ? [{ letters: [letterOf(i)], text: sayBath(way.figures.safety, units) }]
      : [],
  );

const stagesOf = ({ before, heat, after }: CookWay) => [...before, heat, ...after].filter(isHeat);

/** What the figures come to, in one sentence. */
export function conclusionOf(comparison: Comparison): string {
  const { ways, aim } = comparison;
  const cooked = ways.flatMap((way, i) => (isCooked(way) ? [{ ...way, i }] : []));
  const wins = winningWays(ways);
  if (wins === undefined) return 'None of these ways reaches the aim.';
  if (cooked.length === 1) return `Only ${named(cooked[0].way, cooked[0].i)} reaches the aim.`;
  const clauses = cooked.flatMap(({ way, figures, i }) => {
    const merits = [
      wins.fastest === i ? `is done first (${hoursText(figures.totalMinutes)} h)` : '',
      wins.leastWork === i
        ? `needs least attention (${figures.handsOnMinutes.toFixed(0)} min)`
        : '',
      wins.mostEven === i
        ? `comes out most even (${percent(figures.allFacesShare)} % of all cut faces ${aim.band.name})`
        : '',
      wins.leastLoss === i ? `loses least (${percent(figures.lossShare)} %)` : '',
    ].filter((merit) => merit !== '');
    return merits.length === 0 ? [] : [`${named(way, i)} ${listed(merits)}`];
  });
  const safe = cooked.filter(({ figures }) => figures.safety.meetsWholeCutGuidance);
  const guidance =
    safe.length === cooked.length
      ? ''
      : safe.length === 0
        ? '; none meets whole-cut guidance'
        : `; of all only ${listed(safe.map(({ i }) => letterOf(i)))} ${safe.length > 1 ? 'meet' : 'meets'} whole-cut guidance`;
  return `${clauses.join('; ')}${guidance}.`;
}

/** `A (hot oven)`, or `A` where a way has no name. */
const named = ({ name }: CookWay, i: number): string =>
  name === '' ? letterOf(i) : `${letterOf(i)} (${name})`;

const listed = (items: readonly string[]): string =>
  items.length < 2
    ? items.join('')
    : `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]}`;

/** A share as whole percents. */
export const percent = (share: number): string => String(Math.round(100 * share));

/** Minutes as hours and minutes, `1:27`: how every time of a way is written. */
export function hoursText(minutes: number): string {
  const rounded = Math.round(minutes);
  return `${Math.floor(rounded / 60)}:${String(rounded % 60).padStart(2, '0')}`;
}
