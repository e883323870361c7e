import { RoastError } from '@roastsim/core';
import { CST, Lexer, parse, YAMLParseError } from 'yaml';
import { z } from 'zod';
import { readAtMost } from './fileBytes.js';
import { nearest } from './nearest.js';
import { printable } from './text.js';

/** A file handed in by an option. */
export interface DataFile {
  readonly file: string;
  /** The option, `--settings`. */
  readonly option: string;
  /** What one entry of it is called in messages: `setting`. */
  readonly entry: string;
}

const LONGEST_BYTES = 1_000_000;

/** Throws the one error a file's reader throws. */
export function refuseFile(
  { file, option }: DataFile,
  code: RoastError['code'],
  fault: string,
  accepted: string,
  field?: string,
): never {
  throw new RoastError(
    `${option}: read "${printable(file)}"; ${field === undefined ? '' : `${field}: `}${fault}; accepted: ${accepted}`,
    { code, path: field === undefined ? [option] : [option, field], found: file, accepted },
  );
}

/** All bytes of `path`, which stands in `source`, when there are at most `most`. */
export async function readBytes(
  path: string,
  source: DataFile,
  most: number,
  accepted: string,
  field?: string,
): Promise<Uint8Array> {
  const bytes = await readAtMost(path, most).catch(() =>
    refuseFile(source, 'unreadable', `${printable(path)} cannot be read`, accepted, field),
  );
  return (
    bytes ?? refuseFile(source, 'out-of-range', `${printable(path)} is too large`, accepted, field)
  );
}

/**
 * Reads a file of YAML or JSON (which is YAML too) by its schema.
 *
 * @throws RoastError `unreadable`, `unknown-name` (a key that does not exist, with the nearest), `out-of-range`
 */
export async function readDataFile<T extends z.ZodObject>(
  source: DataFile,
  schema: T,
): Promise<z.infer<T>> {
  const accepted = 'a readable YAML or JSON file';
  return dataIn(await readBytes(source.file, source, LONGEST_BYTES, accepted), source, schema);
}

/**
 * What the bytes of a file of YAML or JSON say, by its schema.
 *
 * @throws RoastError as {@link readDataFile}
 */
export function dataIn<T extends z.ZodObject>(
  bytes: Uint8Array,
  source: DataFile,
  schema: T,
): z.infer<T> {
  const result = schema.safeParse(parsed(textIn(bytes, source), source) ?? {});
  return result.success ? result.data : explain(source, schema, result.error);
}

function textIn(bytes: Uint8Array, source: DataFile): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return refuseFile(source, 'unreadable', 'its characters are not UTF-8', 'UTF-8 text');
  }
}

function parsed(text: string, source: DataFile): unknown {
  if (isDeep(text)) refuseFile(source, 'unreadable', 'it is nested too deeply', 'YAML or JSON');
  try {
    return parse(text, { logLevel: 'error', stringKeys: true });
  } catch (error) {
    // beside its own errors the parser throws plain ones, for aliases of nothing and for those that multiply
    const line = error instanceof YAMLParseError ? error.linePos?.[0].line : undefined;
    const where = line === undefined ? 'it' : `line ${line}`;
    refuseFile(source, 'unreadable', `${where} is not YAML`, 'YAML or JSON');
  }
}

const DEEPEST = 50; // levels; a settings file has three

/**
 * Whether a text is nested further than any honest file, by its signs alone: the parser calls itself for each level, and some
 * thousand levels end the process.
 */
function isDeep(text: string): boolean {
  let brackets = 0;
  let column = 0; // levels that a line can open: its indentation and the signs of blocks on it
  for (const sign of new Lexer().lex(text)) {
    switch (CST.tokenType(sign)) {
      case 'flow-map-start':
      case 'flow-seq-start':
        brackets++;
        break;
      case 'flow-map-end':
      case 'flow-seq-end':
        brackets = Math.max(0, brackets - 1);
        break;
      case 'newline':
        column = 0;
        break;
      case 'seq-item-ind':
      case 'explicit-key-ind':
      case 'map-value-ind':
        if (brackets === 0) column++;
        break;
      case 'space':
        if (column === 0) column += sign.length;
        break;
    }
    if (brackets > DEEPEST || column > DEEPEST) return true;
  }
  return false;
}

/** Keys a schema knows at a place. */
function keysAt(schema: z.ZodType, [step, ...rest]: readonly PropertyKey[]): string[] {
  const inner = schema instanceof z.ZodOptional ? (schema.unwrap() as z.ZodType) : schema;
  if (!(inner instanceof z.ZodObject)) return [];
  if (step === undefined) return Object.keys(inner.shape);
  const next: unknown = inner.shape[String(step)];
  return next instanceof z.ZodType ? keysAt(next, rest) : [];
}

function explain(source: DataFile, schema: z.ZodType, error: z.ZodError): never {
  // a key that is missing may well be the misspelt one
  const issue = error.issues.find(({ code }) => code === 'unrecognized_keys') ?? error.issues[0];
  const field = issue.path.map(String).join('.') || undefined;
  if (issue.code === 'unrecognized_keys') {
    const keys = keysAt(schema, issue.path);
    const [key] = issue.keys;
    const near = nearest(key, keys);
    const hint = near === undefined ? '' : ` (did you mean ${near}?)`;
    const fault = `there is no ${source.entry} "${printable(key)}"${hint}`;
    refuseFile(source, 'unknown-name', fault, keys.join(', '), field);
  }
  const wish = issue.message.replace(/^Invalid (input|option): /, '');
  refuseFile(source, 'out-of-range', 'that does not fit', wish, field);
}
