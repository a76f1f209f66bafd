/** Not a clinical number: NIST SP 800-131A Rev. 2 disallows HMAC keys of less than 112 bits (from memory, unverified); 128 is the next usual size. */
export const LEAST_KEY_BITS = 128;
/** Four bits to a digit; not a clinical number. */
const LEAST_DIGITS = LEAST_KEY_BITS / 4;

/**
 * What makes a key too weak, in a few words; null where nothing is seen. A program sees only the crude cases: a key has
 * its full strength only where a machine has drawn it at random.
 */
export function keyWeakness(key: string): string | null {
  if (!/^[0-9a-f]*$/i.test(key)) return 'a text with other signs than the digits 0 to 9 and a to f';
  if (key.length < LEAST_DIGITS) {
    return `${key.length} digits, ${4 * key.length} bits, of which some may be tried out`;
  }
  if (key.length % 2 === 1) return 'an odd number of digits';
  const digits = key.toLowerCase();
  const bytes = digits.match(/../g) as string[];
  // 16 random bytes have fewer than 10 different ones about once in a million. Digits that count have eight at most.
  if (new Set(bytes).size < 10) return 'a pattern that repeats itself';
  if (repeats(digits)) return 'a pattern that repeats itself';
  const values = bytes.map((byte) => Number.parseInt(byte, 16));
  if (counts(values, 256)) return 'digits that count up or down';
  // 16 random bytes are all printable about once in ten million.
  if (values.every((value) => value >= 0x20 && value < 0x7f)) return 'written words, as digits';
  return null;
}

/** Whether the digits are a shorter piece over and over. */
function repeats(digits: string): boolean {
  for (let length = 1; length <= digits.length / 2; length++) {
    if (digits === digits.slice(0, length).repeat(digits.length).slice(0, digits.length))
      return true;
  }
  return false;
}

function counts(values: readonly number[], base: number): boolean {
  const step = (i: number) => ((values[i] as number) - (values[i - 1] as number) + base) % base;
  return values.slice(1).every((_, i) => step(i + 1) === step(1));
}
