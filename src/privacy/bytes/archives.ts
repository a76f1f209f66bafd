import { unpacked } from './inflate.js';
import { inside, latin, type Opened, type Piece, utf8 } from './piece.js';

const viewOf = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.length);

/** A gzip file: its header with the name and the time of what it packs, and that (RFC 1952). */
export function openGzip(piece: Piece): Opened {
  const { bytes } = piece;
  const seconds = bytes.length >= 8 ? viewOf(bytes).getUint32(4, true) : 0;
  const inner = unpacked(bytes, 'gzip');
  return {
    pieces: [inside(piece, 'gzip header', bytes.subarray(0, 512), (offset) => offset, 'binary')],
    texts: seconds > 0 ? [inside(piece, 'gzip time', utf8(dayOf(seconds)), 4, 'text')] : [],
    files: inner ? [inside(piece, 'gzip', inner, 0, 'text')] : [],
    obstacles: inner
      ? []
      : [{ within: piece.within, byte: piece.at(0), found: 'a gzip file that cannot be unpacked' }],
  };
}

/** The day of a number of seconds since 1970, in UTC: arithmetic only. */
function dayOf(seconds: number): string {
  return new Date(seconds * 1000).toISOString().replace('T', ' ');
}

/** A zip file: names, times, comments and members, those included that its directory no longer names. */
export function openZip(piece: Piece): Opened {
  const { bytes } = piece;
  const view = viewOf(bytes);
  const text = latin(bytes);
  const texts: Piece[] = [];
  const files: Piece[] = [];
  const obstacles: { within: readonly string[]; byte: number; found: string }[] = [];
  const sizes = sizesByOffset(view, text);
  for (const at of placesIn(text, 'PK\u0003\u0004')) {
    if (at + 30 > bytes.length) break;
    const nameLength = view.getUint16(at + 26, true);
    const start = at + 30 + nameLength + view.getUint16(at + 28, true);
    const name = latin(bytes.subarray(at + 30, at + 30 + nameLength));
    const method = view.getUint16(at + 8, true);
    const size = sizes.get(at) ?? view.getUint32(at + 18, true);
    const member = `zip member ${name}`;
    const date = view.getUint16(at + 12, true);
    texts.push(
      inside(piece, `${member}, name`, bytes.subarray(at + 30, start), (o) => at + 30 + o, 'text'),
      inside(piece, `${member}, time`, utf8(dosDay(date)), at + 12, 'text'),
    );
    const data = size === 0 ? bytes.subarray(start) : bytes.subarray(start, start + size);
    if (method === 0) {
      files.push(
        inside(piece, member, bytes.subarray(start, start + size), (o) => start + o, 'text'),
      );
      continue;
    }
    const inner = method === 8 ? unpacked(data, 'raw') : null;
    if (inner) files.push(inside(piece, member, inner, start, 'text'));
    else
      obstacles.push({
        within: [...piece.within, member],
        byte: piece.at(at),
        found: 'a packed file that cannot be unpacked',
      });
  }
  return {
    pieces: [inside(piece, 'zip', bytes, (offset) => offset, 'packed')],
    texts,
    files,
    obstacles,
  };
}

/** Sizes of members by the place where each begins, as the directory at the end tells them. */
function sizesByOffset(view: DataView, text: string): Map<number, number> {
  const sizes = new Map<number, number>();
  for (const at of placesIn(text, 'PK\u0001\u0002')) {
    if (at + 46 > view.byteLength) break;
    sizes.set(view.getUint32(at + 42, true), view.getUint32(at + 20, true));
  }
  return sizes;
}

function placesIn(text: string, sign: string): number[] {
  const places: number[] = [];
  for (let at = text.indexOf(sign); at >= 0; at = text.indexOf(sign, at + 1)) places.push(at);
  return places;
}

function dosDay(date: number): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${1980 + (date >> 9)}-${two((date >> 5) & 15)}-${two(date & 31)}`;
}

/** The header of an EDF file, whose fields stand against each other: a space is put between them (EDF, 1992). */
export function openEdf(piece: Piece): Opened {
  const widths = [8, 80, 80, 8, 8, 8, 44, 8, 8, 4];
  const said: number[] = [];
  let at = 0;
  for (const width of widths) {
    said.push(...piece.bytes.subarray(at, at + width), 0x20);
    at += width;
  }
  const places = placesOf(widths);
  return {
    pieces: [inside(piece, 'EDF', piece.bytes, (offset) => offset, 'binary')],
    texts: [inside(piece, 'EDF header', Uint8Array.from(said), (o) => places[o] ?? 0, 'text')],
    files: [],
    obstacles: [],
  };
}

/** The byte of the file for each byte of the header with its blanks. */
function placesOf(widths: readonly number[]): number[] {
  const places: number[] = [];
  let at = 0;
  for (const width of widths) {
    for (let i = 0; i < width; i++) places.push(at + i);
    at += width;
    places.push(at - 1);
  }
  return places;
}
