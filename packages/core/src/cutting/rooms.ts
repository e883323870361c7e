import type { Window } from './demand.js';
import { type Muscle, massBeforeShare, PARTS } from './muscle.js';

/** Class of the pieces that share a window, or one of the two ends. */
export type ClassName = 'butt' | 'tail' | `${number}-${number}`;

/** Class of a window. */
export const classOf = ({ from, to }: Pick<Window, 'from' | 'to'>): ClassName => `${from}-${to}`;

/** Class of centre roasts. */
export const CENTRE_CLASS = classOf(PARTS.centre);

/** Classes that together have to fit into a stretch of the muscle. */
export interface Room {
  readonly classes: readonly ClassName[];
  readonly roomKg: number;
}

/** Windows in the order in which their pieces lie. */
export const inOrder = <W extends Pick<Window, 'from' | 'to'>>(windows: readonly W[]): W[] =>
  windows.toSorted((a, b) => a.from - b.from || a.to - b.to);

/**
 * What has to hold for pieces to fit: butt roast at one end, tail roast at the other, between them the classes in order. Where both
 * ends of the windows rise in that order this is also enough: each piece, as far to the butt end as it can go, then lies in its
 * window (docs/cutting.md).
 *
 * @param windows - those in use, one of each class
 */
export function roomsOf(muscle: Muscle, windows: readonly Pick<Window, 'from' | 'to'>[]): Room[] {
  const classes = inOrder(windows);
  const namesOf = (picked: typeof classes): ClassName[] => picked.map(classOf);
  const starts = [...new Set(classes.map(({ from }) => from))];
  const stops = [...new Set(classes.map(({ to }) => to))];
  const rooms: Room[] = [
    { classes: ['butt'], roomKg: massBeforeShare(muscle, PARTS.buttTo) },
    { classes: ['tail'], roomKg: muscle.massKg - massBeforeShare(muscle, PARTS.tailFrom) },
    { classes: ['butt', ...namesOf(classes), 'tail'], roomKg: muscle.massKg },
  ];
  for (const stop of stops) {
    const toKg = massBeforeShare(muscle, stop);
    rooms.push({
      classes: ['butt', ...namesOf(classes.filter(({ to }) => to <= stop))],
      roomKg: toKg,
    });
    for (const start of starts) {
      const between = classes.filter(({ from, to }) => from >= start && to <= stop);
      if (between.length === 0) continue;
      rooms.push({ classes: namesOf(between), roomKg: toKg - massBeforeShare(muscle, start) });
    }
  }
  for (const start of starts) {
    rooms.push({
      classes: [...namesOf(classes.filter(({ from }) => from >= start)), 'tail'],
      roomKg: muscle.massKg - massBeforeShare(muscle, start),
    });
  }
  return rooms;
}
