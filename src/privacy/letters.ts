/** Digits and letters without those that are taken for one another (Crockford's base 32). */
const LETTERS = '0123456789abcdefghjkmnpqrstvwxyz';

/** The first bits of some bytes, five to a letter; the bytes must hold that many. */
export function inLetters(bytes: Uint8Array, count: number): string {
  return Array.from({ length: count }, (_, i) => {
    const bit = 5 * i;
    const two = ((bytes[bit >> 3] as number) << 8) | (bytes[(bit >> 3) + 1] ?? 0);
    return LETTERS[(two >> (11 - (bit & 7))) & 31];
  }).join('');
}
