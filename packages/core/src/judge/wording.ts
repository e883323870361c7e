import {
  durationText,
  lengthText,
  massText,
  temperatureText,
  thicknessText,
  type UnitSystem,
} from '../units/index.js';
import { LETHALITY } from './lethality.js';
import type { Safety } from './safety.js';
import type { Warning } from './warnings.js';

/** All words about warnings and safety stand in this file. */

/** 54.4 °C or 130 °F: rounded down to 54 °C it would be a bath for which no time is published. */
const lowestBath = (units: UnitSystem): string =>
  temperatureText(LETHALITY.fromC, units, units === 'metric' ? 1 : 0);

/**
 * A warning in one or two sentences.
 *
 * @example
 * plan.warnings.map((warning) => sayWarning(warning, 'metric'))
 */
export function sayWarning(warning: Warning, units: UnitSystem): string {
  const temp = (c: number): string => temperatureText(c, units);
  switch (warning.code) {
    case 'below-guidance':
      return (
        `Below whole-cut guidance: coldest spot ${temp(warning.coldestC)} at the pull, peak about ${temp(warning.peakC)}; ` +
        `guidance is ${temp(62.8)} before the heat ends, then 3 minutes of rest. Only for intact meat, and for nobody ` +
        'very young, old, pregnant or unwell.'
      );
    case 'fold-below-guidance':
      return (
        `The folded tail has outside surface in its middle (${temp(warning.foldC)} at the pull): treat it as non-intact, ` +
        `bring it to ${temp(62.8)} before it leaves the heat, or roast the tail unfolded.`
      );
    case 'strict-rules':
      return (
        `${warning.intact ? '' : 'Meat that is not intact carries bacteria inside. '}` +
        `${warning.atRisk ? 'People at risk are eating. ' : ''}` +
        `The coldest spot must reach ${temp(62.8)} before the heat ends and rest 3 minutes; where your food code asks for ` +
        `more (often ${temp(70)} for 2 minutes, or ${temp(71.1)}), that goes first.`
      );
    case 'room-time':
      return (
        `${durationText(warning.minutes)} at room temperature is more than the ${durationText(warning.limitMinutes)} ` +
        'perishable food may have: shorten the wait before the oven or the rest.'
      );
    case 'heating-time':
      return warning.reached
        ? `The coldest spot needs ${durationText(warning.minutes)} from ${temp(10)} to ${temp(54.4)}; the limit is ` +
            `${durationText(warning.limitMinutes)}. Use more heat or a smaller piece.`
        : `The coldest spot stays between ${temp(10)} and ${temp(54.4)} for ${durationText(warning.minutes)}; the limit ` +
            `is ${durationText(warning.limitMinutes)}. Use more heat or a smaller piece.`;
    case 'cool-oven':
      return (
        `An oven at ${temp(warning.ovenC)} is outside the model's range (from ${temp(100)}): some roasts are reported done in a ` +
        'quarter of the time it gives. Put the thermometer in from the start and go by it alone.'
      );
    case 'slow-oven':
      return (
        `In an oven at ${temp(warning.ovenC)} the model is likely to be slow: some roasts are reported done in half the time. ` +
        'Put the thermometer in from the start, look from half the time on, and go by it.'
      );
    case 'hot-oven':
      return (
        `An oven at ${temp(warning.ovenC)} is outside the model's range (to ${temp(260)}); fat smokes, the rim overcooks, ` +
        'and the roast climbs far after the pull. Consider a hot sear and a cooler oven.'
      );
    case 'cool-bath':
      return (
        `A bath at ${temp(warning.bathC)} never kills what it should: below ${lowestBath(units)} no safe time is published. ` +
        `Use ${lowestBath(units)} or more.`
      );
    case 'own-surroundings':
      return (
        'A stage of this cook has surroundings of its own, which no measured roast speaks for: take its times as a guess and ' +
        `go by the thermometer. Its minutes in air of ${temp(4.4)} to ${temp(54.4)} count as room temperature.`
      );
    case 'early-pull':
      return (
        `A pull at ${temp(warning.pullC)} is outside the model's range (${temp(35)} to ${temp(70)}): so much of the cooking ` +
        'is left to the rest that the end is a guess. Use a cooler oven.'
      );
    case 'late-pull':
      return (
        `A pull at ${temp(warning.pullC)} is outside the model's range (${temp(35)} to ${temp(70)}); past that tenderloin ` +
        'only dries. Braise another cut instead.'
      );
    case 'thin-piece':
      return (
        `At ${thicknessText(warning.diameterMm, units)} this piece is too thin to roast by these rules (from ` +
        `${thicknessText(44, units)}): cut steaks and use a pan.`
      );
    case 'thick-piece':
      return (
        `At ${thicknessText(warning.diameterMm, units)} this piece is thicker than the model was made for (to ` +
        `${thicknessText(100, units)}): expect the climb after the pull to be larger than said, and check early.`
      );
    case 'not-tenderloin':
      return 'Not a tenderloin: the model was made for one. Take all times as within 15 % at best, and go by the thermometer.';
    case 'unusual-weight':
      return (
        `${massText(warning.massKg, units)} is unusual for ${CUT_NAMES[warning.cut] ?? warning.cut} (usually ` +
        `${massText(warning.lowKg, units)} to ${massText(warning.highKg, units)}): check the weight and the cut, or give ` +
        'its girth.'
      );
    case 'tape-disagrees':
      return (
        `The scale says ${massText(warning.massKg, units)}, the tape says ${massText(warning.tapeKg, units)}: diameters were ` +
        'scaled to the weight. Measure again; thickness decides the time.'
      );
    case 'length-disagrees':
      return (
        `${lengthText(warning.lengthMm, units)} long is unusual for this weight and cut (about ` +
        `${lengthText(warning.usualMm, units)}): the thickness follows from your length. Measure the girth to be sure.`
      );
    case 'still-rising':
      return (
        `After ${durationText(warning.restMinutes)} of rest the middle is still climbing, at ${temp(warning.peakC)}: carved ` +
        'then, it stays there; left longer, it climbs further.'
      );
    case 'warm-start':
      return (
        `The meat starts at ${temp(warning.startC)}; a refrigerator keeps it at ${temp(4.4)} or below. Time above that counts ` +
        'as time out of the refrigerator.'
      );
  }
}

