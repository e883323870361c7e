/** A point [mm], x to the right, y downwards. */
export type PointMm = readonly [x: number, y: number];

/** One thing on a drawing. Tone runs from 0 (paper) to 1 (black), so a drawing reads the same in print without colour. */
export type Mark =
  | {
      readonly kind: 'area';
      /** Closed outlines; where they overlap evenly there is a hole (even-odd rule). */
      readonly rings: readonly (readonly PointMm[])[];
      readonly tone: number;
    }
  | {
      readonly kind: 'line';
      readonly points: readonly PointMm[];
      readonly widthMm: number;
      readonly tone: number;
      /** On and off lengths [mm]; solid without. */
      readonly dashMm?: readonly number[];
    }
  | {
      readonly kind: 'text';
      readonly at: PointMm;
      readonly text: string;
      readonly sizePt: number;
      readonly anchor: 'start' | 'middle' | 'end';
      readonly bold: boolean;
      readonly tone: number;
      /** Paper-coloured halo round the letters [mm], so that they read on a hatch. */
      readonly haloMm?: number;
    };

/** A drawing as plain geometry, at its printed size. Every printer draws exactly these marks, in order. */
export interface Drawing {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marks: readonly Mark[];
  /** What it shows, for those who cannot see it. */
  readonly alt: string;
}
