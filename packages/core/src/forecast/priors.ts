import type { Bath, OvenRoast, Roast } from '../cook/index.js';
import { RoastError } from '../errors.js';
import { normalDeviate, normalShare } from '../numerics/index.js';
import { checkName, checkNumber, checkObject } from '../units/index.js';

/**
 * What is not known before a cook. The order is that of the coordinates of a quasi-random point: what matters most comes first,
 * where the points are spread best.
 */
export const INPUTS = [
  'size',
  'modelTime',
  'conductivity',
  'vent',
  'ovenOffset',
  'wallOffset',
  'probe',
  'heatCapacity',
  'film',
  'crustVapour',
  'start',
  'emissivity',
  'crustHeat',
  'juice',
  'juiceDelay',
  'juiceShare',
  'modelRise',
] as const;

/** Name of something uncertain. */
export type InputName = (typeof INPUTS)[number];

/**
 * A doubt, as data. With z from a standard normal distribution it means
 *
 * - `factor`: the model's figure times exp(spread z);
 * - `shift`: the model's figure plus spread z;
 * - `distance`: |spread z|, a distance that has no direction.
 */
export interface Prior {
  readonly form: 'factor' | 'shift' | 'distance';
  /** Standard deviation: of the logarithm for a factor, 0 to 1; else in `unit`, 0 to 30. */
  readonly spread: number;
  /** Another spread below the middle, where the doubt leans to one side. */
  readonly spreadBelow?: number;
  /** Logarithm of a factor's middle, where that is not the model's figure. */
  readonly middle?: number;
  readonly unit: string;
  /** Where the spread comes from, or "judgement". */
  readonly source: string;
}

/** A prior for every input. */
export type Priors = Readonly<Record<InputName, Prior>>;

/**
 * What a caller knows better: whole priors, or other spreads (0 for what is known exactly). Spreads are 0 to 1 for a factor, 0 to 30
 * for a shift or a distance; the form of a doubt stays.
 */
export type PriorChanges = Partial<Record<InputName, Partial<Prior>>>;

const JUDGEMENT = 'judgement';

// Sizes: retail and butchers' statements of lengths and diameters (docs/model.md, section 10) scatter by about 7 %.
const SIZE_SPREAD = { weight: 0.07, length: 0.04, tape: 0.03 } as const;
const CALM_OVEN_C = 150; // from here up the charts show no error in one direction (docs/validation.md)
const LOW_OVEN_C = 95;
const LOW_OVEN_SPREAD = 0.6; // reports at 93 to 100 °C: 0.19 to 0.44 of the model's time (docs/validation.md)

/** What fixes a roast's thickness: a tape, its length, or only its weight. */
export function sizeKnownBy(roast: Roast): 'tape' | 'length' | 'weight' {
  if (roast.tapeMassKg !== undefined) return 'tape';
  return roast.usualLengthMm !== undefined || roast.cut === 'other' ? 'length' : 'weight';
}

/** How far the model's times may be off for reasons no input stands for. */
function modelTime(roast: Roast, heat: OvenRoast | Bath): Prior {
  const all = { form: 'factor', unit: '-' } as const;
  if (heat.kind === 'bath') {
    return {
      ...all,
      spread: 0.09,
      spreadBelow: 0.04,
      source: `${JUDGEMENT}: bagged meat may meet a smaller coefficient, +14 % (docs/model.md, section 13)`,
    };
  }
  const calm = roast.cut === 'other' ? 0.09 : 0.04;
  const source =
    roast.cut === 'other'
      ? 'hold-out cuts, 15 % either way (docs/validation.md)'
      : `${JUDGEMENT}: residual of the charts (docs/validation.md)`;
  if (heat.ovenC >= CALM_OVEN_C) return { ...all, spread: calm, source };
  const depth = Math.min(1, (CALM_OVEN_C - heat.ovenC) / (CALM_OVEN_C - LOW_OVEN_C));
  return {
    ...all,
    spread: calm,
    spreadBelow: calm + depth * (LOW_OVEN_SPREAD - calm),
    source: `${source}; below 150 °C reports are faster than the model, and only faster`,
  };
}

/**
 * The doubts about one cook, each with its source.
 *
 * @param changes - what the caller knows better: `{ ovenOffset: { spread: 2 } }` after a look at an oven thermometer
 * @throws RoastError `unknown-name`, `out-of-range`, `not-a-number` or `contradiction` for the changes
 * @example
 * priorsFor(roast, request.heat, { ovenOffset: { spread: 2 } }).ovenOffset.spread // => 2
 */
