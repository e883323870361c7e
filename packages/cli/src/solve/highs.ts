import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { RoastError, type Solve, type Solved, type SolveOptions } from '@roastsim/core';
import loader, { type Highs } from 'highs';

const FILE = 'highs.wasm';

/** Beside the bundle, and where the package manager puts it as seen from this source file. */
const PLACES = [`./${FILE}`, `../../node_modules/highs/build/${FILE}`] as const;

// The package's typings are those of its CommonJS build, where the function is one step further in.
const loadHighs = loader as unknown as typeof loader.default;

/**
 * HiGHS, the solver for linear and mixed-integer programmes, as WebAssembly: one thread, nothing fetched, the same answer to the
 * same question unless the clock stops it.
 *
 * @throws RoastError `unreadable` when its file is missing from the installation
 */
export async function highsSolver(): Promise<Solve> {
  const path = PLACES.map((place) => fileURLToPath(new URL(place, import.meta.url))).find(
    (candidate) => existsSync(candidate),
  );
  if (path === undefined) {
    throw new RoastError(`the solver ${FILE} is missing from this installation of roastsim`, {
      code: 'unreadable',
      path: ['solver', FILE],
      found: path,
      accepted: 'the file that comes with roastsim: install it again',
    });
  }
  const highs = await loadHighs({ wasmBinary: await readFile(path) });
  return async (lp, options) => solveWith(highs, lp, options);
}

const solveWith = (
  highs: Highs,
  lp: string,
  { timeLimitS, gap, presolve, start }: SolveOptions,
): Solved =>
  highs.withModel({ format: 'lp', data: lp }, (model): Solved => {
    model.options.set({
      output_flag: false,
      time_limit: timeLimitS,
      mip_abs_gap: gap,
      mip_rel_gap: 0,
      presolve: presolve ? 'on' : 'off',
    });
    const { numCols } = model.raw.getDimensions();
    const names = Array.from({ length: numCols }, (_, column) => model.getColName(column));
    model.setSolution({ colValue: names.map((name) => start[name] ?? 0) });
    model.run();
    const { optimal, timeLimit } = highs.constants.modelStatus;
    const status = model.getModelStatus();
    const { colValue } = model.getSolution();
    if ((status !== optimal && status !== timeLimit) || colValue.length !== numCols) {
      throw new Error(`the solver ended with status ${status}`);
    }
    return {
      status: status === optimal ? 'optimal' : 'stopped',
      objective: model.getObjectiveValue(),
      bound: Number(model.info.get('mip_dual_bound')),
      values: Object.fromEntries(names.map((name, column) => [name, colValue[column]])),
    };
  });
