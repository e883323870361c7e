import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { readdir } from 'node:fs/promises';
import path from 'node:path';
import { pipeline } from 'node:stream/promises';
import { fileURLToPath } from 'node:url';

/** SHA-256 of bytes, in hexadecimal. */
export const digestOf = (bytes: Uint8Array | string): string =>
  createHash('sha256').update(bytes).digest('hex');

/** SHA-256 of a file, read in pieces; `undefined` when there is no such file, an empty text when it cannot be read. */
export async function digestOfFile(file: string): Promise<string | undefined> {
  const hash = createHash('sha256');
  try {
    await pipeline(createReadStream(file), hash);
    return hash.digest('hex');
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ENOENT' ? undefined : '';
  }
}

/** Files that decide what a card looks like: code and fonts. */
const PROGRAM = /\.(?:js|ts|ttf|woff2)$/;

/** One digest of the program itself, as it lies beside this file: another build may make other cards, whatever its version says. */
export async function digestOfProgram(): Promise<string> {
  const dir = fileURLToPath(new URL('.', import.meta.url));
  const files = (await readdir(dir, { recursive: true }))
    .filter((file) => PROGRAM.test(file))
    .sort();
  const digests = await Promise.all(files.map((file) => digestOfFile(path.join(dir, file))));
  return fingerprint(files.map((file, i) => [file, digests[i]]));
}

/** One digest of plain data: the same for the same values, whatever the order of their keys. */
export const fingerprint = (value: unknown): string => digestOf(JSON.stringify(value, inOrder));

function inOrder(this: unknown, key: string, value: unknown): unknown {
  const raw = (this as Readonly<Record<string, unknown>>)[key]; // before a buffer turns itself into a list of numbers
  if (raw instanceof Uint8Array) return digestOf(raw);
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}
