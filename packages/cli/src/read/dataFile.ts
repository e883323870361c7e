import { readFile } from 'node:fs/promises';
import { RoastError } from '@roastsim/core';
import { parse, YAMLParseError } from 'yaml';
import { z } from 'zod';
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
  const bytes = await readFile(path).catch(() =>
    refuseFile(source, 'unreadable', `${printable(path)} cannot be read`, accepted, field),
  );
  if (bytes.length > most) {
    refuseFile(source, 'out-of-range', `${printable(path)} is too large`, accepted, field);
  }
  return bytes;
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
  const bytes = await readBytes(source.file, source, LONGEST_BYTES, accepted);
  let data: unknown;
  try {
    data = parse(new TextDecoder().decode(bytes)) ?? {};
  } catch (error) {
    if (!(error instanceof YAMLParseError)) throw error;
    const line = error.linePos?.[0].line ?? 1;
    refuseFile(source, 'unreadable', `line ${line} is not YAML`, 'YAML or JSON');
  }
  const result = schema.safeParse(data);
  return result.success ? result.data : explain(source, schema, result.error);
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
