import { meatOf, RoastError } from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import {
  cloneState,
  copyState,
  type HeatState,
  ledgerOf,
  radialMesh,
  singleLine,
  uniformState,
  valueAtRadius,
} from '../../packages/core/src/heat/index.js';

const MEAT = meatOf({});
const fresh = (): HeatState => uniformState(singleLine(radialMesh(6, 1), 0.04), MEAT, 7);
/** The fields, without the storage they share. */
const arrays = ({ all: _, ...fields }: HeatState): [string, Float64Array][] =>
  Object.entries(fields).filter(
    (entry): entry is [string, Float64Array] => entry[1] instanceof Float64Array,
  );

describe('the state of a body', () => {
  test('begins at one temperature, all its water in place, nothing lost', () => {
    const state = fresh();
    for (const field of ['tempC', 'previousC', 'hottestC', 'outsideC', 'discC'] as const) {
      expect([...new Set(state[field])], field).toEqual([7]);
    }
    expect([...new Set(state.water)]).toEqual([MEAT.waterFraction]);
    expect(state.tempC).toHaveLength(7);
    expect(state.discC).toHaveLength(14);
    for (const field of [
      'deficit',
      'endDeficit',
      'frontChangeK',
      'surfaceHeat',
      'evaporatedKg',
      'drippedKg',
      'endEvaporatedKg',
      'endDrippedKg',
      'ledger',
    ] as const) {
      expect([...new Set(state[field])], field).toEqual([0]);
    }
    expect(state.endDeficit).toHaveLength(2);
    expect(state.lastStepS).toBeNaN();
    expect(arrays(state)).toHaveLength(15);
  });

  test('its fields fill their storage, each in its own place', () => {
    const state = fresh();
    for (const [i, [, values]] of arrays(state).entries()) values.fill(i + 1);
    const inOrder = arrays(state).flatMap(([, values]) => [...values]);
    expect([...state.all]).toEqual(inOrder);
    for (const [i, [name, values]] of arrays(state).entries())
      expect([...new Set(values)], name).toEqual([i + 1]);
  });

  test('is copied whole: every field, and none shared', () => {
    const from = fresh();
    for (const [i, [, values]] of arrays(from).entries()) values.fill(i + 1);
    from.lastStepS = 3;
    const into = fresh();
    copyState(from, into);
    const clone = cloneState(from);
    expect(into).toEqual(from);
    expect(clone).toEqual(from);
    for (const [, values] of arrays(from)) values.fill(-1);
    for (const [i, [name, values]] of arrays(clone).entries())
      expect([...new Set(values)], name).toEqual([i + 1]);
    for (const [i, [name, values]] of arrays(into).entries())
      expect([...new Set(values)], name).toEqual([i + 1]);
  });

  test('names its totals', () => {
    const state = fresh();
    state.ledger.set([1, 2, 3, 4]);
    expect(ledgerOf(state)).toEqual({ heatInJ: 1, latentJ: 2, storedJ: 3, juiceJ: 4 });
  });
});

describe('a mesh', () => {
  test.each([3, 1025, 6.5, Number.NaN])('of %f shells is refused', (shells) => {
    expect(() => radialMesh(shells, 1)).toThrow(RoastError);
    try {
      radialMesh(shells, 1);
    } catch (error) {
      expect(error).toMatchObject({
        code: 'out-of-range',
        path: ['shells'],
        found: shells,
        accepted: 'a whole number from 4 to 1024',
        message: `a line has ${shells} shells; it takes a whole number from 4 to 1024`,
      });
    }
  });

  test.each([4, 1024])('of %i shells is made', (shells) => {
    expect(radialMesh(shells, 1).node).toHaveLength(shells + 1);
  });

  test('gives back a cubic in r² at any radius, and the values at its ends', () => {
    const mesh = radialMesh(8, 1);
    const cubic = (r: number): number => 1 + 2 * r ** 2 - 3 * r ** 4 + 0.5 * r ** 6;
    const values = [99, ...Array.from(mesh.node, cubic), 99];
    for (let r = 0; r <= 1.0001; r += 0.02) {
      expect(valueAtRadius(mesh, values, r, 1)).toBeCloseTo(cubic(Math.min(1, r)), 10);
    }
    expect(valueAtRadius(mesh, values, -1, 1)).toBe(cubic(0));
    expect(valueAtRadius(mesh, values, 2, 1)).toBe(values[9]);
    expect(valueAtRadius(mesh, values.slice(1), 0.3)).toBeCloseTo(cubic(0.3), 10);
  });

  test.each([0, 1, 2] as const)(
    'of exponent %i has volumes and links by the closed forms',
    (exponent) => {
      const { node, face, volume, share, link, unitArea } = radialMesh(5, exponent);
      const power = exponent + 1;
      let inner = 0;
      for (let i = 0; i <= 5; i++) {
        const outer = i === 5 ? 1 : (node[i] + node[i + 1]) / 2;
        expect(face[i]).toBeCloseTo(outer, 14);
        expect(share[i]).toBeCloseTo(outer ** power - inner ** power, 14);
        expect(volume[i]).toBeCloseTo(share[i] / power, 14);
        expect(link[i]).toBeCloseTo(i === 5 ? 0 : outer ** exponent / (node[i + 1] - node[i]), 12);
        inner = outer;
      }
      expect(unitArea).toBe([1, 2 * Math.PI, 4 * Math.PI][exponent]);
      expect(node[2]).toBeCloseTo(1 - 0.6 ** 1.3, 14);
    },
  );
});
