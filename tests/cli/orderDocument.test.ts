import { readFileSync } from 'node:fs';
import {
  type Order,
  type OrderCut,
  type OrderRequest,
  planOrder,
  shapeOf,
  type TyingReport,
  tyingReport,
  type UnitSystem,
} from '@roastsim/core';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { orderDocument } from '../../packages/cli/src/show/orderDocument.js';
import { roastsim } from '../support/cli.js';

const read = (name: string): object =>
  JSON.parse(readFileSync(new URL(`../../docs/${name}`, import.meta.url), 'utf8'));

const ajv = new Ajv2020({ strict: true, allErrors: true, allowUnionTypes: true });
ajv.addSchema(read('plan.schema.json'));
const validate = ajv.compile(read('order.schema.json'));

/** What the schema has against a document, after it went through JSON. */
function complaints(document: unknown): string[] {
  validate(JSON.parse(JSON.stringify(document)));
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}

const tyingOf = (order: Order): ReadonlyMap<OrderCut, TyingReport> =>
  new Map(
    order.candidates.map(({ cut, piecesKg, askKg, trimmedKg }) => [
      cut,
      tyingReport(shapeOf(cut), (piecesKg[0] * trimmedKg) / askKg, order.cook),
    ]),
  );

function documentOf(request: OrderRequest, units: UnitSystem = 'metric') {
  const order = planOrder({ ...request, units });
  return orderDocument(order, {
    version: '1.2.3',
    units,
    locale: 'en-GB',
    assumed: ['tied'],
    children: request.children?.length ?? 0,
    tying: tyingOf(order),
  });
}

describe('the schema', () => {
  test.each<[string, OrderRequest, UnitSystem]>([
    ['the default', { guests: 8 }, 'metric'],
    ['US units', { guests: 8 }, 'us'],
    [
      'everything that can be said',
      {
        guests: 9,
        children: [0.5, 0.3],
        leftoversKg: 0.085,
        wishes: [
          { band: 'rare', count: 4 },
          { band: 'medium', count: 5 },
        ],
        prices: { currency: 'EUR', perKg: { centre: 72, whole: 52 } },
        stockKg: [2.4, 2.6],
        trims: { fat: 0.1 },
      },
      'metric',
    ],
  ])('accepts an order with %s', (_what, request, units) => {
    expect(complaints(documentOf(request, units))).toEqual([]);
  });

  const accepted = documentOf({ guests: 2 });
  test.each<[string, unknown, string]>([
    ['an unknown field', { ...accepted, extra: 1 }, 'must NOT have additional properties'],
    ['a missing field', { ...accepted, need: undefined }, "must have required property 'need'"],
    [
      'a reason of its own',
      { ...accepted, recommendation: { ...accepted.recommendation, code: 'because' } },
      'must be equal to one of the allowed values',
    ],
    [
      'too few ways',
      { ...accepted, candidates: accepted.candidates.slice(1) },
      'must NOT have fewer',
    ],
  ])('refuses %s', (_what, document, reason) => {
    expect(complaints(document).join('\n')).toContain(reason);
  });
});

describe('the document', () => {
  test('says what the order says, rounded, with words beside codes', () => {
    const document = documentOf({ guests: 8, children: [0.5] });
    expect(document.need).toMatchObject({ guests: 8, children: 1, people: 9, portions: 8.5 });
    expect(document.cook).toEqual({ scale: 'kitchen', doneness: 'medium-rare', ovenC: 230 });
    const centre = document.candidates.find(({ cut }) => cut === document.recommendation.cut);
    expect(centre?.ask).toBe('a centre cut of 1.95 kg, trimmed');
    expect(document.recommendation.text).toMatch(/^It comes out nearest to the wish/);
    expect(document.notes.join()).toMatch(/children/);
    const untrimmed = document.candidates[3];
    const offKg = untrimmed.comesOff.reduce((sum, { massKg }) => sum + massKg, 0);
    expect(untrimmed.trimmedKg + offKg).toBeCloseTo(untrimmed.askKg, 3);
    expect(untrimmed.tying?.fold?.practice.foldAt).toBe(0.9);
  });

  test('comes out of the command as one document', async () => {
    const { code, stdout, stderr } = await roastsim([
      'order',
      '--guests',
      '5 rare, 3 medium',
      '--json',
    ]);
    expect(stderr).toBe('');
    expect(code).toBe(0);
    const document = JSON.parse(stdout);
    expect(complaints(document)).toEqual([]);
    expect(document.need.wishes).toEqual([
      { band: 'rare', count: 5 },
      { band: 'medium', count: 3 },
    ]);
    expect(document.cook.doneness).toBe('rare');
  });
});
