import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The built entry file, as a person runs it. */
export const ENTRY = fileURLToPath(new URL('../../packages/cli/dist/main.js', import.meta.url));

/** How a run of the command ended. */
export interface Run {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the built command line as a process of its own. */
export function roastsim(
  args: readonly string[],
  options: { readonly cwd?: string; readonly env?: NodeJS.ProcessEnv } = {},
  entry = ENTRY,
): Promise<Run> {
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      [entry, ...args],
      { ...options, maxBuffer: 64 * 1024 * 1024 },
      (error, stdout, stderr) => {
        resolve({ code: typeof error?.code === 'number' ? error.code : 0, stdout, stderr });
      },
    );
  });
}
