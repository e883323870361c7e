import { inflateSync } from 'node:zlib';
import { RoastError } from '@roastsim/core';
import { beforeAll, describe, expect, test } from 'vitest';
import { type CardModel, PAPERS, type Paper } from '../../packages/cli/src/show/card/cardModel.js';
import { guestLines } from '../../packages/cli/src/show/card/guestLines.js';
import { bytesOf, cardPdf, drawCard, openDocument } from '../../packages/cli/src/show/card/pdf.js';
import { unprintable } from '../../packages/cli/src/show/card/textGlyphs.js';
import { fullCard, shopCard } from '../support/cardModels.js';

// Needs the fonts in packages/cli/dist, as `pnpm build` or `pnpm test` leaves them.

const CREATED = new Date('2026-12-01T09:30:00Z');
const MM = 72 / 25.4;

/** A PDF file taken apart as far as these tests need. */
interface Pdf {
  /** All objects but the contents of their streams, one after the other. */
  readonly frame: string;
  /** The same by number. */
  readonly objects: ReadonlyMap<number, string>;
  /** Contents of streams by the number of their object, unpacked. */
  readonly streams: ReadonlyMap<number, string>;
}

function taken(bytes: Uint8Array): Pdf {
  const file = Buffer.from(bytes).toString('latin1');
  const table = Number(/startxref\n(\d+)/.exec(file)?.[1]);
  const places = Array.from(file.slice(table).matchAll(/^(\d{10}) 00000 n/gm), ([, at]) =>
    Number(at),
  );
  const objects = new Map<number, string>();
  const streams = new Map<number, string>();
  for (const place of places) {
    const [start, object] = /^(\d+) 0 obj\n/.exec(file.slice(place, place + 20)) ?? [];
    if (start === undefined) throw new Error(`no object at ${place}`);
    const from = place + start.length;
    const text = file.slice(from, file.indexOf('\nendobj', from));
    const [dictionary] = text.split('\nstream\n', 1);
    objects.set(Number(object), dictionary);
    if (dictionary.length === text.length) continue;
    const begin = from + dictionary.length + '\nstream\n'.length;
    const length = Number(/\/Length (\d+)/.exec(dictionary)?.[1]);
    const raw = Buffer.from(file.slice(begin, begin + length), 'latin1');
    const packed = dictionary.includes('/FlateDecode') && !dictionary.includes('/Image');
    streams.set(Number(object), (packed ? inflateSync(raw) : raw).toString('latin1'));
  }
  return { frame: [...objects.values()].join('\n'), objects, streams };
}

/** All texts of a file as a reader finds them: letters by way of each font's own table. */
function textOf(pdf: Pdf): string {
  const letters = new Map<string, string[]>();
  for (const [, name, object] of pdf.frame.matchAll(/\/(F\d+) (\d+) 0 R/g)) {
    const table = Number(/\/ToUnicode (\d+) 0 R/.exec(pdf.objects.get(Number(object)) ?? '')?.[1]);
    const list = /\[(<[\s\S]*>)\]\s*endbfrange/.exec(pdf.streams.get(table) ?? '')?.[1] ?? '';
    letters.set(
      name,
      Array.from(list.matchAll(/<([\da-f ]*)>/g), ([, codes]) =>
        Buffer.from(codes.replaceAll(' ', ''), 'hex').swap16().toString('utf16le'),
      ),
    );
  }
  let text = '';
  for (const content of pdf.streams.values()) {
    let font: string[] = [];
    for (const [, name, shown] of content.matchAll(/\/(F\d+) [\d.]+ Tf|\[([^\]]*)\] TJ/g)) {
      if (name !== undefined) font = letters.get(name) ?? [];
      else {
        for (const [, hex] of shown.matchAll(/<([\da-f]+)>/g)) {
          for (const [code] of hex.matchAll(/.{4}/g)) text += font[Number.parseInt(code, 16)] ?? '';
        }
      }
    }
  }
  return text;
}

const bare = (text: string): string => text.replace(/\s/g, '');
const count = (text: string, pattern: RegExp): number => text.match(pattern)?.length ?? 0;

