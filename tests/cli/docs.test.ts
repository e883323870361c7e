import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { roastsim } from '../support/cli.js';

const read = (file: string): Promise<string> =>
  readFile(fileURLToPath(new URL(`../../${file}`, import.meta.url)), 'utf8');

describe('what is written about the command line', () => {
  const optionsIn = (text: string): string[] => [...new Set(text.match(/--[a-z][a-z-]*/g))].sort();

  /** The page in three: the plan, and its sections about the order and the check. */
  async function sections(): Promise<readonly [plan: string, order: string, check: string]> {
    const page = await read('docs/cli.md');
    const order = page.indexOf('\n## How much to buy\n');
    const check = page.indexOf('\n## Against published figures\n');
    expect(order).toBeGreaterThan(0);
    expect(check).toBeGreaterThan(order);
    return [page.slice(0, order), page.slice(order, check), page.slice(check)];
  }

  test('docs/cli.md names every option of --help, and no other', async () => {
    const { stdout } = await roastsim(['--help']);
    const [plan] = await sections();
    expect(optionsIn(plan)).toEqual(optionsIn(stdout));
  });

  test('its section on the order names every option of order --help, and no other', async () => {
    const { stdout } = await roastsim(['order', '--help']);
    const [, order] = await sections();
    expect(optionsIn(order)).toEqual(optionsIn(stdout));
  });

  test('its section on the check names every option of check --help, and no other', async () => {
    const { stdout } = await roastsim(['check', '--help']);
    const [, , check] = await sections();
    expect(optionsIn(check)).toEqual(optionsIn(stdout));
  });

  test('the sample in README.md is what the first command prints', async () => {
    const readme = await read('README.md');
    const sample = /```text\n([\s\S]*?)```/.exec(readme)?.[1];
    const { stdout } = await roastsim(['--weight', '2.2kg', '--oven', '230C']);
    expect(sample).toBe(stdout);
  });
});
