import { planCook, rest, roastIn, tenderloin, twineFor } from '@roastsim/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Drawing, PointMm } from '../../packages/cli/src/show/card/drawing.js';
import { hatch } from '../../packages/cli/src/show/card/hatch.js';
import { roastDrawing } from '../../packages/cli/src/show/card/roastDrawing.js';
import { ringsOf, sectionDrawing } from '../../packages/cli/src/show/card/sectionDrawing.js';

const COARSE = { stations: 12, shells: 16 };
const planOf = (massKg: number, cut: 'whole' | 'centre' | 'tail' = 'whole') =>
  planCook(
    tenderloin({ massKg, cut }),
    {
      before: [],
      heat: roastIn({ ovenC: 200, until: { minutes: 0 } }),
      after: [rest({ minutes: 20 })],
    },
    COARSE,
  );

const pointsOf = ({ marks }: Drawing): PointMm[] =>
  marks.flatMap((mark) =>
    mark.kind === 'area' ? mark.rings.flat() : mark.kind === 'line' ? [...mark.points] : [mark.at],
  );

/** Even-odd rule, by a ray to the right. */
const inside = ([x, y]: PointMm, rings: readonly (readonly PointMm[])[]): boolean =>
  rings.reduce(
    (odd, ring) =>
      ring.reduce((flip, [ax, ay], i) => {
        const [bx, by] = ring[(i + 1) % ring.length];
        const crosses = ay <= y !== by <= y && x < ax + ((y - ay) / (by - ay)) * (bx - ax);
        return crosses ? !flip : flip;
      }, odd),
    false,
  );

describe('hatching', () => {
  const point = fc.tuple(
    fc.double({ min: -50, max: 50, noNaN: true }),
    fc.double({ min: -50, max: 50, noNaN: true }),
  );
  const ring = fc.array(point, { minLength: 3, maxLength: 9 });

  test('law: every line lies inside the area, holes and all', () => {
    fc.assert(
      fc.property(
        fc.array(ring, { minLength: 1, maxLength: 2 }),
        fc.constantFrom(0, 45, 90, 135, 20),
        (rings, angle) => {
          for (const [[ax, ay], [bx, by]] of hatch(rings, angle, 3)) {
            if (Math.hypot(bx - ax, by - ay) < 1e-6) continue;
            expect(inside([(ax + bx) / 2, (ay + by) / 2], rings)).toBe(true);
          }
        },
      ),
    );
  });

  test('a square of 10 mm holds nine level lines 1 mm apart, each 10 mm long', () => {
    const square: PointMm[] = [
      [0, 0.5],
      [10, 0.5],
      [10, 9.5],
      [0, 9.5],
    ];
    const lines = hatch([square], 0, 1);
    expect(lines).toHaveLength(9);
    for (const [[ax], [bx]] of lines) expect(bx - ax).toBeCloseTo(10, 9);
  });
});

describe.each([
  ['whole, 2.2 kg', planOf(2.2), 128],
  ['whole, 2.2 kg, wide', planOf(2.2), 185],
  ['a short tail', planOf(0.3, 'tail'), 128],
  ['centre, 1.1 kg', planOf(1.1, 'centre'), 128],
] as const)('the side view: %s', (_what, plan, widthMm) => {
  const drawing = roastDrawing(plan, 'metric', widthMm);

  test('stays within its box', () => {
    for (const [x, y] of pointsOf(drawing)) {
      expect(x).toBeGreaterThanOrEqual(-0.01);
      expect(x).toBeLessThanOrEqual(drawing.widthMm + 0.01);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThanOrEqual(drawing.heightMm);
    }
  });

  test('is to scale: areas of equal weight keep their proportions of length', () => {
    const areas = drawing.marks.filter((mark) => mark.kind === 'area' && mark.rings[0].length > 12);
    const widths = areas.map((mark) => {
      const xs = pointsOf({ ...drawing, marks: [mark] }).map(([x]) => x);
      return Math.max(...xs) - Math.min(...xs);
    });
    const scales = plan.slices.map(({ fromMm, toMm }, i) => widths[i] / (toMm - fromMm));
    for (const scale of scales) expect(scale / scales[0]).toBeCloseTo(1, 9);
  });

  test('numbers every slice it has room for and tells the rest in words', () => {
    const numbers = drawing.marks.filter((mark) => mark.kind === 'text' && /^\d+$/.test(mark.text));
    expect(numbers.length).toBeGreaterThanOrEqual(1);
    expect(drawing.alt).toContain(`cut into ${plan.slices.length} slices`);
    for (const mark of drawing.marks)
      if (mark.kind === 'text') expect(mark.sizePt).toBeGreaterThanOrEqual(8);
  });
});

describe('the cross-section', () => {
  const plan = planOf(2.2);
  const rings = ringsOf(plan, plan.slices[plan.aim.slice].middleMm);

  test('rings follow each other from the axis to the surface, ever more done', () => {
    expect(rings[0].inner).toBe(0);
    expect(rings.at(-1)?.outer).toBe(1);
    for (let i = 1; i < rings.length; i++) {
      expect(rings[i].inner).toBe(rings[i - 1].outer);
      expect(rings[i].index).toBeGreaterThan(rings[i - 1].index);
    }
  });

  test('the inner ring has the evenness of the slice', () => {
    expect(rings[0].outer ** 2).toBeCloseTo(plan.slices[plan.aim.slice].evenness, 2);
  });

  test('stays within its box', () => {
    const drawing = sectionDrawing(plan, 'us', 31);
    for (const [x, y] of pointsOf(drawing)) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(drawing.widthMm);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThanOrEqual(drawing.heightMm);
    }
  });
});

test('ties stand at even distances, half a distance from the ends, and their twine goes round', () => {
  const { profile } = tenderloin({ massKg: 2.2 });
  const { atMm, spacingMm, lengthMm } = twineFor(profile);
  expect(atMm).toHaveLength(13);
  expect(atMm[0]).toBeCloseTo(spacingMm / 2, 9);
  expect(atMm[12]).toBeCloseTo(523.1 - spacingMm / 2, 0);
  // thirteen girths of 64 to 81 mm, and 25 cm to knot each
  expect(lengthMm).toBeGreaterThan(13 * (Math.PI * 50 + 250));
  expect(lengthMm).toBeLessThan(13 * (Math.PI * 81.3 + 250));
});
