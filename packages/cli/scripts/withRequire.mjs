const REQUIRE_LINE =
  "import { createRequire as createRequireHere } from 'node:module'; const require = createRequireHere(import.meta.url);\n";

/**
 * Gives `require` to the output files that call it: bundled CommonJS fetches Node's own modules that way, and ES modules have
 * none. The other files stay as they are.
 *
 * @param {readonly import('esbuild').OutputFile[]} outputFiles
 * @returns {{ file: string, text: string }[]}
 */
export function withRequire(outputFiles) {
  const needing = new Set(
    outputFiles
      .filter(
        ({ path, text }) => path.endsWith('.js') && /\btypeof require\b|\brequire\.\w/.test(text),
      )
      .map(({ path }) => path),
  );
  return outputFiles.map(({ path, text }) => {
    if (needing.has(path)) return { file: path, text: prepend(text, REQUIRE_LINE) };
    if (needing.has(path.replace(/\.map$/, ''))) return { file: path, text: shiftOneLine(text) };
    return { file: path, text };
  });
}

/**
 * A line before the code, but after the line that names the interpreter.
 *
 * @param {string} code
 * @param {string} line
 */
function prepend(code, line) {
  const end = code.startsWith('#!') ? code.indexOf('\n') + 1 : 0;
  return code.slice(0, end) + line + code.slice(end);
}

/** @param {string} map - source map of a file that got one more line on top; the added line maps to nothing */
function shiftOneLine(map) {
  const parsed = JSON.parse(map);
  return JSON.stringify({ ...parsed, mappings: `;${parsed.mappings}` });
}
