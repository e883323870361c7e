/**
 * Lets the font library unpack compressed fonts with Node's own Brotli: the package it asks for is 1.4 MB of compiled C++, most of
 * what the PDF printer would weigh, and the fonts that come with the command are not compressed.
 *
 * @type {import('esbuild').Plugin}
 */
export const brotliPlugin = {
  name: 'brotli',
  setup(build) {
    build.onResolve({ filter: /^brotli\/decompress\.js$/ }, () => ({
      path: 'brotli/decompress.js',
      namespace: 'node-brotli',
    }));
    build.onLoad({ filter: /.*/, namespace: 'node-brotli' }, () => ({
      contents: `export { brotliDecompressSync as default } from 'node:zlib';`,
      loader: 'js',
    }));
  },
};
