import type { Order, Problem } from '../read/orders.js';
import type { ShopSettings } from '../read/settings.js';
import type { Paper } from '../show/card/cardModel.js';
import type { RoastLine } from '../show/daySheet.js';

/** What a card can be printed as. */
export type Format = 'pdf' | 'html' | 'png';

/** What every worker is given once. */
export interface Shift {
  readonly settings: ShopSettings;
  readonly format: Format;
  /** Date of creation to put into the files. */
  readonly created: Date;
}

/** One card to make. */
export interface Job {
  readonly order: Order;
  /** Where its content goes. */
  readonly temporary: string;
}

/** How a job ended: only what the main thread needs, the card itself stays on the disk. */
export type Outcome =
  | {
      readonly kind: 'made';
      readonly line: RoastLine;
      readonly bytes: string;
      /** What the card is set for. */
      readonly paper: Paper;
    }
  | { readonly kind: 'problem'; readonly problem: Problem }
  | { readonly kind: 'unwritable'; readonly message: string };
