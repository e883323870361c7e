import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';

const CORE = fileURLToPath(new URL('../../packages/core', import.meta.url));

/** A minified bundle for browsers. */
export interface Bundle {
  readonly text: string;
  readonly bytes: number;
  readonly gzippedBytes: number;
  /** Files that left something in it. */
  readonly inputs: readonly string[];
}

/**
 * Bundles a few lines that import the library, as a web page's build does.
 *
 * @param code - imports `@roastsim/core`
 * @param library - folder of the library: the built one, or where its tarball was unpacked
 * @param globalName - the exports become a global of that name; without, they stay a module
 */
export async function bundled(code: string, library = CORE, globalName?: string): Promise<Bundle> {
  const { outputFiles, metafile } = await build({
    stdin: { contents: code, resolveDir: CORE, sourcefile: 'page.js' },
    alias: { '@roastsim/core': library },
    nodePaths: [`${CORE}/node_modules`],
    bundle: true,
    minify: true,
    platform: 'browser',
    target: 'es2022',
    format: globalName === undefined ? 'esm' : 'iife',
    ...(globalName === undefined ? {} : { globalName }),
    metafile: true,
    write: false,
    logLevel: 'error',
  });
  const [{ text, contents }] = outputFiles;
  const inputs = Object.values(metafile.outputs).flatMap((output) =>
    Object.entries(output.inputs).flatMap(([file, { bytesInOutput }]) =>
      bytesInOutput > 0 ? [file] : [],
    ),
  );
  return { text, bytes: contents.length, gzippedBytes: gzipSync(contents).length, inputs };
}
