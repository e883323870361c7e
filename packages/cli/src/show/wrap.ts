import wrapAnsi from 'wrap-ansi';

/** Width the report is set for [columns]. */
export const COLUMNS = 80;

/** A paragraph wrapped to the report's width, its later lines indented under its mark. */
export function paragraph(mark: string, text: string): string {
  const indent = ' '.repeat(mark.length);
  return wrapAnsi(text, COLUMNS - mark.length, { hard: true })
    .split('\n')
    .map((line, i) => (i === 0 ? mark : indent) + line)
    .join('\n');
}
