import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { pipeline } from 'node:stream/promises';

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

/** One digest of plain data: the same for the same values, whatever the order of their keys. */
export const fingerprint = (value: unknown): string => digestOf(JSON.stringify(value, inOrder));

function inOrder(this: unknown, key: string, value: unknown): unknown {
  const raw = (this as Readonly<Record<string, unknown>>)[key]; // before a buffer turns itself into a list of numbers
  if (raw instanceof Uint8Array) return digestOf(raw);
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}
