import type { TemperatureUnit, TimeUnit } from './probeLogColumns.js';
import { plainText, refuse } from './text.js';

// maps, not objects: a person may type the name of what every object has
const TEMPERATURES: ReadonlyMap<string, TemperatureUnit> = new Map([
  ['c', 'C'],
  ['°c', 'C'],
  ['celsius', 'C'],
  ['f', 'F'],
  ['°f', 'F'],
  ['fahrenheit', 'F'],
]);
const TIMES: ReadonlyMap<string, TimeUnit> = new Map([
  ['ms', 'ms'],
  ['s', 's'],
  ['sec', 's'],
  ['seconds', 's'],
  ['min', 'min'],
  ['minutes', 'min'],
  ['h', 'h'],
  ['hours', 'h'],
]);

/** What a person says about a log's bare numbers. */
export interface SaidUnits {
  readonly temperature?: TemperatureUnit;
  readonly time?: TimeUnit;
}

/**
 * Reads the units of a log: `F`, `min`, `F,min`, `C s`.
 *
 * @throws RoastError `unknown-name` or `contradiction`
 */
export function readLogUnits(text: string, option: string): SaidUnits {
  const reading = { option, text, accepted: 'C or F, and s, min, h or ms: "F,min"' };
  let said: SaidUnits = {};
  for (const word of plainText(reading)
    .toLowerCase()
    .split(/[ ,;+]+/)) {
    const temperature = TEMPERATURES.get(word);
    const time = TIMES.get(word);
    const found = temperature !== undefined ? { temperature } : time !== undefined ? { time } : {};
    const [unit] = Object.keys(found);
    if (unit === undefined) return refuse(reading, 'unknown-name', 'that is no unit of a log');
    if (unit in said) refuse(reading, 'contradiction', 'it says one of them twice');
    said = { ...said, ...found };
  }
  return said;
}
