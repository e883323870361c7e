import { Help } from 'commander';

/** Width the report is set for [columns]. */
export const COLUMNS = 80;

const GLUE = '\ue000'; // private use: stands for a space that must not break
const typesetter = new Help();

/** Keeps a number and its unit on one line. */
const glued = (text: string): string =>
  text.replace(/(\d) (?=(?:°|%|min\b|h\b|kg\b|g\b|lb\b|oz\b|mm\b|cm\b|in\b))/g, `$1${GLUE}`);

/** A paragraph wrapped to the report's width, its later lines indented under its mark. */
export function paragraph(mark: string, text: string): string {
  return typesetter
    .boxWrap(glued(text), COLUMNS - mark.length)
    .replaceAll(GLUE, ' ')
    .split('\n')
    .map((line, i) => (i === 0 ? mark : ' '.repeat(mark.length)) + line)
    .join('\n');
}
