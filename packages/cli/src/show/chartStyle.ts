import type { ChartLineKind } from './chartModel.js';
import { FONT_FAMILY } from './fonts.js';

/** How a line looks; told apart without colour. */
export interface Stroke {
  readonly color: string;
  readonly width: number;
  readonly dash: readonly number[];
}

/** Size of the chart [CSS pixels] and pixels of the picture for each. */
export const CHART_SIZE = { width: 960, height: 600, pixelRatio: 2 } as const;

/** Ink and paper. */
export const INK = {
  paper: '#fffdf9',
  text: '#2d2724',
  faint: '#756b63',
  grid: 'rgba(90, 70, 55, 0.10)',
  border: '#b9ada3',
  stripe: ['#f7f0e7', '#f1e7db'],
  aimedStripe: '#efcfb8',
} as const;

const BEEF = '#7a1f1c';

/** Lines by what they show. */
export const STROKES: Readonly<Record<ChartLineKind, Stroke>> = {
  aimed: { color: BEEF, width: 2.6, dash: [] },
  thicker: { color: BEEF, width: 1.7, dash: [8, 4] },
  thinner: { color: BEEF, width: 1.9, dash: [1.5, 3.5] },
  'under-crust': { color: '#7d726a', width: 1.3, dash: [] },
  outside: { color: '#7d726a', width: 1.3, dash: [5, 3] },
  around: { color: '#b06a1e', width: 1.6, dash: [] },
};

const font = (px: number, weight: 400 | 600 | 700 = 400): string =>
  `${weight} ${px}px ${FONT_FAMILY}`;
/** Fonts of the words, as CSS. */
export const FONTS = {
  title: font(20, 700),
  subtitle: font(13.5),
  strong: font(13, 600),
  text: font(12.5),
  small: font(11),
} as const;

/** Free edge of the picture [CSS pixels]. */
export const EDGE = 20;
/** Between words and what they stand beside [CSS pixels]. */
export const GAP = 8;
/** From one line of the notice to the next [CSS pixels]. */
export const NOTICE_LINE = 14;

/** Font of a line's label. */
export const labelFont = (kind: ChartLineKind): string =>
  kind === 'aimed' ? FONTS.strong : FONTS.text;
