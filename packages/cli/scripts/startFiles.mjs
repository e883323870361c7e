/**
 * The files that a script needs before it runs: itself, what it imports, and what those import. What is only fetched by
 * `await import(...)` is left out.
 *
 * @param {readonly (import('rolldown').OutputChunk | import('rolldown').OutputAsset)[]} output
 * @param {string} script - name of the output file that Node runs
 * @returns {string[]} absolute paths of the source files
 */
export function startFiles(output, script) {
  const chunks = new Map(
    output.flatMap((file) => (file.type === 'chunk' ? [[file.fileName, file]] : [])),
  );
  const needed = new Set([script]);
  for (const name of needed) {
    for (const imported of chunks.get(name)?.imports ?? []) needed.add(imported);
  }
  return [...needed].flatMap((name) => chunks.get(name)?.moduleIds ?? [name]);
}

/**
 * Fails the build when starting the command would load a package that only charts, cards, serving times and calendars need. Such a
 * package must be reached through `await import(...)`.
 *
 * @param {readonly string[]} files - paths, or names of packages that stay outside
 * @param {readonly string[]} heavyPackages
 */
export function refuseHeavyStart(files, heavyPackages) {
  const isHeavy = (/** @type {string} */ file) =>
    heavyPackages.some((name) => file === name || file.includes(`node_modules/${name}/`));
  const heavy = files.find(isHeavy);
  if (heavy !== undefined) throw new Error(`the start loads ${heavy}: import it lazily`);
}
