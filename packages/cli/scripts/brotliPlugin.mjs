const UNPACKER = '\0brotli-decompress';

/**
 * Lets the font library unpack compressed fonts with Node's own Brotli: the package it asks for is 1.4 MB of compiled C++, most of
 * what the PDF printer would weigh, and the fonts that come with the command are not compressed.
 *
 * @type {import('rolldown').Plugin}
 */
export const brotliPlugin = {
  name: 'brotli',
  resolveId: { filter: { id: /^brotli\/decompress\.js$/ }, handler: () => UNPACKER },
  load: {
    filter: { id: new RegExp(`^${UNPACKER}$`) },
    handler: () => `export { brotliDecompressSync as default } from 'node:zlib';`,
  },
};
