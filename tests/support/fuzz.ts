import { RoastError } from '@roastsim/core';
import fc from 'fast-check';
import { expect } from 'vitest';

// What the tests under tests/fuzz share: texts and bytes that nobody would type, and what every reader owes to each of them.

/** Inputs each reader is given. */
export const RUNS = 20_000;

/** Longest a reader may think over one input [ms]: a hundred times what any takes, so that a busy machine is no failure. */
const PATIENCE_MS = 2_000;

/** Bits that mean something to one reader or another, to be put together in ways nobody meant. */
const FRAGMENTS = [
  ...['0', '1', '2', '7', '12', '59', '60', '99', '230', '1000', '2026', '1e9', '-', '+', '−', '–'],
  ...['.', ',', ':', ';', '/', '@', '%', '°', '½', '⅔', '⁄', 'x', '×', '*', '(', ')', '"', "'"],
  ...['kg', 'g', 'lb', 'oz', 'C', 'F', 'K', '℃', 'h', 'min', 's', 'mm', 'cm', 'm', 'in', 'ft'],
  ...['am', 'p.m.', 'T', 'Z', 'Dec', 'tomorrow', 'rare', 'medium-rare', 'at', 'and', 'guests'],
  ...['all', 'oven', 'fold', 'Europe/', 'Vienna', 'UTC', 'yes', 'no', 'null', 'true', 'NaN'],
  ...[
    ' ',
    '  ',
    '\t',
    '\n',
    '\r\n',
    '\u00a0',
    '\u202f',
    '\u2028',
    '\u0000',
    '\u001b[31m',
    '\u202e',
  ],
  ...[
    '\ufeff',
    '\ud800',
    '\u0301',
    '８',
    'ß',
    '日本',
    '👩‍🍳',
    '__proto__',
    'constructor',
    '$(x)',
    '\\',
  ],
];

const anyFragments = fc
  .array(fc.constantFrom(...FRAGMENTS), { maxLength: 8 })
  .map((parts) => parts.join(''));

const anyCharacters = fc.string({ unit: 'binary', maxLength: 24 });

const anyLatin = fc
  .uint8Array({ maxLength: 24 })
  .map((bytes) => Buffer.from(bytes).toString('latin1'));

/** Longer than any reader takes, or just as long. */
const anyLong = fc
  .tuple(fc.constantFrom(...FRAGMENTS), fc.constantFrom(99, 199, 200, 201, 1000, 1001, 20_000))
  .map(([bit, length]) => bit.repeat(Math.ceil(length / bit.length)).slice(0, length));

/** What may happen to a text on its way: bits of it are lost, doubled, swapped, written over or put in. */
interface Slip {
  readonly what: 'lose' | 'double' | 'swap' | 'over' | 'in';
  /** Place and extent as shares of the text. */
  readonly at: number;
  readonly extent: number;
  readonly bit: string;
}

const anySlips = fc.array(
  fc.record<Slip>({
    what: fc.constantFrom('lose', 'double', 'swap', 'over', 'in'),
    at: fc.integer({ min: 0, max: 99 }).map((n) => n / 100),
    extent: fc.constantFrom(0.02, 0.1, 0.3),
    bit: fc.constantFrom(...FRAGMENTS),
  }),
  { maxLength: 3 },
);

function slipped(text: string, { what, at, extent, bit }: Slip): string {
  const from = Math.floor(at * text.length);
  const to = Math.min(text.length, from + Math.max(1, Math.round(extent * text.length)));
  const [before, middle, after] = [text.slice(0, from), text.slice(from, to), text.slice(to)];
  switch (what) {
    case 'lose':
      return before + after;
    case 'double':
      return before + middle + middle + after;
    case 'swap':
      return after + middle + before;
    case 'over':
      return before + bit + after;
    case 'in':
      return before + bit + middle + after;
  }
}

/** Good texts, some as they are and most with a slip or two. */
const nearly = (good: readonly string[]): fc.Arbitrary<string> =>
  fc.tuple(fc.constantFrom(...good), anySlips).map(([text, slips]) => slips.reduce(slipped, text));

/** Texts of every kind, most of them close to what a reader accepts. */
export const anyTyped = (good: readonly string[]): fc.Arbitrary<string> =>
  fc.oneof(
    { weight: 12, arbitrary: nearly(good) },
    { weight: 5, arbitrary: anyFragments },
    { weight: 2, arbitrary: anyCharacters },
    { weight: 2, arbitrary: anyLatin },
    { weight: 1, arbitrary: anyLong },
  );

