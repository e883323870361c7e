import { RoastError } from '../errors.js';
import type { Surroundings } from '../heat/index.js';
import { STANDARD_ATMOSPHERE_PA } from '../units/index.js';

/** What the solver was tried with; wider than any kitchen. */
const ACCEPTED_AROUND = {
  airC: [-40, 400],
  wallC: [-40, 1000],
  filmWPerM2K: [0, 5000],
  radiationFactor: [0, 1],
  vapourPa: [0, STANDARD_ATMOSPHERE_PA],
  vapourResistance: [1e4, Number.POSITIVE_INFINITY],
} as const satisfies Partial<Record<keyof Surroundings, readonly [number, number]>>;

const UNIT = {
  airC: '°C',
  wallC: '°C',
  filmWPerM2K: 'W/(m²·K)',
  radiationFactor: '',
  vapourPa: 'Pa',
  vapourResistance: 'Pa·m²·s/kg',
} as const satisfies Record<keyof typeof ACCEPTED_AROUND, string>;

const FIELDS = Object.keys(ACCEPTED_AROUND) as (keyof typeof ACCEPTED_AROUND)[];

/**
 * Copies what a caller's function said into surroundings of the solver, after a look at each figure: a NaN let in here would come
 * out as a plan.
 *
 * @throws RoastError `not-a-number` or `out-of-range`, with the field and the second of the stage
 */
export function writeChecked(found: Surroundings, atS: number, into: Surroundings): void {
  for (const field of FIELDS) {
    const [low, high] = ACCEPTED_AROUND[field];
    const value = found[field];
    if (typeof value === 'number' && value >= low && value <= high) {
      into[field] = value;
      continue;
    }
    const accepted = `${low} to ${high} ${UNIT[field]}`.trim();
    throw new RoastError(
      `the surroundings have ${field} ${value} ${atS.toFixed(0)} s into their stage; accepted is ${accepted}`,
      {
        code: Number.isFinite(value) ? 'out-of-range' : 'not-a-number',
        path: ['at', field],
        found: value,
        accepted,
      },
    );
  }
  into.condenses = found.condenses === true;
}
