import { createReadStream } from 'node:fs';
import { type Plan, RoastError, withEarlierLook } from '@roastsim/core';
import pc from 'picocolors';
import { Course, type CourseView } from '../ask/course.js';
import { forecastOf } from '../ask/forecasting.js';
import { planFor } from '../ask/planning.js';
import type { Io } from '../io.js';
import { printable, readClock, readDuration } from '../read/index.js';
import { type PlanWords, readPlanOptions } from '../read/planOptions.js';
import { type LogReading, ProbeLog } from '../read/probeLog.js';
import { type Bytes, linesOf } from '../read/probeLogLines.js';
import { readLogUnits } from '../read/probeLogUnits.js';
import {
  adviceSentence,
  liveLine,
  type ProbeWords,
  probeHead,
  probeReport,
} from '../show/probe.js';
import { probeDocument } from '../show/probeDocument.js';
import { paragraph } from '../show/wrap.js';
import { settled } from './plan.js';

const STDIN = '-';
const MOST_READINGS = 500_000; // of a file: a day of five a second
const REPLAY_MINUTES = 2; // between two looks for the pull in a file
const LINE_MINUTES = 1; // of log time between two plain lines
const REDRAWN_MS = 250; // of this clock between two drawings of the live line
const LONGEST_PLANS = 3; // plans' lengths; no log goes on for longer

/** {@link PlanWords} and how the log is read and told. */
export interface ProbeArguments extends PlanWords {
  readonly settings?: string;
  readonly logUnits?: string;
  readonly logStart?: string;
  readonly json?: boolean;
  readonly every?: string;
}

/** How the answers of a running log come out. */
interface Teller {
  readonly reading: (view: () => CourseView, nowMinutes: number) => void;
  readonly end: (view: CourseView) => void;
}

/**
 * Reads a log from a file, or follows one on standard input, and says what remains until the pull.
 *
 * @throws RoastError for the options, a log that cannot be read or has no reading in it
 */
export async function runProbe(log: string, typed: ProbeArguments, io: Io): Promise<void> {
  const { words, priors } = await settled(typed);
  const order = readPlanOptions(words);
  const every = words.every === undefined ? undefined : readEvery(words.every);
  const units = words.logUnits === undefined ? {} : readLogUnits(words.logUnits, '--log-units');
  const logStart = words.logStart === undefined ? {} : readLogStart(words.logStart);
  const { plan: found } = await planFor(words, order);
  const forecast = await forecastOf(found, priors);
  const plan = forecast === undefined ? found : withEarlierLook(found, forecast.interval);
  const live = log === STDIN;
  const course = new Course({
    plan,
    ...priors,
    ...logStart,
    ...(order.serveMinutes === undefined ? {} : { serveMinutes: order.serveMinutes }),
    ...(live && io.terminal ? { clockNow: () => minuteOfDay(io.now()) } : {}),
  });
  const said: ProbeWords = {
    units: order.units,
    colors: pc.createColors(io.color),
    ...(words.serve === undefined ? {} : { serve: clockAsTyped(words.serve) }),
  };
  const reader = new ProbeLog({
    ...units,
    assumed: order.units === 'us' ? 'F' : 'C',
    longestMinutes: LONGEST_PLANS * lengthOf(plan),
  });
  const json = words.json === true;
  const changes = priors.priors;
  const teller = json
    ? jsonTeller(io, every, live || every !== undefined, (view) =>
        JSON.stringify(probeDocument(view, said, changes)),
      )
    : textTeller(io, every, live || every !== undefined, plan, said);
  if (live) await follow(io, reader, course, teller);
  else await replay(createReadStream(log), log, reader, course, teller);
  for (const text of toldOf(reader)) io.err(`${text}\n`);
}

/** What could not be read and what was taken for granted. */
function toldOf(reader: ProbeLog): string[] {
  const { bad, badCount, notes } = reader;
  const lines = bad.map(({ line, reason }) => `  line ${line}: ${reason}`);
  const more = badCount > bad.length ? [`  and ${badCount - bad.length} more`] : [];
  const s = badCount === 1 ? '' : 's';
  return [
    ...notes.map((note) => `roastsim: ${note}`),
    ...(badCount === 0
      ? []
      : [`roastsim: ${badCount} line${s} of ${reader.lines} could not be read`, ...lines, ...more]),
  ];
}

/** Takes readings as they come, until the stream ends or the person presses Ctrl-C. */
async function follow(io: Io, reader: ProbeLog, course: Course, teller: Teller): Promise<void> {
  let seen = false;
  const take = (readings: readonly LogReading[]): void => {
    for (const reading of readings) {
      const minutes = course.take(reading);
      seen = true;
      teller.reading(() => course.view(), minutes);
    }
  };
  const { bytes, closed } = io.input();
  try {
    for await (const line of linesOf(bytes)) take(reader.push(line));
  } catch (error) {
    if (!closed()) throw error;
  }
  if (!closed()) take(reader.end());
  if (seen) teller.end(course.view());
}

