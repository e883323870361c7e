import { RoastError } from '@roastsim/core';
import { CsvError, parse } from 'csv-parse/sync';
import { BadCell, isBare, nearestDay, readCellC, readStamp, type Stamp } from './probeLogCells.js';
import {
  columnNamed,
  columnsNamed,
  type LogColumn,
  type LogField,
  type TemperatureUnit,
  type TimeUnit,
  UNNAMED,
} from './probeLogColumns.js';
import { LINE_LIMIT } from './probeLogLines.js';

/** One reading of a log. NaN where a thermometer showed nothing. */
export interface LogReading {
  /** On the log's own time line; see {@link LogReading.fromZero}. */
  readonly atMinutes: number;
  /** The time line begins at 0; otherwise at the first reading. */
  readonly fromZero: boolean;
  /** Time of day [min since midnight], where the log says it. */
  readonly clockMinutes?: number;
  readonly centreC: number;
  readonly secondC: number;
  readonly ovenC: number;
}

/** A line that could not be read. */
export interface BadLine {
  /** The first being 1. */
  readonly line: number;
  readonly reason: string;
}

/** What is known about a log's bare numbers. */
export interface LogUnits {
  /** Said by the person; overruled by a column's name and by a cell's own unit. */
  readonly temperature?: TemperatureUnit;
  readonly time?: TimeUnit;
  /** Of temperatures where nobody says anything. */
  readonly assumed: TemperatureUnit;
  /** No cook of this kind lasts longer: bare times beyond are seconds [min]. */
  readonly longestMinutes: number;
}

const ACCEPTED =
  'CSV or JSON lines with a time and a centre temperature, as docs/probe.md describes';
const TOLD = 5; // bad lines that are told with their reason
const BEGINNING = 50; // lines in which the first reading or the column names must come
const FARTHEST_MINUTES = 24 * 60; // from one line to the next
const SEPARATORS = [',', ';', '\t'] as const;
const IMPOSSIBLE_K_PER_MINUTE = 8; // no roast's middle is heated that fast
const CLEAR_RISE_K = 2; // above a thermometer's flicker
const MOST_PENDING = 2000;

/** A line taken apart. */
interface Row {
  readonly columns: readonly (LogColumn | undefined)[];
  readonly cells: readonly string[];
}

/** Readings whose bare times wait until it is known what they mean. */
interface Pending {
  readonly value: number;
  readonly reading: Omit<LogReading, 'atMinutes' | 'fromZero'>;
}

/**
 * Reads a thermometer's log line by line, as the lines come. It never throws over a line: what cannot be read is counted.
 *
 * @example
 * const log = new ProbeLog({ assumed: 'C', longestMinutes: 300 })
 * log.push('12.5 min,18.2') // one reading
 */
export class ProbeLog {
  readonly #units: LogUnits;
  readonly #bad: BadLine[] = [];
  readonly #notes = new Set<string>();
  #lines = 0;
  #readings = 0;
  #badCount = 0;
  #separator: string | undefined;
  #columns: readonly (LogColumn | undefined)[] | undefined;
  /** Names were seen, if not enough of them: what follows must not be taken for columns without any. */
  #named = false;
  #timeUnit: TimeUnit | undefined;
  #pending: Pending[] = [];
  #before: number | undefined;

  constructor(units: LogUnits) {
    this.#units = units;
    this.#timeUnit = units.time;
  }

  /** Lines that held something and could not be read. */
  get badCount(): number {
    return this.#badCount;
  }

  /** The first few of them. */
  get bad(): readonly BadLine[] {
    return this.#bad;
  }

