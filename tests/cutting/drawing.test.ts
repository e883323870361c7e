import { type CutOrder, cutTenderloins } from '@roastsim/core';
import { describe, expect, test } from 'vitest';
import type { Mark } from '../../packages/cli/src/show/card/drawing.js';
import { PT_PER_MM } from '../../packages/cli/src/show/card/page.js';
import { cardMeasure } from '../../packages/cli/src/show/card/textFonts.js';
import { cuttingDrawing } from '../../packages/cli/src/show/cuttingDrawing.js';
import { cuttingSheet } from '../../packages/cli/src/show/cuttingSheet.js';
import { solver, stopped, UNHURRIED } from '../support/cutting.js';

const A4_INNER_MM = 184;

async function drawingOf(orders: readonly CutOrder[], units: 'metric' | 'us') {
  const request = { ...UNHURRIED, orders, stockKg: [2.6] };
  const list = await cutTenderloins(request, await solver, stopped);
  const rows = orders.map((order, i) => ({ row: i + 1, order }));
  const [block] = cuttingSheet(list, { rows, units, remarks: [] }).blocks;
  const scale = A4_INNER_MM / block.use.lengthMm;
  return { block, scale, drawing: cuttingDrawing(block, units, scale) };
}

const THIN: readonly CutOrder[] = [
  { kind: 'steak', pieces: 20, thicknessMm: 12 },
  { kind: 'steak', pieces: 3, massKg: 0.06 },
  { kind: 'tail', pieces: 1, massKg: 0.4 },
];
const USUAL: readonly CutOrder[] = [
  { kind: 'butt', pieces: 1, massKg: 0.8 },
  { kind: 'steak', pieces: 2, massKg: 0.2 },
  { kind: 'centre', pieces: 1, massKg: 0.6 },
];

describe.each([
  ['many thin steaks', THIN],
  ['a usual one', USUAL],
] as const)('the drawing of %s', (_, orders) => {
  test.each(['metric', 'us'] as const)('in %s: words are 8 pt or more and apart', async (units) => {
    const { drawing } = await drawingOf(orders, units);
    const boxes = drawing.marks
      .filter((mark): mark is Extract<Mark, { kind: 'text' }> => mark.kind === 'text')
      .map(({ at: [x, y], text, sizePt, bold }) => {
        expect(sizePt).toBeGreaterThanOrEqual(8);
        const width = (sizePt / PT_PER_MM) * cardMeasure(text, bold ? 700 : 400);
        const height = (0.7 * sizePt) / PT_PER_MM; // figures and capitals have no descenders
        return { text, left: x - width / 2, right: x + width / 2, top: y - height, bottom: y };
      });
    expect(boxes.length).toBeGreaterThan(2);
    for (const [i, a] of boxes.entries()) {
      expect(a.bottom).toBeLessThanOrEqual(drawing.heightMm);
      for (const b of boxes.slice(i + 1)) {
        const apart =
          a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
        expect(apart, `${a.text} and ${b.text}`).toBe(true);
      }
    }
  });

  test('cut lines stand to scale where the list says', async () => {
    const { block, drawing, scale } = await drawingOf(orders, 'metric');
    const lines = drawing.marks.filter((mark) => mark.kind === 'line');
    for (const at of block.pieces.flatMap(({ cutsMm }) => cutsMm)) {
      const there = lines.some(
        ({ points }) =>
          points.length === 2 && points.every(([x]) => Math.abs(x - at * scale) < 1e-6),
      );
      expect(there, `a cut at ${at} mm`).toBe(true);
    }
    expect(drawing.widthMm).toBeCloseTo(A4_INNER_MM, 6);
  });
});
