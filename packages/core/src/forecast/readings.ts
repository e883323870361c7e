import { quantileOf } from '../numerics/index.js';

/** What a thermometer showed at a moment. */
export interface Reading {
  /** Minutes since the first oven or bath stage began; below 0 before it. */
  readonly minutes: number;
  /** In the middle of the meat [°C]. */
  readonly centreC: number;
  /** A second thermometer in the meat [°C]. */
  readonly secondC?: number;
  /** The oven's air [°C]. */
  readonly ovenC?: number;
}

/** The readings of one short span of time as one: medians, NaN where nothing plausible was read. */
export interface Sample {
  readonly minutes: number;
  readonly centreC: number;
  readonly secondC: number;
  readonly ovenC: number;
  /** Readings it stands for. */
  readonly count: number;
}

const DAY_MINUTES = 24 * 60;
const MEAT_C = [-10, 115] as const; // beyond, a probe is out of the meat
const OVEN_C = [0, 400] as const;
const SPAN_MINUTES = 1;
const MOST_SAMPLES = 240;

const within = (x: number | undefined, [low, high]: readonly [number, number]): boolean =>
  x !== undefined && x >= low && x <= high;

/** Median; NaN of nothing. */
function median(values: readonly number[]): number {
  if (values.length === 0) return Number.NaN;
  return quantileOf(
    [...values].sort((a, b) => a - b),
    0.5,
  );
}

/** Whether anything in a reading can be used. */
export const usable = (reading: Reading): boolean =>
  Math.abs(reading.minutes) <= DAY_MINUTES &&
  (within(reading.centreC, MEAT_C) ||
    within(reading.secondC, MEAT_C) ||
    within(reading.ovenC, OVEN_C));

/**
 * Puts readings in order and takes the median of every minute (of every 240th part of a long log): a spike among many readings
 * vanishes, and a reading every second is not taken for sixty independent ones a minute. Neither order nor repeats matter.
 */
export function thinned(readings: readonly Reading[]): Sample[] {
  const good = readings.filter(usable);
  if (good.length === 0) return [];
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
  for (const { minutes } of good) {
    from = Math.min(from, minutes);
    to = Math.max(to, minutes);
  }
  const span = Math.max(SPAN_MINUTES, (to - from) / MOST_SAMPLES);
  const bins = new Map<number, Reading[]>();
  for (const reading of good) {
    const key = Math.floor(reading.minutes / span);
    const bin = bins.get(key);
    if (bin === undefined) bins.set(key, [reading]);
    else bin.push(reading);
  }
  const pick = (bin: readonly Reading[], of: 'centreC' | 'secondC' | 'ovenC'): number =>
    median(
      bin.flatMap((reading) => {
        const x = reading[of];
        return x !== undefined && within(x, of === 'ovenC' ? OVEN_C : MEAT_C) ? [x] : [];
      }),
    );
  return [...bins.keys()]
    .sort((a, b) => a - b)
    .map((key) => {
      const bin = bins.get(key) ?? [];
      return {
        minutes: median(bin.map((reading) => reading.minutes)),
        centreC: pick(bin, 'centreC'),
        secondC: pick(bin, 'secondC'),
        ovenC: pick(bin, 'ovenC'),
        count: bin.length,
      };
    });
}
