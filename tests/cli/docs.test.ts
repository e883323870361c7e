import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { roastsim } from '../support/cli.js';

const read = (file: string): Promise<string> =>
  readFile(fileURLToPath(new URL(`../../${file}`, import.meta.url)), 'utf8');

describe('what is written about the command line', () => {
  test('docs/cli.md names every option of --help, and no other', async () => {
    const { stdout } = await roastsim(['--help']);
    const offered = new Set(stdout.match(/--[a-z][a-z-]*/g));
    const written = new Set((await read('docs/cli.md')).match(/--[a-z][a-z-]*/g));
    expect([...written].sort()).toEqual([...offered].sort());
  });

  test('the sample in README.md is what the first command prints', async () => {
    const readme = await read('README.md');
    const sample = /```text\n([\s\S]*?)```/.exec(readme)?.[1];
    const { stdout } = await roastsim(['--weight', '2.2kg', '--oven', '230C']);
    expect(sample).toBe(stdout);
  });
});
