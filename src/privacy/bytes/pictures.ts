import { unpacked } from './inflate.js';
import { inside, latin, type Obstacle, type Opened, type Piece, utf8 } from './piece.js';

/** Chunks that a picture needs to be seen (PNG, third edition, 11). */
const OF_A_PNG = new Set([
  'IHDR',
  'PLTE',
  'IDAT',
  'IEND',
  'tRNS',
  'gAMA',
  'cHRM',
  'sRGB',
  'pHYs',
  'bKGD',
  'sBIT',
]);

/**
 * A PNG, chunk by chunk: texts packed and unpacked, camera data, whatever follows the picture. The dots themselves are
 * not read. A chunk that no picture needs is an obstacle: published pictures are made anew without any.
 */
export function openPng(piece: Piece): Opened {
  const { bytes } = piece;
  const pieces: Piece[] = [];
  const texts: Piece[] = [];
  const files: Piece[] = [];
  const obstacles: Obstacle[] = [];
  let at = 8;
  while (at + 12 <= bytes.length) {
    const length = wordAt(bytes, at);
    const kind = latin(bytes.subarray(at + 4, at + 8));
    const start = at + 8;
    const data = bytes.subarray(start, start + length);
    const name = `PNG ${kind}`;
    if (kind === 'IDAT') pieces.push(part(piece, name, data, start, 'packed'));
    else if (OF_A_PNG.has(kind)) pieces.push(part(piece, name, data, start, 'binary'));
    else {
      texts.push(part(piece, name, data, start, 'text'));
      const packedFrom = packedText(kind, data);
      if (packedFrom > 0) {
        const text = unpacked(data.subarray(packedFrom), 'zlib');
        if (text) texts.push(inside(piece, name, text, start + packedFrom, 'text'));
      }
      if (kind === 'tIME' && data.length >= 7) {
        const [, , month, day, hour, minute] = data;
        const year = ((data[0] as number) << 8) | (data[1] as number);
        const said = `${year}-${two(month)}-${two(day)} ${two(hour)}:${two(minute)}`;
        texts.push(inside(piece, name, utf8(said), start, 'text'));
      }
      obstacles.push({
        within: [...piece.within, name],
        byte: piece.at(at),
        found: `a part that no picture needs (${printable(kind)})`,
      });
    }
    at = start + length + 4;
    if (kind === 'IEND') break;
  }
  if (at < bytes.length) {
    files.push(part(piece, 'after the PNG', bytes.subarray(at), at, 'text'));
    obstacles.push({ within: piece.within, byte: piece.at(at), found: 'bytes after the picture' });
  }
  return { pieces, texts, files, obstacles };
}

const two = (value: number | undefined) => String(value ?? 0).padStart(2, '0');

/** Where the packed part of a text chunk begins; 0 where there is none. */
function packedText(kind: string, data: Uint8Array): number {
  const keyword = data.indexOf(0);
  if (keyword < 0) return 0;
  if (kind === 'zTXt' || kind === 'iCCP') return keyword + 2;
  if (kind !== 'iTXt' || data[keyword + 1] !== 1) return 0;
  const language = data.indexOf(0, keyword + 3);
  const translated = language < 0 ? -1 : data.indexOf(0, language + 1);
  return translated < 0 ? 0 : translated + 1;
}

/** A JPEG, segment by segment: camera data with its thumbnail, XMP, IPTC, comments, whatever follows the picture. */
export function openJpeg(piece: Piece): Opened {
  const { bytes } = piece;
  const pieces: Piece[] = [];
  const texts: Piece[] = [];
  const files: Piece[] = [];
  const obstacles: Obstacle[] = [];
  const unneeded = (name: string, at: number, what: string) =>
    obstacles.push({ within: [...piece.within, name], byte: piece.at(at), found: what });
  let at = 2;
  while (at + 2 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1] as number;
    if (marker === 0xff) {
      at++;
      continue;
    }
    if (marker === 0xd9) {
      at += 2;
      break;
    }
    const length = ((bytes[at + 2] as number) << 8) | (bytes[at + 3] as number);
    const data = bytes.subarray(at + 4, at + 2 + length);
    const start = at + 4;
    const name = segmentName(marker, data);
    if (marker === 0xfe || (marker >= 0xe0 && marker <= 0xef)) {
      texts.push(part(piece, name, data, start, 'text'));
      const picture = pictureIn(data);
      if (picture > 0)
        files.push(
          part(piece, `${name}, thumbnail`, data.subarray(picture), start + picture, 'binary'),
        );
      // JFIF, the colour space and Adobe's note of the colour transform are part of the picture.
      const needed = name === 'JPEG JFIF' || name === 'JPEG colours' || name === 'JPEG Adobe';
      if (!needed) unneeded(name, at, 'a part that no picture needs');
      if (name === 'JPEG EXIF' && holdsPlace(data))
        unneeded(name, at, 'the place where it was taken');
    } else pieces.push(part(piece, name, data, start, 'binary'));
    at += 2 + length;
    if (marker !== 0xda) continue;
    // Packed dots run until a marker that is neither an escaped byte nor a restart.
    const from = at;
    while (at + 1 < bytes.length) {
      const next = bytes[at + 1] as number;
      if (bytes[at] === 0xff && next !== 0 && !(next >= 0xd0 && next <= 0xd7)) break;
      at++;
    }
    pieces.push(part(piece, 'JPEG dots', bytes.subarray(from, at), from, 'packed'));
  }
  if (at < bytes.length) {
    files.push(part(piece, 'after the JPEG', bytes.subarray(at), at, 'text'));
    unneeded('after the JPEG', at, 'bytes after the picture');
  }
  return { pieces, texts, files, obstacles };
}

function segmentName(marker: number, data: Uint8Array): string {
  const head = latin(data.subarray(0, 40));
  if (marker === 0xfe) return 'JPEG comment';
  if (head.startsWith('Exif\0')) return 'JPEG EXIF';
  if (head.startsWith('http://ns.adobe.com')) return 'JPEG XMP';
  if (head.startsWith('Photoshop')) return 'JPEG IPTC';
  if (head.startsWith('JFIF\0')) return 'JPEG JFIF';
  if (head.startsWith('ICC_PROFILE\0')) return 'JPEG colours';
  if (head.startsWith('Adobe\0')) return 'JPEG Adobe';
  return `JPEG segment ${marker.toString(16).toUpperCase()}`;
}

const pictureIn = (data: Uint8Array): number => latin(data).indexOf('\u00ff\u00d8\u00ff', 1);

/** Whether camera data has an entry that leads to a position (EXIF 2.32, tag 8825). */
function holdsPlace(data: Uint8Array): boolean {
  const text = latin(data);
  return text.includes('\u0025\u0088\u0004\u0000') || text.includes('\u0088\u0025\u0000\u0004');
}

const part = (
  piece: Piece,
  name: string,
  bytes: Uint8Array,
  start: number,
  sort: Piece['sort'],
): Piece => inside(piece, name, bytes, (offset) => start + offset, sort);

const wordAt = (bytes: Uint8Array, at: number): number =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.length).getUint32(at);

const printable = (text: string): string => text.replace(/[^\x20-\x7e]/g, '·');