export function priorsFor(
  roast: Roast,
  heat: OvenRoast | Bath,
  changes: PriorChanges = {},
): Priors {
  checkChanges(changes);
  const fan = heat.kind === 'roast' && heat.fan;
  const known = sizeKnownBy(roast);
  const factor = (spread: number, source: string): Prior => ({
    form: 'factor',
    spread,
    unit: '-',
    source,
  });
  const shift = (spread: number, unit: string, source: string): Prior => ({
    form: 'shift',
    spread,
    unit,
    source,
  });
  const priors: Priors = {
    size: factor(SIZE_SPREAD[known], `${JUDGEMENT}, from ${known}: docs/model.md, section 10`),
    modelTime: modelTime(roast, heat),
    conductivity: factor(0.05, 'published lean beef scatters by 7 % (docs/model.md, section 2)'),
    vent: factor(0.6, `${JUDGEMENT}: calibrated, ovens differ widely`),
    ovenOffset: shift(8, 'K', `${JUDGEMENT}: household thermostats`),
    wallOffset: shift(8, 'K', `${JUDGEMENT}: glowing elements, cold loads`),
    probe: { form: 'distance', spread: 0.12, unit: 'of the radius', source: JUDGEMENT },
    heatCapacity: factor(0.02, 'published beef, and heats of denaturation left out'),
    film: factor(
      fan ? 0.4 : 0.25,
      fan ? '12 to 40 W/(m² K) reported' : `${JUDGEMENT} round Churchill and Chu 1975`,
    ),
    crustVapour: factor(0.5, `${JUDGEMENT}: calibrated`),
    start: shift(1.5, 'K', `${JUDGEMENT}: household refrigerators`),
    emissivity: shift(0.04, '-', 'moist food 0.9 to 0.98 in handbooks, from memory'),
    crustHeat: factor(0.4, JUDGEMENT),
    juice: shift(0.05, 'kg/kg', 'other muscles lose 0.30 to 0.38 in long baths'),
    juiceDelay: factor(0.4, JUDGEMENT),
    juiceShare: shift(0.12, '-', JUDGEMENT),
    modelRise: factor(
      0.15,
      `${JUDGEMENT}: carryover may be wrong by 3 K either way (docs/validation.md)`,
    ),
  };
  const merged = Object.fromEntries(
    INPUTS.map((name) => {
      const change = changes[name];
      if (change === undefined) return [name, priors[name]];
      checkChange(name, priors[name], change);
      const { spreadBelow: _, ...plain } = priors[name];
      // a caller's spread holds on both sides
      return [name, { ...(change.spread === undefined ? priors[name] : plain), ...change }];
    }),
  );
  return merged as unknown as Priors;
}

const MOST_SPREAD = { factor: 1, shift: 30, distance: 30 } as const; // wider is no knowledge. Judgement

function checkChanges(changes: PriorChanges): void {
  checkObject(changes, ['priors'], 'the doubts', '{ size: { spread: 0.02 } }');
  for (const name of Object.keys(changes)) checkName(name, INPUTS, ['priors', name], 'a doubt');
}

/** A change that is a spread, or a whole prior of the same form. */
function checkChange(name: InputName, { form }: Prior, change: Partial<Prior>): void {
  const path = ['priors', name];
  checkObject(change, path, `the doubt ${name}`, '{ spread: 0.02 }');
  if (change.form !== undefined && change.form !== form) {
    throw new RoastError(`the doubt ${name} is a ${form}, not a ${String(change.form)}`, {
      code: 'contradiction',
      path: [...path, 'form'],
      found: change.form,
      accepted: form,
    });
  }
  for (const field of ['spread', 'spreadBelow'] as const) {
    if (!(field in change)) continue;
    checkNumber(change[field], [0, MOST_SPREAD[form]], [...path, field], `the spread of ${name}`);
  }
  if ('middle' in change) {
    checkNumber(change.middle, [-2, 2], [...path, 'middle'], `the middle of ${name}`);
  }
}

const FARTHEST = 6; // standard deviations: beyond, 1 + share is 2 to rounding

/**
 * A leaning factor as a straight one of the same mean and variance in its logarithm, for a fit, which knows only normal
 * distributions. With spreads a above and b below: mean (a - b)/sqrt(2 pi), variance (a² + b²)/2 less its square.
 */
export function upright(prior: Prior): Prior {
  const { spread, spreadBelow, ...rest } = prior;
  if (spreadBelow === undefined || spreadBelow === spread) return prior;
  const middle = (spread - spreadBelow) / Math.sqrt(2 * Math.PI);
  return {
    ...rest,
    spread: Math.sqrt((spread ** 2 + spreadBelow ** 2) / 2 - middle ** 2),
    middle: (prior.middle ?? 0) + middle,
  };
}

/** What a standard normal deviate z means for an input: a factor, a shift or a distance. */
export function deviationOf(prior: Prior, z: number): number {
  const spread = z < 0 ? (prior.spreadBelow ?? prior.spread) : prior.spread;
  switch (prior.form) {
    case 'factor':
      return Math.exp((prior.middle ?? 0) + spread * z);
    case 'shift':
      return spread * z;
    case 'distance':
      // the half-normal quantile, so that it rises with z and every z counts once
      return spread * normalDeviate((1 + normalShare(Math.min(z, FARTHEST))) / 2);
  }
}

/** Deviations of all inputs. */
export type Deviations = Readonly<Record<InputName, number>>;

/**
 * What a point z in standard deviations, in the order of {@link INPUTS}, means.
 *
 * @example
 * const priors = priorsFor(roast, request.heat)
 * const typical = deviationsOf(priors, new Float64Array(INPUTS.length))
 * typical.ovenOffset // => 0
 */
export const deviationsOf = (priors: Priors, z: ArrayLike<number>): Deviations =>
  Object.fromEntries(
    INPUTS.map((name, i) => [name, deviationOf(priors[name], z[i])]),
  ) as unknown as Deviations;

/** The model as it stands, with the thermometer on the axis. */
export const NO_DEVIATION: Deviations = {
  size: 1,
  modelTime: 1,
  conductivity: 1,
  vent: 1,
  ovenOffset: 0,
  wallOffset: 0,
  probe: 0,
  heatCapacity: 1,
  film: 1,
  crustVapour: 1,
  start: 0,
  emissivity: 0,
  crustHeat: 1,
  juice: 0,
  juiceDelay: 1,
  juiceShare: 0,
  modelRise: 1,
};
