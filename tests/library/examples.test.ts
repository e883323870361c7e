import * as library from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { complaintsAbout, readFace } from '../support/publicNames.js';
import { runExample } from '../support/runExample.js';

// Every name of the library is explained, every function and class by an example, and every example runs and prints what it says.

const { names, opening, program } = readFace();
const callable = names.filter(({ kind }) => kind === 'function' || kind === 'class');
const examples = names.flatMap(({ name, examples: own }) => own.map((text) => ({ name, text })));

/** What the example of the whole package leaves behind. */
const roast = library.tenderloin({ massKg: 2.2 });
const request: library.PlanRequest = {
  before: [library.temper({ minutes: 30 })],
  heat: library.roastIn({ ovenC: 230, until: { minutes: 0 } }),
  after: [library.rest({ minutes: 20 })],
};
const plan = library.planCook(roast, request);
const opened = { roast, request, plan, cook: plan.history };

describe('what is written about the library', () => {
  test('its face is a list, one block a room', () => {
    const face = program.getSourceFiles().find(({ fileName }) => fileName.endsWith('src/index.ts'));
    const from = [
      ...(face?.text ?? '').matchAll(/^(?:export \{[^}]*\}|export \*) from '(.*)';$/gm),
    ];
    const rooms = from.map(([, room]) => room);
    expect(rooms.length).toBeGreaterThan(9);
    expect(new Set(rooms).size).toBe(rooms.length);
    expect(face?.text).not.toContain('export *');
  });

  test('every name has a comment', () => {
    expect(names.length).toBeGreaterThan(300);
    expect(names.filter(({ doc }) => doc === '').map(({ name }) => name)).toEqual([]);
  });

  test('every function and class has an example', () => {
    expect(callable.length).toBeGreaterThan(120);
    const without = callable.filter(({ examples: own }) => own.length === 0);
    expect(without.map(({ name }) => name)).toEqual([]);
  });

  test('the opening example leaves what the others begin with', async () => {
    const read = 'left({ roast, request, plan, cook })';
    let found: unknown;
    const left = (them: unknown): void => {
      found = them;
    };
    await runExample(`${opening}\n${read}`, { ...library, left });
    expect(found).toEqual(opened);
  });

  test('the compiler accepts all examples', () => {
    const imports = names
      .map(({ name, kind }) => (kind === 'type' ? `type ${name}` : name))
      .join(', ');
    const bodies = examples.map(({ text }, i) => `async function example${i}() {\n${text}\n}`);
    const text = `import { ${imports} } from '@roastsim/core';\n${opening}\n${bodies.join('\n')}\n`;
    expect(complaintsAbout(text, program)).toEqual([]);
    // and would say if something were wrong
    expect(complaintsAbout(`${text}roast.massPounds\n`, program)).toHaveLength(1);
  }, 60_000);

  test.each(examples)('the example of $name prints what it says', async ({ text }) => {
    expect(await runExample(text, { ...library, ...opened })).toEqual([]);
  });
});

test('an example that says something else is found out', async () => {
  expect(await runExample('kelvin(0) // => 273.2', library)).toEqual([]);
  expect(await runExample('kelvin(0) // => 273.16', library)).toHaveLength(1);
  expect(await runExample("[1, 'a'] // => [1, 'b']", library)).toHaveLength(1);
  expect(await runExample('[1, 2] // => [1]', library)).toHaveLength(1);
  await expect(runExample('const a = 1 // => 1', library)).rejects.toThrow(/no value/);
  await expect(runExample('noSuchThing()', library)).rejects.toThrow(/noSuchThing/);
});
