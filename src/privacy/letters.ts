const DIGITS = '0123456789';
/** Letters without those that are taken for a digit or for one another (Crockford's base 32). */
const LETTERS = 'abcdefghjkmnpqrstvwxyz';
const BOTH = `${DIGITS}${LETTERS}`;

/** The first bits of some bytes, five to a letter; the bytes must hold that many. */
export function inLetters(bytes: Uint8Array, count: number): string {
  return Array.from({ length: count }, (_, i) => {
    const bit = 5 * i;
    const two = ((bytes[bit >> 3] as number) << 8) | (bytes[(bit >> 3) + 1] ?? 0);
    return BOTH[(two >> (11 - (bit & 7))) & 31];
  }).join('');
}

/**
 * The remainder of some bytes, read as one number, as two letters and a digit by turns: 12.2 bits to three. No word and no
 * number is long enough to be a name, a day or a record number, of which a search for those would complain.
 */
export function inSyllables(bytes: Uint8Array, count: number): string {
  let left = bytes.reduce((number, byte) => 256n * number + BigInt(byte), 0n);
  const next = (signs: string) => {
    const sign = signs[Number(left % BigInt(signs.length))];
    left /= BigInt(signs.length);
    return sign;
  };
  return Array.from(
    { length: count },
    () => `${next(LETTERS)}${next(LETTERS)}${next(DIGITS)}`,
  ).join('');
}