/**
 * What a water bath is credited with. Sources: FSIS (1999) Appendix A as kept in data/published/lethality.json.
 *
 * @example
 * sayBath({ logReduction: 6.5, logReductionCapped: true, killingMinutes: 90 }, 'metric')
 */
export function sayBath(
  safety: Pick<Safety, 'logReduction' | 'logReductionCapped'> & {
    /** Minutes that the coldest axis is at 54.4 °C or more. */
    readonly killingMinutes: number;
  },
  units: UnitSystem,
): string {
  const { killingMinutes, logReduction, logReductionCapped } = safety;
  const fromText = lowestBath(units);
  const credit =
    killingMinutes < 1
      ? 'here the coldest spot hardly gets there: nothing is claimed for it.'
      : `here the coldest spot is there for ${durationText(killingMinutes)}, which is credited with ` +
        (logReductionCapped ? 'all ' : `about ${logReduction.toFixed(1)} of the `) +
        `${LETHALITY.claimedUpTo} powers of ten by which Salmonella is to fall.`;
  return `In a water bath no safe time is published below ${fromText}; ${credit}`;
}

/** Cuts as a counter calls them, with their article. */
export const CUT_NAMES: Readonly<Record<string, string>> = {
  whole: 'a whole tenderloin',
  centre: 'a centre cut',
  butt: 'a butt end',
  tail: 'a tail end',
  other: 'a roast',
};

/** One of the usual cautions; the code tells what it is about. */
export interface Caution {
  readonly code: 'thermometer' | 'guidance' | 'room' | 'clean' | 'hot' | 'leftovers' | 'local';
  readonly text: string;
}

/**
 * The usual cautions, for every plan and card.
 *
 * @param warned - warnings that stand beside them: what these say already is not said again
 *
 * Sources: USDA FSIS and US FDA Food Code as kept in
 * data/published/safety-guidance.json; hot pans and knives: common practice, no source.
 * @example
 * cautions('metric').map(({ text }) => text)
 */
export function cautions(units: UnitSystem, warned: readonly Warning['code'][] = []): Caution[] {
  const temp = (c: number): string => temperatureText(c, units);
  return [
    {
      code: 'thermometer',
      text: `Go by a thermometer checked in ice water (${temp(0)}), not by the clock.`,
    },
    {
      code: 'guidance',
      text: warned.includes('below-guidance')
        ? 'Rarer than guidance is your own choice. Intact means not tenderised, injected or rolled.'
        : `Guidance for whole, intact beef: ${temp(62.8)} at the coldest spot, then 3 minutes of rest. Rarer is your own ` +
          'choice, and none for tenderised, injected or rolled meat, nor for the very young, old, pregnant or unwell.',
    },
    { code: 'room', text: 'At room temperature 2 hours in all, 1 hour in a hot kitchen.' },
    { code: 'clean', text: 'Wash hands, boards, knives and the probe after raw meat.' },
    { code: 'hot', text: 'Pan, rack and handles stay hot; carve away from your fingers.' },
    {
      code: 'leftovers',
      text: `Leftovers: cold within 2 hours, eaten within 3 to 4 days, reheated to ${temp(73.9)}.`,
    },
    { code: 'local', text: 'Local food codes and licensed practice go first.' },
  ];
}

/**
 * Cautions for cutting: what the drawing is worth, the knife, the cold. Knife and drawing: common practice, no source; the time at
 * room temperature: as in {@link cautions}.
 *
 * @example
 * cuttingCautions('us').length // => 3
 */
export function cuttingCautions(units: UnitSystem): { readonly text: string }[] {
  return [
    {
      text:
        'Places and weights are those of a usual trimmed tenderloin; this one differs. Mark the cuts with the tape, weigh ' +
        'every piece before the next cut: tape and scales decide.',
    },
    {
      text:
        'A sharp knife, a board that cannot slip, fingers curled back or a cut-resistant glove; cut away from your hand, and ' +
        'put the knife down before you reach.',
    },
    {
      text:
        `One tenderloin at a time out of the cold (${temperatureText(4.4, units)} or below); at room temperature 2 hours in ` +
        'all, cooking included. Wash hands, board and knife.',
    },
  ];
}
