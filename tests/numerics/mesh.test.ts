import { RoastError, valueAtRadius } from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import { lineVolume, radialMesh, singleLine } from '../../packages/core/src/heat/index.js';

const EXPONENTS = [0, 1, 2] as const;
const SHELLS = [4, 7, 32, 200];
const MESHES = EXPONENTS.flatMap((exponent) =>
  SHELLS.map((shells) => ({ exponent, shells, mesh: radialMesh(shells, exponent) })),
);
const total = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0);

describe.each(MESHES)('mesh of $shells shells, area growing as r^$exponent', (of) => {
  const { exponent, shells, mesh } = of;

  test('axis and surface are nodes, and nodes and faces alternate', () => {
    expect(mesh.node[0]).toBe(0);
    expect(mesh.node[shells]).toBe(1);
    expect(mesh.face[shells]).toBe(1);
    for (let i = 0; i < shells; i++) {
      expect(mesh.face[i]).toBeGreaterThan(mesh.node[i]);
      expect(mesh.face[i]).toBeLessThan(mesh.node[i + 1]);
    }
  });

  test('the volumes fill the whole body', () => {
    expect(total(mesh.share)).toBeCloseTo(1, 14);
    expect(total(mesh.volume)).toBeCloseTo(1 / (exponent + 1), 14);
    for (const [i, share] of mesh.share.entries()) {
      expect(share).toBeCloseTo(mesh.volume[i] * (exponent + 1), 14);
    }
  });

  test('shells grow thinner towards the surface', () => {
    for (let i = 2; i <= shells; i++) {
      const inner = mesh.node[i - 1] - mesh.node[i - 2];
      expect(mesh.node[i] - mesh.node[i - 1]).toBeLessThan(inner);
    }
  });

  test('a steady flow through all faces meets the exact resistance', () => {
    // from a middle node to the surface: links in series against the integral of dr / r^exponent
    const inner = shells >> 1;
    let resistance = 0;
    for (let i = inner; i < shells; i++) resistance += 1 / mesh.link[i];
    const r = mesh.node[inner];
    const exact = [1 - r, -Math.log(r), 1 / r - 1][exponent];
    expect(Math.abs(resistance / exact - 1)).toBeLessThan(2 / shells ** 2);
  });

  test('a profile that is a cubic in r² is read back exactly at any radius', () => {
    const profile = (x: number): number => 3 - x ** 2 + 0.5 * x ** 4 - 0.2 * x ** 6;
    const values = [99, ...Array.from(mesh.node, profile)];
    for (const x of [0, 0.1, 0.25, 0.5, 0.77, 0.999, 1]) {
      expect(valueAtRadius(mesh, values, x, 1)).toBeCloseTo(profile(x), 12);
    }
  });
});

test('volume of one line: per area, per length, a ball', () => {
  const volumes = EXPONENTS.map((exponent) =>
    lineVolume(singleLine(radialMesh(8, exponent), 0.04), 0),
  );
  expect(volumes[0]).toBeCloseTo(0.04, 15);
  expect(volumes[1]).toBeCloseTo(Math.PI * 0.04 ** 2, 15);
  expect(volumes[2]).toBeCloseTo((4 / 3) * Math.PI * 0.04 ** 3, 15);
});

test('a uniform mesh on request', () => {
  const { node } = radialMesh(4, 0, 1);
  expect(Array.from(node)).toEqual([0, 0.25, 0.5, 0.75, 1]);
});

test.each([3, 1025, 8.5, Number.NaN])('refuses %f shells', (shells) => {
  expect(() => radialMesh(shells, 1)).toThrow(RoastError);
});
