import {
  durationText,
  type Plan,
  type Stage,
  temperatureText,
  type UnitSystem,
} from '@roastsim/core';
import { chartConfiguration } from '../chartConfiguration.js';
import { type ChartForm, type ChartModel, chartModel } from '../chartModel.js';
import { type ChartStyle, chartFont, FULL_STYLE } from '../chartStyle.js';
import type { ChartWords } from '../chartWords.js';
import { registerFonts } from '../fonts.js';
import { ACCENT, type GREYS, inkPng } from '../inkPng.js';
import { PixelChart } from '../pixelChart.js';
import { initials } from '../section.js';
import type { Picture } from './cardModel.js';

const WORDS: ChartWords = {
  aimed: { middle: 'middle', thick: 'thickest', thin: 'thinnest', coldest: 'coldest spot' },
  slice: (which) => (which === 'end' ? 'end slice' : which),
  band: initials,
  stage: stageNames,
  pull: ({ centreC }, _, __, units) => ({ text: `pull ${temperatureText(centreC, units)}` }),
  peak: ({ centreC }, _, units) => ({ text: `peak ${temperatureText(centreC, units)}` }),
};

function stageNames(stage: Stage, units: UnitSystem): string[] {
  const temp = (tempC: number): string => temperatureText(tempC, units);
  switch (stage.kind) {
    case 'temper':
      return ['counter'];
    case 'pan-sear':
      return ['pan'];
    case 'oven-sear':
      return [`sear ${temp(stage.ovenC)}`, 'sear'];
    case 'roast':
      return [`oven ${temp(stage.ovenC)}`, 'oven'];
    case 'bath':
      return [`bath ${temp(stage.bathC)}`, 'bath'];
    case 'rest':
      return ['rest'];
  }
}

/** Centres alone: the oven's number stands large on the card. */
const FORM: ChartForm = {
  words: WORDS,
  meat: {
    metric: { step: 20, round: 5, leastTop: 70 },
    us: { step: 40, round: 10, leastTop: 160 },
  },
  mostMinuteTicks: 8,
  mostPoints: 300, // of about 270 points of paper
};

const grey = (level: (typeof GREYS)[number]): string => `rgb(${level}, ${level}, ${level})`;
const RED = `rgb(${ACCENT.join(', ')})`;
const BLACK = grey(0); // letters in grey would be dotted by a printer
const PT = 9; // not below the 8 pt of a card where the chart is printed at 118 mm instead of 128

/** Lengths are points where the chart is printed 128 mm wide. */
const STYLE: ChartStyle = {
  width: 364,
  height: 130,
  pixelRatio: 4,
  ink: {
    paper: grey(255),
    text: BLACK,
    faint: BLACK,
    grid: grey(212),
    border: grey(128),
    stripe: [grey(244), grey(232)],
    aimedStripe: grey(212),
  },
  strokes: {
    ...FULL_STYLE.strokes,
    aimed: { color: RED, width: 2, dash: [] },
    thicker: { color: RED, width: 1.2, dash: [5, 2.5] },
    thinner: { color: RED, width: 1.5, dash: [1.2, 2.2] },
  },
  fonts: {
    strong: chartFont(PT, 600),
    text: chartFont(PT),
    small: chartFont(PT),
    tickPx: PT,
  },
  edge: 1,
  gap: 4,
  tickRoom: 21,
  minutesRoom: 14,
  tick: 2.5,
  tickGap: 1,
  minutesTitle: { text: 'minutes', at: 'beside' },
  stages: { top: 0, raised: 11, raisedDown: 8, room: 13, nameUp: 4, unitUp: 6 },
  labelHeight: 10,
  bandHeight: 8,
  markHeight: 11,
  bandColumns: 2,
  markUp: 4,
  line: 11,
  dotRadius: 2.6,
  hairline: 0.6,
  halo: 2,
};

const PIXELS_PER_MM = (STYLE.pixelRatio * 72) / 25.4;

/** What the chart on a card shows. */
export const cardChartModel = (plan: Plan, units: UnitSystem): ChartModel =>
  chartModel(plan, units, FORM);

let chart: PixelChart | undefined;

/**
 * The temperatures of a plan over time, small enough for a card: made to be printed 128 mm wide, readable from 118 mm on and
 * without colour.
 *
 * @throws RoastError `unreadable` when the fonts are missing from the installation
 */
export async function cardChart(plan: Plan, units: UnitSystem): Promise<Picture> {
  registerFonts();
  chart ??= new PixelChart(STYLE);
  const pixels = chart.pixels(chartConfiguration(cardChartModel(plan, units), STYLE));
  return {
    png: inkPng(pixels, PIXELS_PER_MM),
    widthPx: pixels.width,
    heightPx: pixels.height,
    alt: altText(plan, units),
  };
}

const CENTRE_OF = {
  middle: 'the middle slice',
  thick: 'the thickest slice',
  thin: 'the thinnest slice',
  coldest: 'the coldest spot',
} as const;

/** The first sentence names the picture, the others say what it shows. */
function altText({ aim, pull, peak, history, slices }: Plan, units: UnitSystem): string {
  const temp = (tempC: number): string => temperatureText(tempC, units);
  const peaks = slices.map(({ peakCentreC }) => peakCentreC);
  const climb =
    peak.row > pull.row
      ? `; it peaks at ${temp(peak.centreC)} after ${durationText(peak.atMinutes)}`
      : '; it climbs no further';
  return (
    'Chart of the temperatures while cooking. ' +
    `Minutes count from the refrigerator. The centre of ${CENTRE_OF[aim.at]} starts at ${temp(history.roast.startC)} and is pulled ` +
    `at ${temp(pull.centreC)} after ${durationText(pull.atMinutes)}${climb}. ` +
    `Centres of all slices peak between ${temp(Math.min(...peaks))} and ${temp(Math.max(...peaks))}.`
  );
}
