import type { ChartLineKind } from './chartModel.js';
import { FONT_FAMILY } from './fonts.js';

/** How a line looks; told apart without colour. */
export interface Stroke {
  readonly color: string;
  readonly width: number;
  readonly dash: readonly number[];
}

/** Ink and paper. */
export interface ChartInk {
  readonly paper: string;
  readonly text: string;
  readonly faint: string;
  readonly grid: string;
  readonly border: string;
  /** Bands by turns, and the one aimed at. */
  readonly stripe: readonly [string, string];
  readonly aimedStripe: string;
}

/** Fonts of the words, as CSS. */
export interface ChartFonts {
  readonly strong: string;
  readonly text: string;
  readonly small: string;
  /** Size of the numbers along the axes [CSS pixels]. */
  readonly tickPx: number;
}

/** Baselines and fonts of what stands over a chart that stands alone. */
export interface HeadStyle {
  readonly title: number;
  readonly titleFont: string;
  readonly subtitle: number;
  readonly subtitleFont: string;
}

/** How a chart looks: all lengths in CSS pixels. */
export interface ChartStyle {
  readonly width: number;
  readonly height: number;
  /** Pixels of the picture for each CSS pixel. */
  readonly pixelRatio: number;
  readonly ink: ChartInk;
  readonly strokes: Readonly<Record<ChartLineKind, Stroke>>;
  readonly fonts: ChartFonts;
  /** Free edge of the picture. */
  readonly edge: number;
  /** Between words and what they stand beside. */
  readonly gap: number;
  /** Left of the plot, for the temperatures, and below it, for the minutes. */
  readonly tickRoom: number;
  readonly minutesRoom: number;
  /** Length of the ticks of the axes, and from there to their numbers. */
  readonly tick: number;
  readonly tickGap: number;
  /** What the minutes are counted from, below them or, where that is too narrow, beside them. */
  readonly minutesTitle:
    | { readonly text: string; readonly at: 'below' }
    | { readonly text: string; readonly at: 'beside'; readonly gap: number };
  readonly head?: HeadStyle;
  /**
   * Stages: where their part begins; room for those raised above the others, with their baseline in it; room for the others,
   * with the baselines of the name and of the unit of temperature above the plot.
   */
  readonly stages: {
    readonly top: number;
    readonly raised: number;
    readonly raisedDown: number;
    readonly room: number;
    readonly nameUp: number;
    readonly unitUp: number;
  };
  /** Height of a line's label, of a band's name and of a mark's words. */
  readonly labelHeight: number;
  readonly bandHeight: number;
  readonly markHeight: number;
  /** Whether the lines have their names at their ends. */
  readonly lineNames: boolean;
  /** Columns the names of the bands take by turns, so that narrow bands keep them in their middle; none for no names. */
  readonly bandColumns: number;
  /** Where the words of marks stand: low, at the foot of their lines, or beside their dots. */
  readonly marksAt: 'foot' | 'dot';
  /** First baseline of a mark's words above the foot of the plot. */
  readonly markUp: number;
  /** From one line of words to the next. */
  readonly line: number;
  readonly dotRadius: number;
  /** Thin lines. */
  readonly hairline: number;
  /** Paper round the letters over lines, and round dots. */
  readonly halo: number;
}

/** A font of the chart as CSS. */
export const chartFont = (px: number, weight: 400 | 600 | 700 = 400): string =>
  `${weight} ${px}px ${FONT_FAMILY}`;

const BEEF = '#7a1f1c';

/** A chart that fills a page or a screen. */
export const FULL_STYLE: ChartStyle = {
  width: 960,
  height: 600,
  pixelRatio: 2,
  ink: {
    paper: '#fffdf9',
    text: '#2d2724',
    faint: '#756b63',
    grid: 'rgba(90, 70, 55, 0.10)',
    border: '#b9ada3',
    stripe: ['#f7f0e7', '#f1e7db'],
    aimedStripe: '#efcfb8',
  },
  strokes: {
    aimed: { color: BEEF, width: 2.6, dash: [] },
    thicker: { color: BEEF, width: 1.7, dash: [8, 4] },
    thinner: { color: BEEF, width: 1.9, dash: [1.5, 3.5] },
    'under-crust': { color: '#7d726a', width: 1.3, dash: [] },
    outside: { color: '#7d726a', width: 1.3, dash: [5, 3] },
    around: { color: '#b06a1e', width: 1.6, dash: [] },
  },
  fonts: { strong: chartFont(13, 600), text: chartFont(12.5), small: chartFont(11), tickPx: 12 },
  edge: 20,
  gap: 8,
  tickRoom: 46,
  minutesRoom: 44,
  tick: 8,
  tickGap: 3,
  minutesTitle: { text: 'minutes since the refrigerator', at: 'below' },
  head: { title: 34, titleFont: chartFont(20, 700), subtitle: 54, subtitleFont: chartFont(13.5) },
  stages: { top: 74, raised: 18, raisedDown: 8, room: 34, nameUp: 20, unitUp: 14 },
  labelHeight: 15,
  bandHeight: 13,
  markHeight: 36,
  lineNames: true,
  bandColumns: 1,
  marksAt: 'foot',
  markUp: 24,
  line: 14,
  dotRadius: 4.5,
  hairline: 1,
  halo: 4,
};

/** Font of a line's label. */
export const labelFont = (kind: ChartLineKind, { strong, text }: ChartFonts): string =>
  kind === 'aimed' ? strong : text;
