/** Longest line read as one [UTF-16 units]; no honest one comes near it. */
export const LINE_LIMIT = 2000;

/** The bytes of a log, as they come. */
export type Bytes = AsyncIterable<Uint8Array> | Iterable<Uint8Array>;

/**
 * Takes a stream apart into lines as they come: UTF-8 or, by its byte order mark, UTF-16; any line end. What is no character becomes
 * U+FFFD. Of a line beyond {@link LINE_LIMIT} only the beginning is kept, so that memory stays flat.
 */
export async function* linesOf(bytes: Bytes): AsyncGenerator<string> {
  let decoder: InstanceType<typeof TextDecoder> | undefined;
  let held = new Uint8Array(0);
  let rest = '';
  for await (const chunk of bytes) {
    let fresh = chunk;
    if (decoder === undefined) {
      held = new Uint8Array([...held, ...chunk]);
      if (held.length < 2) continue;
      decoder = new TextDecoder(encodingOf(held));
      fresh = held;
    }
    const parts = (rest + decoder.decode(fresh, { stream: true })).split(/\r\n|\n|\r(?!$)/);
    rest = shortened(parts.pop() ?? '');
    yield* parts;
  }
  const last =
    rest + (decoder ?? new TextDecoder()).decode(decoder === undefined ? held : undefined);
  yield* last.split(/\r\n|\n|\r/).filter((line, i, all) => line !== '' || i < all.length - 1);
}

/** One more than the limit is kept, so that a line that was cut is still known as too long. */
const shortened = (text: string): string =>
  text.length > LINE_LIMIT
    ? text.slice(0, LINE_LIMIT + 1) + (text.endsWith('\r') ? '\r' : '')
    : text;

function encodingOf([a, b]: Uint8Array): string {
  if (a === 0xff && b === 0xfe) return 'utf-16le';
  if (a === 0xfe && b === 0xff) return 'utf-16be';
  return 'utf-8';
}
