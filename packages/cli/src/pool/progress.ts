import { Format, SingleBar } from 'cli-progress';

/** Tells somebody at a terminal how far the work is. */
export interface Progress {
  readonly done: () => void;
  readonly stop: () => void;
}

const SILENT: Progress = { done: () => undefined, stop: () => undefined };

/** Jobs over which the remaining time is averaged: the first ones are slow, their code is cold. */
const AVERAGED = 40;

/** A bar with the remaining time on standard error, when that is a terminal; nothing on a pipe. */
export function progress(total: number, what = 'cards'): Progress {
  if (process.stderr.isTTY !== true) return SILENT;
  const bar = new SingleBar({
    format: (options, { progress: share, value, total: all, eta }) => {
      const left = value === 0 ? '' : `, ${Format.TimeFormat(eta, options, 1)} left`;
      return `${Format.BarFormat(share, options)} ${value} of ${all} ${what}${left}`;
    },
    barCompleteChar: '=',
    barIncompleteChar: '-',
    barsize: 30,
    etaBuffer: AVERAGED,
    clearOnComplete: true,
    // nothing that would have to be undone: the signal that ends a run ends it at once
    hideCursor: false,
    linewrap: true,
    gracefulExit: false,
    stream: process.stderr,
  });
  bar.start(total, 0);
  return { done: () => bar.increment(), stop: () => bar.stop() };
}
