/** Decimals by the unit a field's name ends in; temperatures and minutes have two. */
const DECIMALS: readonly (readonly [ending: RegExp, decimals: number])[] = [
  [/Kg$/, 4],
  [/Mm$/, 1],
  [/^(fraction|evenness|variation|share)$|(Fraction|Share)$/, 4],
];
const USUAL_DECIMALS = 2;

/** The same data, every number rounded by the name of its field. */
export function rounded<T>(data: T, field?: string): T;
export function rounded(data: unknown, field = ''): unknown {
  if (typeof data === 'number') return roundedNumber(data, field);
  if (Array.isArray(data)) return data.map((item) => rounded(item, field));
  if (typeof data !== 'object' || data === null) return data;
  return Object.fromEntries(Object.entries(data).map(([key, value]) => [key, rounded(value, key)]));
}

function roundedNumber(value: number, field: string): number {
  if (!Number.isFinite(value)) {
    throw new Error(`the answer came out with a ${field} that is not a number`);
  }
  const decimals = DECIMALS.find(([ending]) => ending.test(field))?.[1] ?? USUAL_DECIMALS;
  return Number(value.toFixed(decimals)) + 0; // + 0 turns -0 into 0
}
