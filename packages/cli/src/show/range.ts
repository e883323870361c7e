import type { Plan, QuickInterval } from '@roastsim/core';

/** Minutes to the pull as a range, and how sure it is. */
export type Range = Pick<QuickInterval, 'lowMinutes' | 'likelyMinutes' | 'highMinutes'>;

/** `28 to 47`, rounded outwards; `28 or more` where the pull may never come. `shift` is added to both ends [min]. */
export function spanText({ lowMinutes, highMinutes }: Range, shift = 0): string {
  const low = Math.floor(lowMinutes + shift);
  return Number.isFinite(highMinutes)
    ? `${low} to ${Math.ceil(highMinutes + shift)}`
    : `${low} or more`;
}

/** `28 to 47 min, most likely 37`: minutes to the pull, from the beginning of the first oven or bath stage. */
export function rangeText(range: Range): string {
  const { likelyMinutes } = range;
  const likely = Number.isFinite(likelyMinutes)
    ? `, most likely ${Math.round(likelyMinutes)}`
    : ', and may never come';
  return Number.isFinite(range.highMinutes)
    ? `${spanText(range)} min${likely}`
    : `${Math.floor(range.lowMinutes)} min or more${likely}`;
}

/** Minutes of the first look since the first oven or bath stage began. */
export const lookMinutes = ({ firstLook, pull }: Plan): number =>
  Math.floor(firstLook.atMinutes - (pull.atMinutes - pull.minutes));
