/**
 * Fails the build when starting the command would load a package that only charts, cards, serving times and calendars need. Such a package must be
 * reached through `await import(...)`.
 *
 * @param {import('esbuild').Metafile} metafile
 * @param {string} start - output file that Node runs
 * @param {readonly string[]} heavyPackages
 */
export function refuseHeavyStart(metafile, start, heavyPackages) {
  const isHeavy = (/** @type {string} */ file) =>
    heavyPackages.some((name) => file === name || file.includes(`node_modules/${name}/`));

  const loaded = new Set([start]);
  for (const output of loaded) {
    const { imports, inputs } = metafile.outputs[output];
    const heavy = Object.keys(inputs).find(isHeavy);
    if (heavy !== undefined) throw new Error(`${start} loads ${heavy} at start: import it lazily`);
    for (const { path, kind, external } of imports) {
      if (kind === 'dynamic-import') continue;
      if (external && isHeavy(path))
        throw new Error(`${start} loads ${path} at start: import it lazily`);
      if (!external) loaded.add(path);
    }
  }
}
