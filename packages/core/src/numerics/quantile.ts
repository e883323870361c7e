/**
 * Value below which a share `p` of a sample lies: straight line between neighbours, as most programs do (Hyndman and Fan 1996,
 * definition 7, from memory). Infinite values are allowed at the ends.
 *
 * @param sorted - rising; at least one number
 * @param p - 0 to 1
 */
export function quantileOf(sorted: ArrayLike<number>, p: number): number {
  const at = p * (sorted.length - 1);
  const low = Math.floor(at);
  const part = at - low;
  return part === 0 ? sorted[low] : sorted[low] + part * (sorted[low + 1] - sorted[low]);
}
