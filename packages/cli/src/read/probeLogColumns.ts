import { plain } from './text.js';

/** What a column of a log holds. */
export type LogField = 'time' | 'date' | 'centre' | 'second' | 'oven';

/** A unit that a column's name or the person says for bare numbers. */
export type TemperatureUnit = 'C' | 'F';
export type TimeUnit = 'ms' | 's' | 'min' | 'h';

/** A column with the unit of its bare numbers, where its name says one. */
export interface LogColumn {
  readonly field: LogField;
  readonly temperature?: TemperatureUnit;
  readonly time?: TimeUnit;
  /** Times count from the log's own beginning, even when they look like a clock's. */
  readonly elapsed?: boolean;
  /** Two numbers with a colon are minutes and seconds. */
  readonly minutesSeconds?: boolean;
}

const TEMPERATURE_UNITS: ReadonlyMap<string, TemperatureUnit> = new Map([
  ['c', 'C'],
  ['degc', 'C'],
  ['celsius', 'C'],
  ['centigrade', 'C'],
  ['f', 'F'],
  ['degf', 'F'],
  ['fahrenheit', 'F'],
]);
const TIME_UNITS: ReadonlyMap<string, TimeUnit> = new Map([
  ['ms', 'ms'],
  ['millis', 'ms'],
  ['milliseconds', 'ms'],
  ['s', 's'],
  ['sec', 's'],
  ['secs', 's'],
  ['second', 's'],
  ['seconds', 's'],
  ['min', 'min'],
  ['mins', 'min'],
  ['minute', 'min'],
  ['minutes', 'min'],
  ['h', 'h'],
  ['hr', 'h'],
  ['hours', 'h'],
]);
const TIME_WORDS = ['time', 'timestamp', 'datetime', 'clock', 't', 'when', 'at'];
const ELAPSED_WORDS = ['elapsed', 'timer', 'duration', 'running'];
const OVEN_WORDS = ['oven', 'ambient', 'air', 'chamber', 'cavity', 'bath', 'water'];
const SECOND_WORDS = ['second', 'other', '2', 'two'];
const CENTRE_WORDS = ['centre', 'center', 'core', 'middle', 'internal', 'meat', 'roast', 'food'];
const FIRST_WORDS = ['1', 'one', 'first'];
const PROBE_WORDS = ['probe', 'temp', 'temperature', 'thermometer', 'sensor', 'reading', 'channel'];
const NOT_READ = ['set', 'setting', 'setpoint', 'target', 'alarm', 'goal', 'battery', 'humidity'];

/** Words of a column's name: capitals, underscores, hyphens, brackets and `centreC` do not matter. */
const wordsOf = (name: string): string[] =>
  plain(name.slice(0, 200))
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .replace(/mm ?: ?ss/g, 'mmss')
    .replace(/([a-z])(\d)/g, '$1 $2')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');

/** What a column holds by its name; nothing when the name says nothing here. */
export function columnNamed(name: string): LogColumn | undefined {
  const words = wordsOf(name);
  const has = (list: readonly string[]): boolean => words.some((word) => list.includes(word));
  if (words.length === 0 || has(NOT_READ)) return undefined;
  if (words.length === 1 && words[0] === 'date') return { field: 'date' };
  const meat = has(CENTRE_WORDS) || has(PROBE_WORDS);
  const timeUnit = words.map((word) => TIME_UNITS.get(word)).find((unit) => unit !== undefined);
  // "second" by itself is the second thermometer, "seconds" is a time
  const onlyUnits = words[0] !== 'second' && words.every((word) => TIME_UNITS.has(word));
  if (!meat && !has(OVEN_WORDS) && (has(TIME_WORDS) || has(ELAPSED_WORDS) || onlyUnits)) {
    return {
      field: 'time',
      ...(timeUnit === undefined ? {} : { time: timeUnit }),
      ...(has(ELAPSED_WORDS) ? { elapsed: true } : {}),
      ...(words.includes('mmss') ? { elapsed: true, minutesSeconds: true } : {}),
    };
  }
  const unit = words.map((word) => TEMPERATURE_UNITS.get(word)).find((each) => each !== undefined);
  const temperature = unit === undefined ? {} : { temperature: unit };
  if (has(OVEN_WORDS)) return { field: 'oven', ...temperature };
  if (has(SECOND_WORDS)) return { field: 'second', ...temperature };
  const numbered = words.some((word) => /^\d+$/.test(word) && word !== '1');
  if (!numbered && (meat || has(FIRST_WORDS))) return { field: 'centre', ...temperature };
  return undefined;
}

/** Columns of a log whose first line names none, by how many there are. */
export const UNNAMED: readonly LogColumn[] = [
  { field: 'time' },
  { field: 'centre' },
  { field: 'second' },
  { field: 'oven' },
];

/**
 * Columns by their names, the first of each kind; nothing unless there is a time and something measured.
 *
 * @returns as many as there are names
 */
export function columnsNamed(
  names: readonly string[],
): readonly (LogColumn | undefined)[] | undefined {
  const taken = new Set<LogField>();
  const columns = names.map((name) => {
    const column = columnNamed(name);
    if (column === undefined || taken.has(column.field)) return undefined;
    taken.add(column.field);
    return column;
  });
  const timed = taken.has('time') || taken.has('date');
  const measured = taken.has('centre') || taken.has('second') || taken.has('oven');
  if (!timed || !measured) return undefined;
  return columns;
}
