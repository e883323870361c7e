import type { TemperatureUnit, TimeUnit } from './probeLogColumns.js';
import { plainText, refuse } from './text.js';

const TEMPERATURES: Readonly<Record<string, TemperatureUnit>> = {
  c: 'C',
  '°c': 'C',
  celsius: 'C',
  f: 'F',
  '°f': 'F',
  fahrenheit: 'F',
};
const TIMES: Readonly<Record<string, TimeUnit>> = {
  ms: 'ms',
  s: 's',
  sec: 's',
  seconds: 's',
  min: 'min',
  minutes: 'min',
  h: 'h',
  hours: 'h',
};

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
    const [temperature, time] = [TEMPERATURES[word], TIMES[word]];
    if (temperature === undefined && time === undefined) {
      return refuse(reading, 'unknown-name', 'that is no unit of a log');
    }
    const twice = temperature === undefined ? said.time : said.temperature;
    if (twice !== undefined) refuse(reading, 'contradiction', 'it says one of them twice');
    said = { ...said, ...(temperature === undefined ? { time } : { temperature }) };
  }
  return said;
}
