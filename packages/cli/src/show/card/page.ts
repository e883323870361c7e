import type { Picture } from './cardModel.js';
import type { Drawing } from './drawing.js';

/** Weights of the typeface a card is set in. */
export const WEIGHTS = [400, 600, 700] as const;

/** Weight of a text: regular, semibold, bold. */
export type Weight = (typeof WEIGHTS)[number];

/** Width of a text in one line [em]: times the size it is its width on paper. Kerning included. */
export type Measure = (text: string, weight: Weight) => number;

/** What ink is for. Text is black or accent only: grey text is screened by a black-and-white printer and frays. */
export const INKS = {
  text: '#000000',
  accent: '#7a1f1a',
  hairline: '#8c8c8c',
  tint: '#ececec',
  paper: '#ffffff',
} as const;

/** Name of an ink. */
export type Ink = keyof typeof INKS;

/** One thing a printer puts on paper. Points (1/72 inch) from the top left corner, y downwards. */
export type Op =
  | {
      readonly kind: 'text';
      readonly text: string;
      /** Left end of the text, and the line it stands on. */
      readonly x: number;
      readonly baseline: number;
      readonly sizePt: number;
      readonly weight: Weight;
      readonly ink: Ink;
    }
  | {
      readonly kind: 'box';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly ink: Ink;
    }
  | {
      readonly kind: 'picture';
      readonly picture: Picture;
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
    }
  | {
      readonly kind: 'drawing';
      readonly drawing: Drawing;
      readonly x: number;
      readonly y: number;
      /** Times the printed size the drawing was made for. Its texts never go below the smallest print. */
      readonly scale: number;
    };

/** What a part is to somebody who has the page read out; an ornament is passed over. */
export type Role = 'title' | 'heading' | 'paragraph' | 'figure' | 'ornament';

/** Things that belong together and are read out together. */
export interface Part {
  readonly role: Role;
  /** Of a figure. */
  readonly alt?: string;
  readonly ops: readonly Op[];
}

/** Blocks of a card. */
export type BlockName =
  | 'shop'
  | 'order'
  | 'title'
  | 'note'
  | 'keys'
  | 'steps'
  | 'roast'
  | 'section'
  | 'chart'
  | 'facts'
  | 'guests'
  | 'notices'
  | 'cautions'
  | 'footer';

/** A rectangle of the page that nothing else reaches into [pt]. */
export interface Block {
  readonly name: BlockName;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** In reading order. */
  readonly parts: readonly Part[];
}

/** A card laid out: what stands where, to the point. */
export interface Page {
  readonly widthPt: number;
  readonly heightPt: number;
  readonly marginPt: number;
  /** In reading order. */
  readonly blocks: readonly Block[];
}

/** Points in a millimetre. */
export const PT_PER_MM = 72 / 25.4;

/** The same thing elsewhere. Field by field, since a layout moves thousands of texts and spreading takes ten times as long. */
export function moved(op: Op, dx: number, dy: number): Op {
  if (op.kind !== 'text') return { ...op, x: op.x + dx, y: op.y + dy };
  const { kind, text, x, baseline, sizePt, weight, ink } = op;
  return { kind, text, x: x + dx, baseline: baseline + dy, sizePt, weight, ink };
}