/** Contents of a file: good ones with slips, as text or cut and changed as bytes, and bytes that never were a file. */
export const anyBytes = (good: readonly string[], bits: fc.Arbitrary<string>) => {
  const text = fc.oneof(
    { weight: 8, arbitrary: nearly(good) },
    { weight: 5, arbitrary: bits },
    { weight: 1, arbitrary: anyLong },
  );
  const encoded = fc
    .tuple(text, fc.constantFrom<BufferEncoding[]>('utf8', 'utf8', 'utf8', 'latin1', 'utf16le'))
    .map(([typed, encoding]): Uint8Array => Buffer.from(typed, encoding));
  const damaged = fc.tuple(encoded, fc.nat(), fc.nat({ max: 255 })).map(([bytes, at, byte]) => {
    const copy = Uint8Array.from(bytes);
    if (copy.length > 0) copy[at % copy.length] = byte;
    return copy;
  });
  return fc.oneof(
    { weight: 10, arbitrary: encoded },
    { weight: 3, arbitrary: damaged },
    { weight: 1, arbitrary: fc.uint8Array({ maxLength: 64 }) },
  );
};

/** Anything that would tear a line, colour a terminal or turn its direction. */
const UNFIT = /[\p{Cc}\p{Zl}\p{Zp}\u202a-\u202e\u2066-\u2069]/u;

/** Fails with what was found; `expect` builds its message before it knows whether it is needed, which is slow here. */
export function must(holds: boolean, what: string, found: unknown): void {
  if (!holds) expect.fail(`${what}: ${JSON.stringify(found)}`);
}

/** That a text may be printed as it is. */
export const mustBePrintable = (text: string): void =>
  must(!UNFIT.test(text), 'not fit to be printed', text);

/** That a number lies in a range, ends included. */
export const mustLie = (value: number, least: number, most: number): void =>
  must(value >= least && value <= most, `not from ${least} to ${most}`, value);

/** That a reader has not thought for too long. */
function mustBeSoon(startedMs: number): void {
  const took = performance.now() - startedMs;
  must(took < PATIENCE_MS, 'thought over for too long [ms]', took);
}

/** That nothing in a value is a number without a size. */
function mustBeFinite(value: unknown): void {
  if (typeof value === 'number') must(Number.isFinite(value), 'not finite', String(value));
  else if (typeof value === 'object' && value !== null) Object.values(value).forEach(mustBeFinite);
}

const LONGEST_MESSAGE = 1200; // the longest lists the columns of an orders file

/** That an error is the one error a person is shown: one line that names its field and what would do. */
export function mustBeClear(error: unknown, fields: readonly string[]): void {
  if (!(error instanceof RoastError)) throw error;
  const { message, path, accepted } = error;
  mustBePrintable(message);
  must(message.length < LONGEST_MESSAGE, 'too long to read', message);
  const [field] = path;
  const named = typeof field === 'string' && message.includes(field);
  must(
    named && fields.some((known) => field.startsWith(known)),
    'does not name its field',
    message,
  );
  must(accepted !== '', 'does not say what is accepted', message);
}

/** Inputs that were read and that were refused, so that a test can tell that it tried both. */
interface Fed {
  read: number;
  refused: number;
}

/** Holds one outcome, a value or what was thrown, to what a reader owes, and counts it. */
function judge<Value>(
  counts: Fed,
  outcome: () => Value,
  fields: readonly string[],
  check: (value: Value) => void,
): void {
  let value: Value;
  try {
    value = outcome();
  } catch (error) {
    mustBeClear(error, fields);
    counts.refused++;
    return;
  }
  mustBeFinite(value);
  check(value);
  counts.read++;
}

/**
 * Feeds a reader: each input becomes a value that `check` finds good, or a clear error, and soon.
 *
 * @param fields - what an error may point at, by the beginning of its name
 */
export function feed<Input, Value>(
  inputs: fc.Arbitrary<Input>,
  read: (input: Input) => Value,
  fields: readonly string[],
  check: (value: Value) => void,
  numRuns = RUNS,
): Fed {
  const counts = { read: 0, refused: 0 };
  fc.assert(
    fc.property(inputs, (input) => {
      const startedMs = performance.now();
      judge(
        counts,
        () => {
          try {
            return read(input);
          } finally {
            mustBeSoon(startedMs);
          }
        },
        fields,
        check,
      );
    }),
    { numRuns },
  );
  return counts;
}

/** {@link feed} for a reader of a stream. */
export async function feedStream<Input, Value>(
  inputs: fc.Arbitrary<Input>,
  read: (input: Input) => Promise<Value>,
  fields: readonly string[],
  check: (value: Value) => void,
): Promise<Fed> {
  const counts = { read: 0, refused: 0 };
  await fc.assert(
    fc.asyncProperty(inputs, async (input) => {
      const startedMs = performance.now();
      const outcome = await read(input).then(
        (value) => () => value,
        (error: unknown) => () => {
          throw error;
        },
      );
      mustBeSoon(startedMs);
      judge<Value>(counts, outcome, fields, check);
    }),
    { numRuns: RUNS },
  );
  return counts;
}