let shop: CardModel;
let full: CardModel;
let pdf: Pdf;

beforeAll(async () => {
  shop = await shopCard('a5');
  full = await fullCard('a4');
  pdf = taken(await cardPdf(full, CREATED));
});

describe('a card as a PDF file', () => {
  test.each(Object.keys(PAPERS) as Paper[])('is one page of %s', async (paper) => {
    const { frame } = taken(await cardPdf({ ...shop, paper }, CREATED));
    expect(count(frame, /\/Type \/Page\n/g)).toBe(1);
    const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(frame);
    expect(Number(box?.[1])).toBeCloseTo(PAPERS[paper].widthMm * MM, 2);
    expect(Number(box?.[2])).toBeCloseTo(PAPERS[paper].heightMm * MM, 2);
  });

  test('brings its fonts, cut to what it shows, and uses no other', () => {
    const { frame } = pdf;
    expect(count(frame, /\/FontFile2 /g)).toBe(3);
    const names = Array.from(frame.matchAll(/\/BaseFont \/(\S+)/g), ([, name]) => name);
    expect(names.length).toBeGreaterThan(0);
    expect(names.filter((name) => !/^[A-Z]{6}\+SourceSans3-/.test(name))).toEqual([]);
    expect(frame).not.toMatch(/Helvetica|Type1/);
  });

  test('holds its texts as texts, in Latin, Greek and Cyrillic letters', () => {
    const text = bare(textOf(pdf));
    const expected = [
      full.title,
      ...full.keys.map(({ value }) => value),
      ...full.steps.map((step) => step.text),
      ...guestLines(full.guests, full.units).flatMap(({ who, what }) => [who, what]),
      ...full.notices,
      ...full.cautions,
    ];
    expect(expected.filter((words) => !text.includes(bare(words)))).toEqual([]);
    expect(text).toContain('Μαρία');
    expect(text).toContain('Наталья');
  });

  test('draws lines as lines: the only pictures are the chart and the sign', () => {
    expect(count(pdf.frame, /\/Subtype \/Image/g)).toBe(2);
  });

  test('can be read out: language, title, structure, and words for each figure', () => {
    const { frame } = pdf;
    expect(frame).toContain('/Lang (en)');
    expect(frame).toContain('/Marked true');
    expect(frame).toContain('/DisplayDocTitle true');
    expect(count(frame, /\/S \/H1\n/g)).toBe(1);
    expect(count(frame, /\/S \/Figure\n/g)).toBe(4);
    expect(count(frame, /\/Alt \(/g)).toBe(4);
    const contents = [...pdf.streams.values()].filter((content) => content.includes(' Tf'));
    expect(contents.length).toBe(1);
    expect(count(contents[0], /BDC|BMC/g)).toBe(count(contents[0], /EMC/g));
    const loose = contents[0]
      .replace(/\/\S+ (?:<<[\s\S]*?>> BDC|BMC)[\s\S]*?EMC/g, '')
      .match(/\bTJ\b|\bDo\b|\bf\*?$|\bS$/gm);
    expect(loose).toBeNull();
  });

  test('says nothing of who made it but the name of the command', () => {
    expect(pdf.frame).toContain('/Producer');
    const info = Array.from(
      pdf.frame.matchAll(/\/(?:Producer|Creator) (\d+) 0 R/g),
      ([, object]) => pdf.objects.get(Number(object)) ?? '',
    );
    expect(info).toEqual(['(roastsim)', '(roastsim)']);
    expect(pdf.frame).not.toMatch(/pdfkit/i);
    expect([...pdf.streams.values()].join('\n')).not.toMatch(/pdfkit/i);
  });

  test('its description is sound XML, whatever the title', async () => {
    const title = 'Fish & <chips>, "well" done';
    const { streams } = taken(await cardPdf({ ...shop, title }, CREATED));
    const xmp = [...streams.values()].find((content) => content.includes('<x:xmpmeta')) ?? '';
    const said = /<rdf:li xml:lang="x-default">([\s\S]*?)<\/rdf:li>/.exec(xmp)?.[1];
    expect(said).toMatch(/^Fish .*chips.*done$/);
    expect(said).not.toMatch(/[<>&]/);
  });

  test('the same card with the same date is the same file', async () => {
    const [first, second] = [await cardPdf(shop, CREATED), await cardPdf(shop, CREATED)];
    expect(Buffer.compare(first, second)).toBe(0);
    const later = await cardPdf(shop, new Date('2026-12-02T09:30:00Z'));
    expect(Buffer.compare(first, later)).not.toBe(0);
    expect(Buffer.from(first).toString('latin1')).toContain('(D:20261201093000Z)');
  });

  test('many cards share a document, its fonts and the sign of the shop', async () => {
    const doc = openDocument({ title: 'Two cards', language: 'en', created: CREATED });
    const bytes = bytesOf(doc);
    drawCard(doc, shop);
    drawCard(doc, { ...shop, forWhom: 'B. Ek' });
    doc.end();
    const both = taken(await bytes);
    expect(count(both.frame, /\/Type \/Page\n/g)).toBe(2);
    expect(count(both.frame, /\/FontFile2 /g)).toBe(3);
    expect(count(both.frame, /\/Subtype \/Image/g)).toBe(2); // the chart of one plan, and the sign
    expect(bare(textOf(both))).toContain('A.Lindqvist');
    expect(bare(textOf(both))).toContain('B.Ek');
  });

  test('a letter first met as a part of another can still be found as text', async () => {
    await cardPdf({ ...shop, forWhom: 'Źródło' }, CREATED); // its Z is drawn, but no text
    const next = taken(await cardPdf({ ...shop, forWhom: 'Zita' }, CREATED));
    expect(bare(textOf(next))).toContain('Zita');
  });
});

describe('a character without a letterform', () => {
  const odd = (): CardModel => ({
    ...shop,
    forWhom: 'Yamada 山田',
    guests: [...full.guests.slice(0, 2), { ...full.guests[2], name: 'Bo 🥩' }],
  });

  test('is listed, each once', () => {
    expect(unprintable(odd())).toEqual(['山', '田', '🥩']);
    expect(unprintable(full)).toEqual([]);
  });

  test('is told with the field it stands in, and never printed as an empty box', async () => {
    const refusal = cardPdf(odd(), CREATED);
    await expect(refusal).rejects.toBeInstanceOf(RoastError);
    await expect(refusal).rejects.toMatchObject({
      code: 'unreadable',
      path: ['forWhom'],
      found: '山',
    });
    await expect(refusal).rejects.toThrow('U+5C71 "山" in forWhom');
    const guest: CardModel = { ...odd(), forWhom: 'Yamada' };
    await expect(cardPdf(guest, CREATED)).rejects.toMatchObject({ path: ['guests', 2, 'name'] });
    await expect(cardPdf(guest, CREATED)).rejects.toThrow('U+1F969 "🥩" in guests[2].name');
  });

  test('letters of Latin, Greek and Cyrillic alphabets all have one', () => {
    const alphabets =
      'AaÀàÆæÇçÐðĐđĞğİıŁłŃńŒœŘřŞşȘșŠšȚțŤťŐőŰűŽžßẞ' +
      'ΑαΆάΒβΓγΔδΕεΈέΖζΗηΉήΘθΙιΊίΪϊΚκΛλΜμΝνΞξΟοΌόΠπΡρΣσςΤτΥυΎύΦφΧχΨψΩωΏώ' +
      'АаБбВвГгҐґДдЂђЃѓЕеЁёЄєЖжЗзЅѕИиІіЇїЙйЈјКкЛлЉљМмНнЊњОоПпРрСсТтЋћУуЎўФфХхЦцЧчЏџШшЩщЪъЫыЬьЭэЮюЯя' +
      '0123456789½¼¾°–—‘’“”„«»…·×€£$%&@#!?¡¿';
    expect(unprintable({ ...shop, note: alphabets })).toEqual([]);
  });

  test('line ends and tabs are spaces', () => {
    expect(unprintable({ ...shop, note: 'one\ntwo\tthree\r\nfour' })).toEqual([]);
    expect(unprintable({ ...shop, note: 'bell\u0007' })).toEqual(['\u0007']);
  });
});
