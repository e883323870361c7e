import wrapAnsi from 'wrap-ansi';

/** Width the report is set for [columns]. */
export const COLUMNS = 80;

const NO_BREAK = '\u00a0';

/** Keeps a number and its unit on one line. */
const glued = (text: string): string =>
  text.replace(/(\d) (?=(?:°|%|min\b|h\b|kg\b|g\b|lb\b|oz\b|mm\b|cm\b|in\b))/g, `$1${NO_BREAK}`);

/** A paragraph wrapped to the report's width, its later lines indented under its mark. */
export function paragraph(mark: string, text: string): string {
  const indent = ' '.repeat(mark.length);
  return wrapAnsi(glued(text), COLUMNS - mark.length, { hard: true })
    .replaceAll(NO_BREAK, ' ')
    .split('\n')
    .map((line, i) => (i === 0 ? mark : indent) + line)
    .join('\n');
}
