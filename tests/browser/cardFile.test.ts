import { beforeAll, describe, expect, test } from 'vitest';
import type { CardModel } from '../../packages/cli/src/show/card/cardModel.js';
import { cardHtml } from '../../packages/cli/src/show/card/html.js';
import { fullCard, plainCard, shopCard } from '../support/cardModels.js';

// The HTML card as a file, read without a browser. The fonts come from packages/cli/dist.

/** Words between tags, as they are read. */
const wordsOf = (html: string): string =>
  html
    .replace(/<style>.*?<\/style>/gs, '')
    .replace(/<[^>]*>/g, '\n')
    .replaceAll('\u00a0', ' ')
    .replaceAll('&#39;', "'")
    .replaceAll('&quot;', '"')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');

/** Every text of a model but the names of kinds. */
function textsOf(value: unknown, key = ''): string[] {
  if (typeof value === 'string') {
    return ['paper', 'language', 'units', 'kind', 'anchor', 'alt'].includes(key) ? [] : [value];
  }
  if (value instanceof Uint8Array || typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, item]) =>
    textsOf(item, Array.isArray(value) ? key : name),
  );
}

describe.each([
  ['plain', plainCard],
  ['of a shop', shopCard],
  ['full', fullCard],
] as const)('the HTML card: %s', (_what, make) => {
  let card: CardModel;
  let html: string;
  beforeAll(async () => {
    card = await make();
    html = cardHtml(card);
  });

  test('leans on nothing outside itself', () => {
    const addresses = [...html.matchAll(/(?:src|href|url)\s*(?:=\s*"|\()([^")]*)/gi)];
    expect(addresses.length).toBeGreaterThan(2);
    for (const [, address] of addresses)
      expect(address.slice(0, 11)).toMatch(/^data:(image|font-?)/);
    expect(html).not.toMatch(/<(?:script|link|iframe|object|embed|form|a)\b/i);
    expect(html).not.toMatch(/@import|https?:/i);
  });

  test('leaves no text of the card out', () => {
    const main = wordsOf(html.slice(html.indexOf('<main>'), html.indexOf('class="sheet"')));
    const joined = main.replace(/\s+/g, ' ');
    for (const text of textsOf({ ...card, legend: [] })) expect(joined).toContain(text);
    for (const entry of card.legend) expect(joined).toContain(entry.split(' ')[1]);
  });

  test('describes its pictures in words', () => {
    for (const alt of [card.roast.alt, card.section.alt]) {
      for (const words of alt.split(/[.:;]\s/)) expect(html).toContain(words);
    }
    expect(html).toContain(`alt="${card.charts[0].alt}"`);
    expect(html.match(/role="img"/g)).toHaveLength(2);
  });

  test('names every id once', () => {
    const ids = [...html.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
    expect(ids.length).toBeGreaterThan(2);
    expect(new Set(ids).size).toBe(ids.length);
  });
});

test('the HTML card embeds the scripts it shows, and no others', async () => {
  const scripts = (html: string): string[] =>
    [...html.matchAll(/unicode-range:U\+([\dA-F]+)/g)].map(([, first]) => first);
  const plain = await plainCard();
  const latin = scripts(cardHtml(plain));
  expect(latin).toEqual(['0000', '0000', '0000']); // three weights
  const greek = scripts(cardHtml({ ...plain, forWhom: 'Μαρία' }));
  expect(new Set(greek)).toEqual(new Set(['0000', '0370']));
  const cyrillic = scripts(cardHtml({ ...plain, forWhom: 'Наталья' }));
  expect(new Set(cyrillic)).toEqual(new Set(['0000', '0301']));
});

test('the HTML card stays small', async () => {
  expect(cardHtml(await plainCard()).length).toBeLessThan(300_000);
  expect(cardHtml(await fullCard()).length).toBeLessThan(500_000);
});

test('the HTML card is refused where its paper cannot hold it, like the PDF', async () => {
  const card = await fullCard('a5');
  expect(() => cardHtml(card)).toThrow(/too long for one page of a5/);
});
