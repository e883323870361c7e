import { type Paper, SMALLEST_PT } from './cardModel.js';
import { PT_PER_MM } from './page.js';

/** Everything on a card whose size can give: points, but for `room`, `leading` and `stepPad`. */
export interface Sizes {
  /** From 0, the tightest, to 1, the roomiest. */
  readonly room: number;
  readonly keyValuePt: number;
  readonly keyLabelPt: number;
  readonly keyDetailPt: number;
  readonly stepPt: number;
  /** Above and below a step, times its size. */
  readonly stepPad: number;
  readonly titlePt: number;
  readonly shopPt: number;
  readonly logoPt: number;
  readonly bodyPt: number;
  readonly finePt: number;
  /** Between blocks. */
  readonly gapPt: number;
  /** From baseline to baseline, times the size of the text. */
  readonly leading: number;
  /** Height of the cut face. */
  readonly sectionPt: number;
  /** Tallest the side view may be. */
  readonly roastPt: number;
}

const mm = (millimetres: number): number => millimetres * PT_PER_MM;

/** The smallest a card goes to before it is refused: on every paper the same, since it is read from the same distance. */
const TIGHTEST: Sizes = {
  room: 0,
  keyValuePt: 25,
  keyLabelPt: 8.5,
  keyDetailPt: SMALLEST_PT,
  stepPt: 9,
  stepPad: 0.07,
  titlePt: 11,
  shopPt: 9,
  logoPt: mm(7),
  bodyPt: SMALLEST_PT,
  finePt: SMALLEST_PT,
  gapPt: 3,
  leading: 1.14,
  sectionPt: mm(24),
  roastPt: mm(25.5),
};

const ROOMIEST_SMALL: Sizes = {
  room: 1,
  keyValuePt: 34,
  keyLabelPt: 10.5,
  keyDetailPt: 9.5,
  stepPt: 11,
  stepPad: 0.16,
  titlePt: 16,
  shopPt: 12,
  logoPt: mm(13),
  bodyPt: 9.5,
  finePt: 8.5,
  gapPt: 11,
  leading: 1.24,
  sectionPt: mm(36),
  roastPt: mm(60),
};

const ROOMIEST_LARGE: Sizes = {
  room: 1,
  keyValuePt: 52,
  keyLabelPt: 14,
  keyDetailPt: 12.5,
  stepPt: 14.5,
  stepPad: 0.16,
  titlePt: 23,
  shopPt: 16,
  logoPt: mm(20),
  bodyPt: 12,
  finePt: 10,
  gapPt: 17,
  leading: 1.26,
  sectionPt: mm(52),
  roastPt: mm(90),
};

const ROOMIEST: Readonly<Record<Paper, Sizes>> = {
  a5: ROOMIEST_SMALL,
  a4: ROOMIEST_LARGE,
  letter: ROOMIEST_LARGE,
};

/** Free edge of the page [mm]: what every printer leaves free, and room for a thumb. */
export const MARGIN_MM: Readonly<Record<Paper, number>> = { a5: 8, a4: 12, letter: 12 };

/**
 * Sizes between the tightest and the roomiest of a paper.
 *
 * @param room - 0 for the tightest to 1 for the roomiest
 */
export function sizesFor(paper: Paper, room: number): Sizes {
  const roomiest = ROOMIEST[paper];
  const between = (key: keyof Sizes, share = room): number =>
    TIGHTEST[key] + share * (roomiest[key] - TIGHTEST[key]);
  const pictures = room ** 0.7; // they give last
  return {
    room,
    keyValuePt: between('keyValuePt'),
    keyLabelPt: between('keyLabelPt'),
    keyDetailPt: between('keyDetailPt'),
    stepPt: between('stepPt'),
    stepPad: between('stepPad'),
    titlePt: between('titlePt'),
    shopPt: between('shopPt'),
    logoPt: between('logoPt'),
    bodyPt: between('bodyPt'),
    finePt: between('finePt'),
    gapPt: between('gapPt'),
    leading: between('leading'),
    sectionPt: between('sectionPt', pictures),
    roastPt: between('roastPt', pictures),
  };
}
