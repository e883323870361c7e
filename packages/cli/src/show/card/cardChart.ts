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
import { bandsOn } from './bands.js';
import { type ChartPicture, SMALLEST_PT } from './cardModel.js';

const WORDS: ChartWords = {
  aimed: { middle: 'middle', thick: 'thickest', thin: 'thinnest', coldest: 'coldest spot' },
  slice: (which) => (which === 'end' ? 'end slice' : which),
  band: (name, plan) => (bandsOn(plan).includes(name) ? initials(name) : ''),
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
    case 'surroundings':
      return ['own'];
  }
}

const grey = (level: (typeof GREYS)[number]): string => `rgb(${level}, ${level}, ${level})`;
const RED = `rgb(${ACCENT.join(', ')})`;
const BLACK = grey(0); // letters in grey would be dotted by a printer

/** Centres alone: the oven's number stands large on the card. */
const WIDE: ChartForm = {
  words: WORDS,
  meat: {
    metric: { step: 20, round: 5, leastTop: 70 },
    us: { step: 40, round: 10, leastTop: 160 },
  },
  centres: 'all',
  mostMinuteTicks: 8,
  mostPoints: 300, // of about 270 points of paper
};

/** The words of the marks stand above the line. */
const SMALL: ChartForm = {
  ...WIDE,
  meat: {
    metric: { ...WIDE.meat.metric, headroom: 12 },
    us: { ...WIDE.meat.us, headroom: 22 },
  },
  centres: 'aimed',
  mostMinuteTicks: 4,
  mostPoints: 120,
};

/** What all forms look like; lengths are points where the chart is printed as wide as it is made. */
const LOOK = {
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
  edge: 1,
  gap: 4,
  tick: 2.5,
  tickGap: 1,
  minutesRoom: 14,
  labelHeight: 10,
  bandHeight: 8,
  markHeight: 11,
  markUp: 4,
  line: 11,
  hairline: 0.6,
  halo: 2,
} as const satisfies Partial<ChartStyle>;

const fontsOf = (pt: number): ChartStyle['fonts'] => ({
  strong: chartFont(pt, 600),
  text: chartFont(pt),
  small: chartFont(pt),
  tickPx: pt,
});

/** Names of a form of the chart on a card, the one with most words first. */
export const CHART_FORMS = ['wide', 'middle', 'small'] as const;

/** Name of a form. */
export type ChartFormName = (typeof CHART_FORMS)[number];

interface CardChartForm {
  readonly form: ChartForm;
  readonly style: ChartStyle;
  /** Size of its words where it is printed as wide as it is made. */
  readonly pt: number;
}

const formOf = (
  form: ChartForm,
  pt: number,
  style: Omit<ChartStyle, keyof typeof LOOK | 'fonts'> & Partial<ChartStyle>,
): CardChartForm => ({ form, pt, style: { ...LOOK, fonts: fontsOf(pt), ...style } });

/**
 * The same chart for three widths. What is printed narrower would have words too small to read, so it has fewer of them: the
 * middle form leaves out the letters of the bands, the small one also the lines of the other slices.
 */
const FORMS: Readonly<Record<ChartFormName, CardChartForm>> = {
  wide: formOf(WIDE, 9, {
    width: 364,
    height: 130,
    tickRoom: 21,
    minutesTitle: { text: 'minutes', at: 'beside', gap: 12 },
    stages: { top: 0, raised: 11, raisedDown: 8, room: 13, nameUp: 4, unitUp: 6 },
    lineNames: true,
    bandColumns: 2,
    marksAt: 'foot',
    dotRadius: 2.6,
  }),
  middle: formOf({ ...WIDE, mostMinuteTicks: 6, mostPoints: 200 }, 9, {
    width: 250,
    height: 104,
    tickRoom: 18,
    minutesTitle: { text: 'minutes', at: 'beside', gap: 9 },
    stages: { top: 0, raised: 11, raisedDown: 8, room: 13, nameUp: 4, unitUp: 6 },
    lineNames: true,
    bandColumns: 0,
    marksAt: 'foot',
    dotRadius: 2.6,
  }),
  small: formOf(SMALL, 8.5, {
    width: 150,
    height: 83,
    gap: 3,
    tickRoom: 17,
    minutesRoom: 13,
    minutesTitle: { text: 'min', at: 'beside', gap: 6 },
    stages: { top: 0, raised: 10, raisedDown: 7.5, room: 13, nameUp: 3.5, unitUp: 6 },
    lineNames: false,
    bandColumns: 0,
    marksAt: 'dot',
    markHeight: 8.5,
    dotRadius: 2.2,
  }),
};

/** What the chart on a card shows. */
export const cardChartModel = (
  plan: Plan,
  units: UnitSystem,
  name: ChartFormName = 'wide',
): ChartModel => chartModel(plan, units, FORMS[name].form);

const charts = new Map<ChartFormName, PixelChart>();

/**
 * The temperatures of a plan over time, to be read without colour, in all forms. None is drawn before its pixels are asked for: a
 * card shows one or two of them.
 */
export const cardCharts = (plan: Plan, units: UnitSystem): readonly ChartPicture[] =>
  CHART_FORMS.map((name) => cardChart(plan, units, name));

/**
 * One form of the chart. Its `png` throws a RoastError `unreadable` when the fonts are missing from the installation.
 */
export function cardChart(plan: Plan, units: UnitSystem, name: ChartFormName): ChartPicture {
  const { style, pt } = FORMS[name];
  let png: Uint8Array | undefined;
  return {
    get png() {
      png ??= drawn(plan, units, name);
      return png;
    },
    widthPx: style.pixelRatio * style.width,
    heightPx: style.pixelRatio * style.height,
    alt: altText(plan, units),
    leastWidthPt: (SMALLEST_PT / pt) * style.width,
  };
}

function drawn(plan: Plan, units: UnitSystem, name: ChartFormName): Uint8Array {
  registerFonts();
  const { style } = FORMS[name];
  const chart = charts.get(name) ?? new PixelChart(style);
  charts.set(name, chart);
  const model = cardChartModel(plan, units, name);
  return inkPng(chart.pixels(chartConfiguration(model, style)), PIXELS_PER_MM);
}

const PIXELS_PER_MM = (LOOK.pixelRatio * 72) / 25.4;

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
