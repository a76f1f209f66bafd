/** Bits for each value: one of the others in thirty-two is taken for one of them. */
const ROOM = 32;

/** Of a few values, fewer others yet, as 16 kB stand near the processor whatever is done. Bits, in base 2. */
const LEAST_LOG = 17;

/**
 * These numbers, in as many bits as they need.
 * @param log of how many bits there are at most, in base 2: from 17 on
 */
export function bitsFor(values: Int32Array, log: number): Bits {
  const wanted = Math.ceil(Math.log2(2 * ROOM * values.length));
  const bits = Bits.empty(Math.min(log, Math.max(LEAST_LOG, wanted)));
  for (const value of values) bits.add(value);
  bits.shrink();
  return bits;
}

/** Bits as plain data, which may be kept in a file. */
export interface PlainBits {
  readonly words: Int32Array;
  readonly shift: number;
}

/** Some of the numbers of 32 bits, and by chance a few others: a bit for the upper bits of each. */
export class Bits implements PlainBits {
  private constructor(
    public words: Int32Array,
    public shift: number,
  ) {}

  /** None of the numbers. @param log of how many bits there are at most, in base 2: from 5 to 31 */
  static empty(log: number): Bits {
    return new Bits(new Int32Array(2 ** (log - 5)), 32 - log);
  }

  static of({ words, shift }: PlainBits): Bits {
    return new Bits(words, shift);
  }

  add(value: number): void {
    const place = value >>> this.shift;
    this.words[place >> 5] = (this.words[place >> 5] as number) | (1 << (place & 31));
  }

  has(value: number): boolean {
    const place = value >>> this.shift;
    return (((this.words[place >> 5] as number) >> (place & 31)) & 1) !== 0;
  }

  /** Once all are there: takes no more bits than are needed, since what is small stays near the processor. */
  shrink(): void {
    let count = 0;
    for (const word of this.words) for (let rest = word; rest !== 0; rest &= rest - 1) count++;
    while (this.words.length > LEAST && this.words.length * 32 >= 2 * ROOM * count) {
      const half = new Int32Array(this.words.length / 2);
      for (let i = 0; i < half.length; i++) {
        half[i] =
          paired(this.words[2 * i] as number) | (paired(this.words[2 * i + 1] as number) << 16);
      }
      this.words = half;
      this.shift++;
    }
  }
}

/** In words of 32 bits. */
const LEAST = 2 ** (LEAST_LOG - 5);

/** A bit for each two of a word, set where either is. */
function paired(word: number): number {
  let bits = (word | (word >>> 1)) & 0x55555555;
  bits = (bits | (bits >>> 1)) & 0x33333333;
  bits = (bits | (bits >>> 2)) & 0x0f0f0f0f;
  bits = (bits | (bits >>> 4)) & 0x00ff00ff;
  return (bits | (bits >>> 8)) & 0xffff;
}
