import { percent, range, signed } from './markdown.js';
import { gapOf, type Row, verdictOf } from './row.js';

/** Heading of what a row is held against, unless its section says otherwise. */
export const PUBLISHED = 'published';

/** What is published, with as many decimals as the row is compared with. */
export const publishedText = ({ published, decimals }: Row): string => range(published, decimals);

/** The simulator's figure, or `never`. */
export const modelText = ({ model, decimals }: Row): string =>
  model === undefined ? 'never' : range(model, decimals);

/** How far outside: `inside`, a share, or a distance. */
export function gapText(row: Row): string {
  const gap = gapOf(row);
  if (gap === undefined) return 'never';
  if (gap === 0) return 'inside';
  if (row.allow.as === 'distance') {
    return `${signed(gap, row.decimals)} ${row.unit === '%' ? 'points' : row.unit}`.trimEnd();
  }
  return percent(gap, Math.abs(gap) < 0.01 ? 2 : Math.abs(gap) < 0.1 ? 1 : 0);
}

/** The verdict, bold where it is not a pass. */
export function verdictText(row: Row): string {
  const verdict = verdictOf(row);
  return verdict === 'pass' ? verdict : `**${verdict}**`;
}

/** The verdict as the last cell of a table. */
export const VERDICT_HEAD = 'verdict';

/** Head and cells of a table made of rows alone. */
export const rowHead = (against = PUBLISHED): readonly string[] => [
  'what',
  against,
  'here',
  'off by',
  VERDICT_HEAD,
];
export const rowCells = (row: Row): string[] => [
  row.unit === '' ? row.what : `${row.what}, ${row.unit}`,
  publishedText(row),
  modelText(row),
  gapText(row),
  verdictText(row),
];
