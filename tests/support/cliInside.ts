import { runCli } from '../../packages/cli/src/cli.js';
import type { Run } from './cli.js';

/**
 * Runs the command line's sources inside the test, without a process: for long tables of inputs, where what is tested is one line and
 * an exit code. What a process adds is tested with a few of them by `roastsim`.
 */
export async function roastsimInside(args: readonly string[]): Promise<Run> {
  let stdout = '';
  let stderr = '';
  const code = await runCli(
    args,
    {
      out: (text) => {
        stdout += text;
      },
      err: (text) => {
        stderr += text;
      },
      now: () => new Date(),
      zone: () => 'UTC',
      color: false,
      terminal: false,
      input: () => {
        throw new Error('nothing is read from standard input');
      },
    },
    { version: '0.0.0', description: 'plans a roast' },
  );
  return { code, stdout, stderr };
}