  /** What was taken for granted, one sentence each. */
  get notes(): readonly string[] {
    return [...this.#notes];
  }

  /** Lines seen and readings found so far. */
  get lines(): number {
    return this.#lines;
  }

  /** Takes one line; gives the readings that can be told now: mostly one, none for what is no reading. */
  push(line: string): readonly LogReading[] {
    this.#lines++;
    if (line.length > LINE_LIMIT) return this.#refuse('the line is too long');
    const text = line.trim();
    if (text === '' || text.startsWith('#')) return [];
    try {
      const row = this.#rowOf(text);
      return row === undefined ? [] : this.#readingOf(row);
    } catch (error) {
      if (error instanceof BadCell) return this.#refuse(error.message);
      throw error;
    }
  }

  /**
   * Ends the log; gives what was still waiting.
   *
   * @throws RoastError `missing` when there was no reading, `missing-unit` when nothing tells seconds from minutes
   */
  end(): readonly LogReading[] {
    if (this.#pending.length > 0) {
      const accepted = 'a column named "time s" or "time min", or --log-units min';
      throw new RoastError(
        `LOG: nothing tells whether its times are seconds or minutes; accepted: ${accepted}`,
        { code: 'missing-unit', path: ['LOG'], found: undefined, accepted },
      );
    }
    if (this.#readings > 0) return [];
    const [first] = this.#bad;
    const why = first === undefined ? '' : ` (line ${first.line}: ${first.reason})`;
    throw new RoastError(`LOG: there is no reading in it${why}; accepted: ${ACCEPTED}`, {
      code: 'missing',
      path: ['LOG'],
      found: undefined,
      accepted: ACCEPTED,
    });
  }

  #refuse(reason: string): readonly LogReading[] {
    this.#badCount++;
    if (this.#bad.length < TOLD) this.#bad.push({ line: this.#lines, reason });
    return [];
  }

  /** Takes a line apart; nothing for the line that names the columns. */
  #rowOf(text: string): Row | undefined {
    if (/^[[{\]]/.test(text) && this.#separator === undefined) return jsonRow(text);
    if (this.#columns !== undefined && this.#separator !== undefined) {
      return { columns: this.#columns, cells: cellsOf(text, this.#separator) };
    }
    for (const separator of SEPARATORS) {
      const cells = cellsOf(text, separator);
      if (cells.length < 2) continue;
      const named = columnsNamed(cells);
      const unnamed = !this.#named && this.#isReading(cells) ? UNNAMED : undefined;
      const columns = named ?? unnamed;
      this.#named ||= cells.filter((cell) => columnNamed(cell) !== undefined).length > 1;
      if (columns === undefined) continue;
      this.#separator = separator;
      this.#columns = columns;
      return named === undefined ? { columns, cells } : undefined;
    }
    if (this.#lines > BEGINNING) throw new BadCell('there are no column names above it');
    throw new BadCell(
      this.#named
        ? 'the column names lack a time or a temperature'
        : 'it is neither a reading nor names columns',
    );
  }

  /** Whether cells without names are a time and temperatures. */
  #isReading([time, ...others]: readonly string[]): boolean {
    try {
      readStamp(time, UNNAMED[0], this.#timeUnit);
      return (
        others.length < UNNAMED.length &&
        others.some((cell) => !Number.isNaN(readCellC(cell, this.#units.assumed)))
      );
    } catch (error) {
      if (error instanceof BadCell) return false;
      throw error;
    }
  }

  #readingOf({ columns, cells }: Row): readonly LogReading[] {
    const at = (field: LogField): number => columns.findIndex((column) => column?.field === field);
    const cellC = (field: 'centre' | 'second' | 'oven'): number => {
      const index = at(field);
      return index < 0 ? Number.NaN : this.#temperature(cells[index] ?? '', columns[index]);
    };
    const [timeAt, dateAt] = [at('time'), at('date')];
    const [date, time] = [cells[dateAt] ?? '', cells[timeAt] ?? ''];
    if (date === '' && time === '') throw new BadCell('there is no time in it');
    const column = columns[timeAt] ?? { field: 'time' };
    const whole = date !== '' && time !== '' ? `${date} ${time}` : date === '' ? time : date;
    const stamp = readStamp(whole, column, column.time ?? this.#timeUnit);
    const reading = { centreC: cellC('centre'), secondC: cellC('second'), ovenC: cellC('oven') };
    if (Object.values(reading).every(Number.isNaN)) return []; // a gap
    return this.#onTimeLine(stamp, reading);
  }

  #temperature(cell: string, column: LogColumn | undefined): number {
    const said = column?.temperature ?? this.#units.temperature;
    const value = readCellC(cell, said ?? this.#units.assumed);
    if (said === undefined && isBare(cell)) {
      this.#notes.add(`temperatures without a unit were read as °${this.#units.assumed}`);
    }
    return value;
  }

  #onTimeLine(
    stamp: Stamp,
    reading: Omit<LogReading, 'atMinutes' | 'fromZero'>,
  ): readonly LogReading[] {
    switch (stamp.kind) {
      case 'elapsed':
        return this.#placed({ ...reading, atMinutes: stamp.minutes, fromZero: true });
      case 'clock': {
        const atMinutes = nearestDay(stamp.minutes, this.#before);
        const clockMinutes = stamp.minutes;
        return this.#placed({ ...reading, atMinutes, fromZero: false, clockMinutes });
      }
      case 'instant': {
        const { minutes, clockMinutes } = stamp;
        const clock = clockMinutes === undefined ? {} : { clockMinutes };
        return this.#placed({ ...reading, ...clock, atMinutes: minutes, fromZero: false });
      }
      case 'bare':
        this.#pending.push({ value: stamp.value, reading });
        this.#timeUnit = this.#decidedUnit();
        return this.#timeUnit === undefined ? [] : this.#released(this.#timeUnit);
    }
  }

  #placed(reading: LogReading): readonly LogReading[] {
    const { atMinutes } = reading;
    if (this.#before !== undefined && Math.abs(atMinutes - this.#before) > FARTHEST_MINUTES) {
      throw new BadCell('its time is more than a day from the line before');
    }
    this.#before = atMinutes;
    this.#readings++;
    return [reading];
  }

  /** What bare times must be: seconds when they would last too long, minutes when the meat would heat impossibly fast. */
  #decidedUnit(): TimeUnit | undefined {
    const values = this.#pending.map(({ value }) => value);
    const span = Math.max(...values.map(Math.abs));
    if (span > this.#units.longestMinutes || values.length >= MOST_PENDING) return 's';
    const seen = this.#pending.filter(({ reading }) => !Number.isNaN(reading.centreC));
    const third = Math.floor(seen.length / 3);
    if (third === 0) return undefined;
    const middle = (part: readonly Pending[], of: (one: Pending) => number): number =>
      part.map(of).sort((a, b) => a - b)[Math.floor(part.length / 2)];
    const [from, to] = [seen.slice(0, third), seen.slice(-third)];
    const riseK =
      middle(to, ({ reading }) => reading.centreC) - middle(from, ({ reading }) => reading.centreC);
    const seconds = middle(to, ({ value }) => value) - middle(from, ({ value }) => value);
    const fast = seconds > 0 && (60 * riseK) / seconds > IMPOSSIBLE_K_PER_MINUTE;
    return fast && riseK > CLEAR_RISE_K ? 'min' : undefined;
  }

  #released(unit: TimeUnit): readonly LogReading[] {
    const per = unit === 's' ? 60 : 1;
    this.#notes.add(
      `times without a unit were read as ${unit === 's' ? 'seconds' : 'minutes'}, which alone is possible`,
    );
    const waiting = this.#pending;
    this.#pending = [];
    const readings = waiting.map(({ value, reading }) => ({
      ...reading,
      atMinutes: value / per,
      fromZero: true,
    }));
    this.#before = readings.at(-1)?.atMinutes;
    this.#readings += readings.length;
    return readings;
  }
}

function cellsOf(text: string, separator: string): readonly string[] {
  try {
    const rows: string[][] = parse(text, {
      delimiter: separator,
      relax_quotes: true,
      relax_column_count: true,
      trim: true,
    });
    return rows[0] ?? [];
  } catch (error) {
    if (error instanceof CsvError) throw new BadCell('a quotation mark is opened and not closed');
    throw error;
  }
}

/** A line of JSON as a row; also one of an array that is written an object a line. */
function jsonRow(line: string): Row | undefined {
  const text = line.replace(/^\[\s*|\s*[,\]]\s*$/g, '');
  if (text === '') return undefined;
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    throw new BadCell('it is not JSON');
  }
  if (typeof data !== 'object' || data === null || Array.isArray(data)) {
    throw new BadCell('it is no JSON object');
  }
  const entries = Object.entries(data);
  const columns = columnsNamed(entries.map(([name]) => name));
  if (columns === undefined) throw new BadCell('its names lack a time or a temperature');
  return {
    columns,
    cells: entries.map(([, value]) =>
      typeof value === 'number' ? jsonNumber(value) : typeof value === 'string' ? value : '',
    ),
  };
}

/** Written out, without an exponent. */
const jsonNumber = (value: number): string =>
  Math.abs(value) < 1e15 ? value.toFixed(6) : String(value);
