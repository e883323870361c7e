import {
  bracketedRoot,
  type CookOptions,
  CookRun,
  cookingLoss,
  type Roast,
  RoastError,
  rest,
  roastIn,
  roundRoast,
  type Stage,
} from '@roastsim/core';

/**
 * Where a cook's thermometer reads: a quarter of the radius off the axis. Food-safety agencies describe dial thermometers whose
 * coil averages over some centimetres of stem, and nobody hits the axis; the true axis is printed beside it.
 */
export const READING = 0.25;

/** Stations and shells of the rows that do not need the default mesh. */
export const COARSE = { stations: 24, shells: 24 } as const;

/** One cook: an oven until the thickest place reaches a temperature, then a rest. */
export interface Ask {
  readonly ovenC: number;
  readonly reachesC: number;
  /** Where that temperature is read: {@link READING} by default, 0 for the axis. */
  readonly offAxis?: number;
  readonly fan?: boolean;
  readonly start?: 'preheated' | 'cold';
  readonly before?: readonly Stage[];
  /** Default 30. */
  readonly restMinutes?: number;
  readonly tented?: boolean;
  readonly options?: CookOptions;
}

/** What came of it. The place is the thickest one clear of the ends: where the axis is coldest at the pull. */
export interface Outcome {
  readonly place: number;
  /** In the oven. */
  readonly minutes: number;
  readonly readingC: number;
  readonly axisC: number;
  readonly frontC: number;
  readonly meanC: number;
  /** From the pull to the highest value in the rest. */
  readonly readingRiseK: number;
  readonly axisRiseK: number;
  readonly axisPeakMinutes: number;
  /** Rise of the reading so many minutes into the rest. */
  readonly readingRiseAt: (minutes: number) => number;
  readonly axisRiseAt: (minutes: number) => number;
  /** Shares of the raw weight lost by the end of the rest, and of that loss evaporated. */
  readonly loss: number;
  readonly evaporatedShare: number;
}

const DEFAULT_REST_MINUTES = 30;

/** Cooks; undefined when the temperature is never reached. */
export function cookTo(roast: Roast, ask: Ask): Outcome | undefined {
  const { ovenC, reachesC, offAxis = READING, fan = false, start = 'preheated' } = ask;
  const run = new CookRun(roast, ask.options);
  for (const stage of ask.before ?? []) run.run(stage);
  const inS = run.atS;
  try {
    run.run(roastIn({ ovenC, fan, start, until: { reachesC, at: { atMm: 'coldest', offAxis } } }));
  } catch (error) {
    if (error instanceof RoastError && error.code === 'unreachable') return undefined;
    throw error;
  }
  const { atMm } = run.fixed({ atMm: 'coldest' });
  if (atMm === 'coldest') throw new Error('a place was asked for');
  const axis = (): number => run.temperatureOf({ atMm });
  const reading = (): number => run.temperatureOf({ atMm, offAxis: READING });
  const pullS = run.atS;
  const atPull = {
    place: atMm,
    minutes: (pullS - inS) / 60,
    readingC: reading(),
    axisC: axis(),
    frontC: run.temperatureOf({ atMm, offAxis: 1 }),
    meanC: run.meanOf({ atMm }),
  };
  const log = [{ minutes: 0, axisC: atPull.axisC, readingC: atPull.readingC }];
  run.run(rest({ minutes: ask.restMinutes ?? DEFAULT_REST_MINUTES, tented: ask.tented ?? true }), {
    onStep: () => {
      log.push({ minutes: (run.atS - pullS) / 60, axisC: axis(), readingC: reading() });
      return false;
    },
  });
  const hottest = log.reduce((best, now) => (now.axisC > best.axisC ? now : best));
  const { evaporatedKg, drippedKg, fraction } = cookingLoss(run.history());
  const riseAt =
    (key: 'axisC' | 'readingC') =>
    (minutes: number): number =>
      (log.find((row) => row.minutes >= minutes) ?? log[log.length - 1])[key] - atPull[key];
  return {
    ...atPull,
    readingRiseK: Math.max(...log.map((row) => row.readingC)) - atPull.readingC,
    axisRiseK: hottest.axisC - atPull.axisC,
    axisPeakMinutes: hottest.minutes,
    readingRiseAt: riseAt('readingC'),
    axisRiseAt: riseAt('axisC'),
    loss: fraction,
    evaporatedShare: evaporatedKg / (evaporatedKg + drippedKg),
  };
}

/** {@link cookTo} for a temperature that is reached. */
export function cooked(roast: Roast, ask: Ask): Outcome {
  const outcome = cookTo(roast, ask);
  if (outcome === undefined) throw new Error(`${ask.reachesC} °C is never reached`);
  return outcome;
}

/** A cylinder of one diameter [mm]; its length follows from the weight. */
export const cylinder = (massKg: number, sizeMm: number, startC = 4): Roast =>
  roundRoast({ massKg, startC, diameters: [{ sizeMm }] });

/** Diameter [mm] of the cylinder that takes the reported minutes, looked for between two diameters. */
export function diameterTaking(
  minutes: number,
  [lowMm, highMm]: readonly [number, number],
  make: (sizeMm: number) => Roast,
  ask: Ask,
): number {
  const gap = (sizeMm: number): number =>
    cooked(make(sizeMm), { ...ask, restMinutes: 0, options: COARSE }).minutes - minutes;
  return bracketedRoot(gap, lowMm, gap(lowMm), highMm, gap(highMm), 0.01, 60).x;
}

/** Computes at the first call and remembers. */
export function once<T>(make: () => T): () => T {
  let kept: { readonly value: T } | undefined;
  return () => {
    kept ??= { value: make() };
    return kept.value;
  };
}
