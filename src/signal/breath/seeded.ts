/**
 * Whole numbers from 0 to `below` - 1 that repeat with the seed on every machine: a 32-bit
 * xorshift (shifts 13, 17, 5; Marsaglia 2003, from memory, unverified).
 */
export function seededWholeNumbers(seed: number): (below: number) => number {
  let state = (seed ^ 0x9e3779b9) >>> 0 || 1;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return Math.floor((state / 4294967296) * below);
  };
}
