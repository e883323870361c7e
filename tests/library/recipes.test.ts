import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import ts from 'typescript';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { complaintsAbout, readFace } from '../support/publicNames.js';

const PAGE = fileURLToPath(new URL('../../docs/library.md', import.meta.url));
const CORE = fileURLToPath(new URL('../../packages/core', import.meta.url));

/** A program and the block of what it prints, right below it. */
const PAIR = /```ts\n([\s\S]*?)```\n\n```text\n[\s\S]*?```/g;
const CONSOLE = 'declare const console: { log(text: string): void };\n'; // neither Node's nor a browser's types

let folder: string;
let page: string;

beforeAll(async () => {
  page = await readFile(PAGE, 'utf8');
  folder = await mkdtemp(path.join(tmpdir(), 'roastsim-recipes-'));
  await mkdir(path.join(folder, 'node_modules', '@roastsim'), { recursive: true });
  await symlink(CORE, path.join(folder, 'node_modules', '@roastsim', 'core'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** What a program prints that a stranger keeps beside the built library. */
async function printed(recipe: string, name: string): Promise<string> {
  const { outputText } = ts.transpileModule(recipe, {
    compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext },
  });
  const file = path.join(folder, name);
  await writeFile(file, outputText);
  const { stdout } = await promisify(execFile)(process.execPath, [file], { cwd: folder });
  return stdout;
}

// rewrite the page with `vitest run tests/library/recipes.test.ts -u`
test('every block of docs/library.md is what its program prints', async () => {
  let kept = '';
  let at = 0;
  for (const pair of page.matchAll(PAIR)) {
    const [whole, recipe] = pair;
    const stdout = await printed(recipe, `recipe-${pair.index}.mjs`);
    kept += `${page.slice(at, pair.index)}\`\`\`ts\n${recipe}\`\`\`\n\n\`\`\`text\n${stdout}\`\`\``;
    at = pair.index + whole.length;
  }
  await expect(kept + page.slice(at)).toMatchFileSnapshot(PAGE);
}, 60_000);

test('there are six, and the compiler accepts each', () => {
  const { program } = readFace();
  const recipes = [...page.matchAll(PAIR)].map(([, recipe]) => recipe);
  expect(recipes).toHaveLength(6);
  expect(page.split('```ts\n')).toHaveLength(7); // none without what it prints
  for (const recipe of recipes) {
    expect(complaintsAbout(`${CONSOLE}${recipe}`, program)).toEqual([]);
  }
}, 60_000);
