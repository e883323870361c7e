import type { StageRecord } from '../cook/index.js';

/** Minutes a cook's hands are needed. All of them engineering judgement, no source: they only rank ways against each other. */
export const HANDS_ON_MINUTES = {
  /** Unpack, pat dry, salt. */
  counter: 5,
  /** Heat the pan, move the roast; the sear itself comes on top, in full. */
  pan: 3,
  /** Put under the element and take out; it is watched meanwhile, in full. */
  ovenSear: 1,
  /** Into the oven and out. */
  oven: 2,
  /** A look at the thermometer: so many near the pull, and one every so many minutes before. */
  look: 1,
  looksNearPull: 3,
  betweenLooks: 30,
  /** Bag, seal and sink; take out, unpack and pat dry. */
  bath: 8,
  /** Onto the board, foil over it. */
  rest: 1,
  /** Cut across, and tie again. */
  cutInTwo: 4,
} as const;

/**
 * Minutes of a cook's attention that stages take, carving not counted.
 *
 * @param pieces - pieces that cook side by side, each with its own pull
 * @example
 * handsOnMinutes(cook.stages) // => 12
 */
export function handsOnMinutes(stages: readonly StageRecord[], pieces = 1): number {
  const m = HANDS_ON_MINUTES;
  let minutes = pieces > 1 ? m.cutInTwo : 0;
  let heats = 0;
  for (const { stage, startS, endS } of stages) {
    const lasts = (endS - startS) / 60;
    switch (stage.kind) {
      case 'temper':
        minutes += m.counter;
        break;
      case 'pan-sear':
        minutes += m.pan + lasts;
        break;
      case 'oven-sear':
        minutes += m.ovenSear + lasts;
        break;
      case 'roast':
      case 'surroundings':
        minutes += m.oven + m.look * Math.floor(lasts / m.betweenLooks);
        heats++;
        break;
      case 'bath':
        minutes += m.bath;
        heats++;
        break;
      case 'rest':
        minutes += m.rest;
        break;
    }
  }
  return heats > 0 ? minutes + pieces * m.looksNearPull * m.look : minutes;
}
