import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { RoastError } from '@roastsim/core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readSettings, withSettings } from '../../packages/cli/src/read/settings.js';
import { roastsim } from '../support/cli.js';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'roastsim-settings-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function file(text: string | Uint8Array, name = 'shop.yaml'): Promise<string> {
  const full = path.join(folder, name);
  await writeFile(full, text);
  return full;
}

describe('settings', () => {
  test('YAML and JSON say the same', async () => {
    const yaml = await readSettings(
      await file('name: Hill Counter\naddress: [1 Mill Lane, Oakford]\noven: 425F\nunits: us\n'),
    );
    const json = await readSettings(
      await file(
        JSON.stringify({
          name: 'Hill Counter',
          address: ['1 Mill Lane', 'Oakford'],
          oven: '425F',
          units: 'us',
        }),
        'shop.json',
      ),
    );
    expect(yaml).toEqual(json);
  });

  test.each([
    ['an unknown key', 'nmae: x', 'unknown-name', /nmae.*did you mean name/],
    ['a wrong unit system', 'units: imperial', 'out-of-range', /units.*metric/],
    ['a wrong kind', 'name: [a, b]', 'out-of-range', /name/],
    ['a list', '- a\n- b', 'out-of-range', /settings/],
    ['broken YAML', 'name: "a\noven: {', 'unreadable', /line \d+ is not YAML/],
    ['no locale', 'locale: "x y"', 'out-of-range', /locale.*language tag/],
    ['a logo that is not there', 'logo: nowhere.png', 'unreadable', /logo.*nowhere\.png/],
    ['a paper size', 'paper: a3', 'out-of-range', /paper.*a5/],
  ])('%s is told in one line', async (_what, text, code, message) => {
    const error = await readSettings(await file(text)).catch((reason) => reason);
    expect(error).toBeInstanceOf(RoastError);
    expect(error.code).toBe(code);
    expect(error.message).toMatch(message);
    expect(error.message).not.toContain('\n');
  });

  test('a file that is missing or huge is told', async () => {
    const missing = await readSettings(path.join(folder, 'none.yaml')).catch((reason) => reason);
    expect(missing.code).toBe('unreadable');
    const huge = await readSettings(await file('#'.repeat(2_000_000))).catch((reason) => reason);
    expect(huge.code).toBe('out-of-range');
  });

  test('an option overrules the file, the file overrules the default', () => {
    const settings = { oven: '200C', scale: 'amsa', units: 'us', portion: '300g' } as const;
    expect(withSettings({}, settings)).toMatchObject(settings);
    expect(withSettings({ oven: '180C', units: 'metric' }, settings)).toMatchObject({
      oven: '180C',
      units: 'metric',
      scale: 'amsa',
    });
    expect(withSettings({ bath: '58C' }, settings)).not.toHaveProperty('oven');
  });

  test('the command takes them', async () => {
    const settings = await file('oven: 200C\nunits: us\nportion: 1lb\n', 'defaults.yaml');
    const { code, stdout } = await roastsim(['--weight', '2.2kg', '--settings', settings]);
    expect(code).toBe(0);
    expect(stdout).toContain('392 °F');
    expect(stdout).toMatch(/slice \d aimed at/);
  });
});