/** Reads a whole file, puts its readings in order of time and goes through them as if they came now. */
async function replay(
  bytes: Bytes,
  file: string,
  reader: ProbeLog,
  course: Course,
  teller: Teller,
): Promise<void> {
  const readings: LogReading[] = [];
  try {
    for await (const line of linesOf(bytes)) {
      readings.push(...reader.push(line));
      if (readings.length > MOST_READINGS) tooLong(file);
    }
  } catch (error) {
    if (error instanceof RoastError) throw error;
    unreadable(file, error as NodeJS.ErrnoException);
  }
  readings.push(...reader.end());
  readings.sort((a, b) => a.atMinutes - b.atMinutes);
  let lookedAt = Number.NEGATIVE_INFINITY;
  for (const reading of readings) {
    const minutes = course.take(reading);
    teller.reading(() => course.view(), minutes);
    // the moment of the pull is only found by looking on the way
    if (course.nearPull && minutes - lookedAt >= REPLAY_MINUTES) {
      lookedAt = minutes;
      course.view();
    }
  }
  teller.end(course.view());
}

/** Says whether as much log time has gone by as there is to be between two answers. */
function pace(everyMinutes: number): (nowMinutes: number) => boolean {
  let last = Number.NEGATIVE_INFINITY;
  return (nowMinutes) => {
    if (nowMinutes - last < everyMinutes - 1e-9) return false;
    last = nowMinutes;
    return true;
  };
}

function jsonTeller(
  io: Io,
  every: number | undefined,
  running: boolean,
  say: (view: CourseView) => string,
): Teller {
  const due = pace(every ?? 0);
  return {
    reading: (view, now) => {
      if (running && (every === undefined || due(now))) io.out(`${say(view())}\n`);
    },
    end: (view) => {
      if (!running) io.out(`${say(view)}\n`);
    },
  };
}

function textTeller(
  io: Io,
  every: number | undefined,
  running: boolean,
  plan: Plan,
  words: ProbeWords,
): Teller {
  if (!running) {
    return { reading: () => undefined, end: (view) => io.out(probeReport(view, words)) };
  }
  const due = pace(every ?? LINE_MINUTES);
  let begun = false;
  let state = '';
  let drawnAt = 0;
  const begin = (): void => {
    if (!begun) io.out(probeHead(plan, words));
    begun = true;
  };
  return {
    reading: (view, now) => {
      begin();
      if (io.terminal) {
        const at = io.now().getTime();
        if (at - drawnAt < REDRAWN_MS) return;
        drawnAt = at;
        io.out(`\r\u001b[2K${liveLine(view(), words)}`);
        return;
      }
      if (!due(now)) return;
      const seen = view();
      io.out(`${liveLine(seen, words)}\n`);
      const changed = seen.advice.map(({ code }) => code).join();
      if (changed !== state) {
        for (const advice of seen.advice) {
          io.out(`${paragraph('  ', adviceSentence(advice, words))}\n`);
        }
      }
      state = changed;
    },
    end: (view) => {
      if (io.terminal) io.out('\r\u001b[2K');
      io.out(`${io.terminal ? '' : '\n'}${probeReport(view, words)}`);
    },
  };
}

function readEvery(text: string): number {
  const minutes = readDuration(text, '--every');
  if (minutes > 0 && minutes <= 60) return minutes;
  const accepted = 'more than 0, at most 60 min';
  throw new RoastError(`--every: read "${printable(text)}"; accepted: ${accepted}`, {
    code: 'out-of-range',
    path: ['--every'],
    found: text,
    accepted,
  });
}

function readLogStart(text: string): { readonly logStartMinutes?: number } {
  if (/^\s*oven\s*$/i.test(text)) return {};
  const minutes = readDuration(text, '--log-start');
  if (minutes <= 24 * 60) return { logStartMinutes: minutes };
  const accepted = 'a time since the refrigerator, 0 to 24 h, or oven';
  throw new RoastError(`--log-start: read "${printable(text)}"; accepted: ${accepted}`, {
    code: 'out-of-range',
    path: ['--log-start'],
    found: text,
    accepted,
  });
}

const minuteOfDay = (date: Date): number =>
  60 * date.getHours() + date.getMinutes() + date.getSeconds() / 60;

const two = (value: number): string => String(value).padStart(2, '0');

function clockAsTyped(text: string): string {
  const minutes = readClock(text, '--serve');
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

const lengthOf = ({ history }: Plan): number => history.seconds[history.rows - 1] / 60;

function tooLong(file: string): never {
  const accepted = `a log of at most ${MOST_READINGS.toLocaleString('en-GB')} readings`;
  throw new RoastError(`LOG: ${printable(file)} is too long; accepted: ${accepted}`, {
    code: 'out-of-range',
    path: ['LOG'],
    found: file,
    accepted,
  });
}

function unreadable(file: string, error: NodeJS.ErrnoException): never {
  const why = UNREADABLE[error.code ?? ''];
  if (why === undefined) throw error;
  const accepted = 'a CSV file or JSON lines; - for standard input';
  throw new RoastError(`LOG: ${printable(file)}: ${why}; accepted: ${accepted}`, {
    code: 'unreadable',
    path: ['LOG'],
    found: file,
    accepted,
  });
}

const UNREADABLE: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'there is no such file',
  EACCES: 'it may not be read',
  EPERM: 'it may not be read',
  EISDIR: 'that is a folder',
};
