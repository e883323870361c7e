import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { rolldown } from 'rolldown';

const CORE = fileURLToPath(new URL('../../packages/core', import.meta.url));
const PAGE = `${CORE}/page.js`; // not a file: what it imports is looked for where the library's own packages lie

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
  const bundle = await rolldown({
    input: PAGE,
    plugins: [
      {
        name: 'page',
        resolveId: (id) => (id === PAGE ? id : undefined),
        load: (id) => (id === PAGE ? code : undefined),
      },
    ],
    resolve: {
      alias: { '@roastsim/core': library },
      modules: ['node_modules', `${CORE}/node_modules`],
    },
    platform: 'browser',
    transform: { target: 'es2022' },
    onLog: (level, { message }) => {
      if (level === 'warn') throw new Error(message);
    },
  });
  const { output } = await bundle.generate({
    minify: true,
    format: globalName === undefined ? 'esm' : 'iife',
    ...(globalName === undefined ? {} : { name: globalName }),
  });
  await bundle.close();
  const [{ code: text, modules }, ...more] = output;
  if (more.length > 0) throw new Error(`the bundle is ${output.length} files`);
  const inputs = Object.entries(modules).flatMap(([file, { renderedLength }]) =>
    renderedLength > 0 ? [file] : [],
  );
  const contents = Buffer.from(text);
  return { text, bytes: contents.length, gzippedBytes: gzipSync(contents).length, inputs };
}
