import { execFile } from 'node:child_process';
import { cp, mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { expect, test } from 'vitest';

const GUIDE = fileURLToPath(new URL('../../docs/guide.md', import.meta.url));
const DEMO = fileURLToPath(new URL('../../data/demo', import.meta.url));
const MAIN = fileURLToPath(new URL('../../packages/cli/dist/main.js', import.meta.url));

/** A block of commands and the block of what they print, right below it. */
const PAIR = /```sh\n([\s\S]*?)```\n\n```text\n[\s\S]*?```/g;

/** What a shell prints where `roastsim` is the built command and the demo data lies at hand. */
async function printed(commands: string, folder: string): Promise<string> {
  const shell = `roastsim() { "${process.execPath}" "${MAIN}" "$@"; }; set -o pipefail\n${commands}`;
  const { stdout } = await promisify(execFile)('bash', ['-c', shell], {
    cwd: folder,
    env: { PATH: process.env.PATH, NO_COLOR: '1', TZ: 'UTC', LC_ALL: 'C.UTF-8' },
  });
  return stdout;
}

// rewrite the guide with `vitest run tests/cli/guide.test.ts -u`
test('every block of docs/guide.md is what its commands print', async () => {
  const folder = await mkdtemp(path.join(tmpdir(), 'roastsim-guide-'));
  try {
    await cp(DEMO, path.join(folder, 'data', 'demo'), { recursive: true });
    const guide = await readFile(GUIDE, 'utf8');
    let kept = '';
    let at = 0;
    for (const pair of guide.matchAll(PAIR)) {
      const [whole, commands] = pair;
      kept += guide.slice(at, pair.index);
      kept += `\`\`\`sh\n${commands}\`\`\`\n\n\`\`\`text\n${await printed(commands, folder)}\`\`\``;
      at = pair.index + whole.length;
    }
    expect(at).toBeGreaterThan(0);
    await expect(kept + guide.slice(at)).toMatchFileSnapshot(GUIDE);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}, 60_000);
