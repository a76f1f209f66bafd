/** Some of the numbers of 32 bits, and by chance a few others: a bit for the upper bits of each. */
export class Bits {
  private readonly words: Int32Array;
  private readonly shift: number;

  /** @param log of how many bits there are, in base 2: from 5 to 31 */
  constructor(log: number) {
    this.words = new Int32Array(2 ** (log - 5));
    this.shift = 32 - log;
  }

  add(value: number): void {
    const place = value >>> this.shift;
    this.words[place >> 5] = (this.words[place >> 5] as number) | (1 << (place & 31));
  }

  has(value: number): boolean {
    const place = value >>> this.shift;
    return (((this.words[place >> 5] as number) >> (place & 31)) & 1) !== 0;
  }
}
