import { COLUMNS } from './wrap.js';

/** A column of a table. */
export interface Column {
  readonly head: string;
  readonly cells: readonly string[];
  /** Default right: most are figures. */
  readonly align?: 'left' | 'right';
  /** May be left out where the table is too wide; the highest goes first. */
  readonly spare?: number;
}

const GAP = 2;

/** Width of a text on a terminal, as far as one character takes one column. */
const widthOf = (text: string): number => [...text].length;

const widest = ({ head, cells }: Column): number => Math.max(...[head, ...cells].map(widthOf));

const tableWidth = (columns: readonly Column[]): number =>
  columns.reduce((sum, column) => sum + GAP + widest(column), -GAP);

/**
 * A table in lines, its head first, no wider than `room` as long as leaving out its spare columns helps.
 *
 * @param columns - with as many cells each
 */
export function table(columns: readonly Column[], room = COLUMNS): string[] {
  let shown = columns;
  while (tableWidth(shown) > room) {
    const spare = Math.max(...shown.map((column) => column.spare ?? 0));
    if (spare === 0) break;
    shown = shown.filter((column) => column.spare !== spare);
  }
  const rows = [
    shown.map(({ head }) => head),
    ...columns[0].cells.map((_, row) => shown.map(({ cells }) => cells[row])),
  ];
  return rows.map((row) =>
    row
      .map((text, i) => {
        const fill = ' '.repeat(widest(shown[i]) - widthOf(text));
        return shown[i].align === 'left' ? text + fill : fill + text;
      })
      .join(' '.repeat(GAP))
      .trimEnd(),
  );
}
