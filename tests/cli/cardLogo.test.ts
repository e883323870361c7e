import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { logoOf } from '../../packages/cli/src/show/card/logo.js';

const SIGN = new URL('../../docs/images/plan.png', import.meta.url); // any picture will do

test('a logo is redrawn no larger than it is printed, and once for all cards that show it', async () => {
  const bytes = await readFile(fileURLToPath(SIGN));
  const logo = await logoOf(bytes, 'Quillfeather');
  expect([logo.widthPx, logo.heightPx]).toEqual([600, 375]);
  expect(logo.alt).toBe('Sign of Quillfeather');
  expect(await logoOf(bytes, 'Quillfeather')).toBe(logo);
  expect(await logoOf(Uint8Array.from(bytes), 'Quillfeather')).not.toBe(logo);
});

test('what is no picture is refused', async () => {
  await expect(logoOf(Buffer.from('no picture'), 'Quillfeather')).rejects.toMatchObject({
    code: 'unreadable',
    path: ['--settings', 'logo'],
  });
});
