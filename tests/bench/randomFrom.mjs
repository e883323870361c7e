/**
 * Numbers from 0 to 1, the same for the same seed.
 *
 * @param {number} seed
 */
export function randomFrom(seed) {
  let state = seed;
  return () => {
    // mulberry32, from memory: small, and good enough to vary orders
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
