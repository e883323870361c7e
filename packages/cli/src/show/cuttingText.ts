import { CUTS, cuttingCautions, diameterAt } from '@roastsim/core';
import type { Colors } from 'picocolors/types.js';
import type { CuttingSheet, SheetBlock } from './cuttingSheet.js';
import { COLUMNS, paragraph } from './wrap.js';

const INSET = 2;
const ROWS = 5; // odd, so that the axis has a row of its own
const WHERE_WIDTH = 16;

/** The cutting list as it is read at the block, 80 columns wide. */
export function cuttingText(sheet: CuttingSheet, colors: Colors): string {
  const { units, blocks } = sheet;
  const longestMm = Math.max(...blocks.map(({ use }) => use.lengthMm));
  const parts = [
    `${colors.bold(`Cutting list: ${sheet.headline}`)}\n${paragraph('', sheet.verdict)}`,
    ...blocks.map((block) =>
      [
        colors.bold(block.heading),
        ...drawing(block, longestMm),
        ...block.pieces.map(({ letter, where, what, forWhom }) =>
          paragraph(`  ${letter} ${where.padStart(WHERE_WIDTH)}   `, `${what}, ${forWhom}`),
        ),
      ].join('\n'),
    ),
    ...(sheet.uncut.length === 0
      ? []
      : [sheet.uncut.map((line) => paragraph('', line)).join('\n')]),
    ...(sheet.missing.length === 0
      ? []
      : [['Not served', ...sheet.missing.map((line) => paragraph('! ', line))].join('\n')]),
    sheet.totals.map((line) => paragraph('', line)).join('\n'),
    ...(sheet.remarks.length === 0
      ? []
      : [sheet.remarks.map((line) => paragraph('! ', line)).join('\n')]),
    ['Take care', ...cuttingCautions(units).map(({ text }) => paragraph('  - ', text))].join('\n'),
  ];
  return `${parts.join('\n\n')}\n`;
}

/** From the side, all tenderloins to one scale: its letter fills a piece, a bar is a cut. */
function drawing({ use, pieces }: SheetBlock, longestMm: number): string[] {
  const columns = COLUMNS - 2 * INSET;
  const mmAColumn = longestMm / columns;
  const width = Math.round(use.lengthMm / mmAColumn);
  const sizes = Array.from({ length: width }, (_, c) =>
    diameterAt(CUTS.whole.profile, (c + 0.5) / width),
  );
  const marks = new Array<string>(width).fill('.');
  for (const { letter, fromMm, toMm } of pieces) {
    for (let c = Math.round(fromMm / mmAColumn); c < Math.round(toMm / mmAColumn); c++) {
      if (c < width) marks[c] = letter;
    }
  }
  for (const at of pieces.flatMap(({ cutsMm }) => cutsMm)) {
    const c = Math.round(at / mmAColumn);
    if (c > 0 && c < width) marks[c] = '|';
  }
  return Array.from({ length: ROWS }, (_, r) => {
    const height = Math.abs((r + 0.5) / ROWS - 0.5) * 2;
    const row = marks.map((mark, c) => (height <= sizes[c] ? mark : ' ')).join('');
    return ' '.repeat(INSET) + row.trimEnd();
  });
}
