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

/** Bytes as text of one letter each (ISO 8859-1). */
export const latin = (bytes: Uint8Array): string =>
  Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString('latin1');

/** A text as UTF-8 bytes (RFC 3629). */
export const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

/** More than may stand within a name, and an even number of bytes, for UTF-16. */
export const APART: readonly number[] = [0x0a, 0x7c, 0x0a, 0x7c, 0x0a, 0x7c, 0x0a, 0x7c];

/** Gathers bytes, each with the byte that it comes from. */
export class Gatherer {
  private bytes: Uint8Array;
  private length = 0;
  // Stretches of bytes that come from one byte, or from bytes that follow one another: origins in a few numbers.
  private readonly begins: number[] = [];
  private readonly origins: number[] = [];
  private readonly steps: number[] = [];
  private begin = 0;
  private from = 0;
  private step = 1;

  constructor(room = 256) {
    this.bytes = new Uint8Array(room);
  }

  get isEmpty(): boolean {
    return this.length === 0;
  }

  put(byte: number, origin: number): void {
    this.grow(1);
    const run = this.length - this.begin;
    if (this.length === 0 || origin !== this.from + run * this.step) {
      if (this.length > 0 && run === 1 && origin === this.from) {
        this.step = 0;
        this.steps[this.steps.length - 1] = 0;
      } else this.open(origin);
    }
    this.bytes[this.length++] = byte;
  }

  text(text: string, origin: number): void {
    for (let i = 0; i < text.length; i++) {
      const code = text.charCodeAt(i);
      if (code < 0x80) this.put(code, origin);
      else {
        for (const byte of utf8(text.slice(i))) this.put(byte, origin);
        return;
      }
    }
  }

  /** What parts two stretches: nothing is read across it. */
  apart(origin: number): void {
    for (const byte of APART) this.put(byte, origin);
  }

  /** The bytes of another array from one place up to, not including, another. */
  copy(source: Uint8Array, start: number, end: number): void {
    if (end <= start) return;
    this.grow(end - start);
    const goesOn = this.step === 1 && start === this.from + (this.length - this.begin);
    if (this.length === 0 || !goesOn) this.open(start);
    this.bytes.set(source.subarray(start, end), this.length);
    this.length += end - start;
  }

  done(): { readonly bytes: Uint8Array; readonly from: (offset: number) => number } {
    const { length, begins, origins, steps } = this;
    return {
      bytes: this.bytes.slice(0, length),
      from: (offset) => {
        if (length === 0) return 0;
        const at = Math.min(offset, length - 1);
        const stretch = lastUpTo(begins, at);
        return (
          (origins[stretch] as number) +
          (at - (begins[stretch] as number)) * (steps[stretch] as number)
        );
      },
    };
  }

  private grow(more: number): void {
    if (this.length + more <= this.bytes.length) return;
    const larger = new Uint8Array(Math.max(this.bytes.length * 2, this.length + more));
    larger.set(this.bytes);
    this.bytes = larger;
  }

  private open(origin: number): void {
    this.begin = this.length;
    this.from = origin;
    this.step = 1;
    this.begins.push(this.begin);
    this.origins.push(origin);
    this.steps.push(1);
  }
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
