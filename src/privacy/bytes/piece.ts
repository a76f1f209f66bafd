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
  let from = new Int32Array(room);
  let length = 0;
  const put = (byte: number, origin: number): void => {
    if (length === bytes.length) {
      const more = new Uint8Array(length * 2);
      more.set(bytes);
      bytes = more;
      const further = new Int32Array(length * 2);
      further.set(from);
      from = further;
    }
    bytes[length] = byte;
    from[length++] = origin;
  };
  return {
    put,
    text: (text: string, origin: number): void => {
      for (const byte of utf8(text)) put(byte, origin);
    },
    length: () => length,
    done: () => {
      const kept = bytes.slice(0, length);
      const origins = from.slice(0, length);
      return {
        bytes: kept,
        from: (offset: number): number => origins[Math.min(offset, origins.length - 1)] ?? 0,
      };
    },
  };
}
