import { open } from 'node:fs/promises';

const PIECE_BYTES = 65_536;

/**
 * All bytes of a file, or `undefined` when there are more than `most`: what never ends, like a device, is not read to its end.
 *
 * @throws the system's error when the file cannot be read
 */
export async function readAtMost(file: string, most: number): Promise<Uint8Array | undefined> {
  const handle = await open(file);
  try {
    const pieces: Uint8Array[] = [];
    for (let length = 0; length <= most; ) {
      const { bytesRead, buffer } = await handle.read(new Uint8Array(PIECE_BYTES));
      if (bytesRead === 0) return Buffer.concat(pieces);
      pieces.push(buffer.subarray(0, bytesRead));
      length += bytesRead;
    }
    return undefined;
  } finally {
    await handle.close();
  }
}
