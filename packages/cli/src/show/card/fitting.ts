import { RoastError } from '@roastsim/core';
import type { CardModel, Paper } from './cardModel.js';

/** Paper a card is set for when the one it stands on has no room and nobody asked for it. */
export const LARGER_PAPER = 'a4' satisfies Paper;

/** Whether the layout found no room on the paper. */
const isTooLong = (error: unknown): boolean =>
  error instanceof RoastError && error.code === 'out-of-range' && error.path[0] === 'card';

/** A printed card and the paper it is set for. */
export interface Fitted<T> {
  readonly content: T;
  readonly paper: Paper;
}

/**
 * Prints a card; where its texts have no room on a paper that nobody asked for, on {@link LARGER_PAPER}: rather a larger card than none.
 *
 * @param asked - paper that was asked for, by an option or a settings file
 * @throws RoastError `out-of-range`, path `['card']`, when there is no room there either
 */
export async function printFitting<T>(
  card: CardModel,
  asked: Paper | undefined,
  print: (card: CardModel) => Promise<T>,
): Promise<Fitted<T>> {
  try {
    return { content: await print(card), paper: card.paper };
  } catch (error) {
    if (asked !== undefined || !isTooLong(error)) throw error;
    return { content: await print({ ...card, paper: LARGER_PAPER }), paper: LARGER_PAPER };
  }
}
