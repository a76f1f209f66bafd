/** Bytes of a public file as a reader or a program may come to see them. */
export interface Piece {
  readonly bytes: Uint8Array;
  /** What it was taken out of, from the outermost in: `PDF stream 12`, `base64`. */
  readonly within: readonly string[];
  /** The byte of the file that a byte of the piece comes from. */
  readonly at: (offset: number) => number;
  /**
   * How likely letters mean something: `text` is written to be read; `guessed` was decoded on suspicion; `binary` holds
   * text among other things; in `packed` bytes letters come about by chance.
   */
  readonly sort: 'text' | 'guessed' | 'binary' | 'packed';
  /** Whether UTF-16 may stand in it. */
  readonly wide: boolean;
}

/** Something in a file that no search can vouch for. */
export interface Obstacle {
  readonly within: readonly string[];
  readonly byte: number;
  readonly found: string;
}

/** What a file comes apart into. */
export interface Opened {
  /** To be read as they are. */
  readonly pieces: readonly Piece[];
  /** To be read as text that may hold tags, escapes, base64 or hexadecimal. */
  readonly texts: readonly Piece[];
  /** To be opened in turn. */
  readonly files: readonly Piece[];
  readonly obstacles: readonly Obstacle[];
}

/** A part of a piece, taken out by a decoder. */
export function inside(
  { within, at }: Pick<Piece, 'within' | 'at'>,
  name: string,
  bytes: Uint8Array,
  from: number | ((offset: number) => number),
  sort: Piece['sort'],
  wide = sort !== 'packed',
): Piece {
  return {
    bytes,
    within: [...within, name],
    at: typeof from === 'number' ? () => at(from) : (offset) => at(from(offset)),
    sort,
    wide,
  };
}

export const latin = (bytes: Uint8Array): string =>
  Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString('latin1');

export const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Gathers bytes, each with the byte that it comes from. */
export function gatherer(room = 256) {
  let bytes = new Uint8Array(room);
  let length = 0;
  // Stretches of bytes that come from one byte, or from bytes that follow one another: origins in a few numbers.
  const begins: number[] = [];
  const origins: number[] = [];
  const steps: (0 | 1)[] = [];
  let begin = 0;
  let from = 0;
  let step: 0 | 1 = 1;
  const grow = (more: number): void => {
    if (length + more <= bytes.length) return;
    const larger = new Uint8Array(Math.max(bytes.length * 2, length + more));
    larger.set(bytes);
    bytes = larger;
  };
  const open = (origin: number): void => {
    [begin, from, step] = [length, origin, 1];
    begins.push(begin);
    origins.push(from);
    steps.push(step);
  };
  const put = (byte: number, origin: number): void => {
    grow(1);
    const run = length - begin;
    if (length === 0 || origin !== from + run * step) {
      if (length > 0 && run === 1 && origin === from) {
        step = 0;
        steps[steps.length - 1] = 0;
      } else open(origin);
    }
    bytes[length++] = byte;
  };
  return {
    put,
    text: (text: string, origin: number): void => {
      for (const byte of utf8(text)) put(byte, origin);
    },
    /** The bytes of another array from one place up to, not including, another. */
    copy: (source: Uint8Array, start: number, end: number): void => {
      if (end <= start) return;
      grow(end - start);
      if (length === 0 || step === 0 || start !== from + (length - begin)) open(start);
      bytes.set(source.subarray(start, end), length);
      length += end - start;
    },
    length: () => length,
    done: () => ({
      bytes: bytes.slice(0, length),
      from: (offset: number): number => {
        if (length === 0) return 0;
        const at = Math.min(offset, length - 1);
        const stretch = lastUpTo(begins, at);
        return (
          (origins[stretch] as number) +
          (at - (begins[stretch] as number)) * (steps[stretch] as number)
        );
      },
    }),
  };
}

/** The place of the last number that is no greater than a value, among ascending ones of which the first is. */
export function lastUpTo(ascending: readonly number[], value: number): number {
  let low = 0;
  let high = ascending.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((ascending[middle] as number) <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}
