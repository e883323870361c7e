/** A pipe table. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

/** `value` with a fixed number of decimals; what never happened says so. */
export const fixed = (value: number | undefined, decimals: number): string => {
  if (value === undefined) return 'never';
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? (0).toFixed(decimals) : text;
};

/** `+1.2`, `-0.3`, `0.0`. */
export const signed = (value: number | undefined, decimals: number): string => {
  const text = fixed(value, decimals);
  return value !== undefined && Number(text) > 0 ? `+${text}` : text;
};

/** A share as `+12 %`. */
export const percent = (share: number | undefined, decimals = 0): string =>
  share === undefined ? 'never' : `${signed(100 * share, decimals)} %`;

/** `35-45`, or one number when both print the same. */
export function range([low, high]: readonly [low: number, high: number], decimals = 0): string {
  const [from, to] = [fixed(low, decimals), fixed(high, decimals)];
  return from === to ? from : `${from}-${to}`;
}

/** Where a value lies against a window: `inside`, or how far outside as a share of the nearer edge. */
export function against(
  value: number | undefined,
  [low, high]: readonly [low: number, high: number],
): string {
  if (value === undefined) return 'never';
  if (value >= low && value <= high) return 'inside';
  const off = value < low ? value / low - 1 : value / high - 1;
  return percent(off, Math.abs(off) < 0.01 ? 1 : 0);
}

/** Paragraphs, tables and headings with one blank line between them. */
export const page = (...parts: readonly string[]): string => parts.join('\n\n');

/** Smallest and largest. */
export const span = (values: readonly number[]): readonly [low: number, high: number] => [
  Math.min(...values),
  Math.max(...values),
];

/** A bulleted list. */
export const bullets = (...items: readonly string[]): string =>
  items.map((item) => `- ${item}`).join('\n');
