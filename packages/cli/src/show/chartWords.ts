import {
  type Aim,
  durationText,
  type Peak,
  type Plan,
  type Pull,
  type Slice,
  type Stage,
  sayWarning,
  temperatureText,
  type UnitSystem,
} from '@roastsim/core';
import { roastTitle } from './text.js';

/** What stands over a chart, for one that stands alone. */
export interface ChartHead {
  readonly title: string;
  readonly subtitle: string;
  /** The notice a plan below guidance carries wherever it goes. */
  readonly notice?: string;
}

/** The words of a chart: as many as it has room for. */
export interface ChartWords {
  readonly head?: (plan: Plan, units: UnitSystem) => ChartHead;
  /** The line aimed at. */
  readonly aimed: Readonly<Record<Aim['at'], string>>;
  /** The thickest, the thinnest or, in a roast of even thickness, the end slice. */
  readonly slice: (which: SliceName, slice: Slice, units: UnitSystem) => string;
  /** Name of a band; empty for one that gets none. */
  readonly band: (name: string, plan: Plan) => string;
  /** Names of a stage from the longest to the shortest. */
  readonly stage: (stage: Stage, units: UnitSystem) => string[];
  readonly stageLength?: (minutes: number) => string;
  readonly pull: (pull: Pull, place: HeatPlace, climbs: boolean, units: UnitSystem) => MarkWords;
  readonly peak: (peak: Peak, pull: Pull, units: UnitSystem) => MarkWords;
}

/** Slices named on a chart. */
export type SliceName = 'thickest' | 'thinnest' | 'end';

/** What the roast is pulled from. */
export type HeatPlace = 'in the oven' | 'in the bath' | 'of heat';

/** The strong line of a mark, and what stands below it. */
export interface MarkWords {
  readonly text: string;
  readonly more?: string;
}

const WHERE = {
  middle: 'in the middle slice',
  thick: 'in the thickest slice',
  thin: 'in the thinnest slice',
  coldest: 'at the coldest spot',
} as const;

/** Words of a chart that stands alone. */
export const FULL_WORDS: ChartWords = {
  head: (plan, units) => {
    const { aim, warnings } = plan;
    const notice = warnings.find(({ code }) => code === 'below-guidance');
    return {
      title: roastTitle(plan, units),
      subtitle:
        `Aimed at ${aim.band.name}, ${temperatureText(aim.targetC, units)} ${WHERE[aim.at]} ` +
        `(scale: ${aim.scale.name})`,
      ...(notice === undefined ? {} : { notice: sayWarning(notice, units) }),
    };
  },
  aimed: {
    middle: 'middle slice, aimed at',
    thick: 'thickest slice, aimed at',
    thin: 'thinnest slice, aimed at',
    coldest: 'coldest spot, aimed at',
  },
  slice: (which, { peakCentreC }, units) =>
    `${which} slice, peak ${temperatureText(peakCentreC, units)}`,
  band: (name) => name,
  stage: fullStageNames,
  stageLength: durationText,
  pull: ({ centreC, minutes }, place, climbs, units) => ({
    text: `pull at ${temperatureText(centreC, units)}`,
    more: `${durationText(minutes)} ${place}${climbs ? '' : ', no further climb'}`,
  }),
  peak: ({ centreC, atMinutes }, pull, units) => ({
    text: `peak ${temperatureText(centreC, units)}`,
    more: `${durationText(atMinutes - pull.atMinutes)} after the pull`,
  }),
};

function fullStageNames(stage: Stage, units: UnitSystem): string[] {
  const temp = (tempC: number): string => temperatureText(tempC, units);
  switch (stage.kind) {
    case 'temper':
      return [`counter, ${temp(stage.roomC)}`, 'counter'];
    case 'pan-sear':
      return [`pan, ${temp(stage.panC)}`, 'pan'];
    case 'oven-sear':
      return [`sear in the oven, ${temp(stage.ovenC)}`, `sear, ${temp(stage.ovenC)}`, 'sear'];
    case 'roast': {
      const oven = `oven, ${temp(stage.ovenC)}`;
      const how = `${stage.fan ? ', fan' : ''}${stage.start === 'cold' ? ', from cold' : ''}`;
      return [...(how === '' ? [] : [oven + how]), oven, 'oven'];
    }
    case 'bath':
      return [`water bath, ${temp(stage.bathC)}`, `bath, ${temp(stage.bathC)}`, 'bath'];
    case 'rest':
      return [stage.tented ? 'rest under foil' : 'rest uncovered', 'rest'];
    case 'surroundings':
      return ['own surroundings', 'own'];
  }
}
