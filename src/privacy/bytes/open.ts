// Choices of the method and codes of file formats: not clinical numbers.

import { openEdf, openGzip, openZip } from './archives.js';
import { fromRuns } from './encoded.js';
import { unescaped } from './escapes.js';
import { betweenTags } from './markup.js';
import { openPdf } from './pdf.js';
import { openJpeg, openPng } from './pictures.js';
import { latin, type Obstacle, type Opened, type Piece } from './piece.js';

/** Files within files within files; deeper ones are refused. */
const DEEPEST = 6;

/** Everything that a file's bytes can be read as: see `docs/privacy-proof.md`. */
export function opened(bytes: Uint8Array): Pick<Opened, 'pieces' | 'obstacles'> {
  const pieces: Piece[] = [];
  const obstacles: Obstacle[] = [];
  const open = (piece: Piece, depth: number): void => {
    if (depth > DEEPEST) {
      obstacles.push({
        within: piece.within,
        byte: piece.at(0),
        found: `files within files, more than ${DEEPEST} deep`,
      });
      return;
    }
    const opener = openerOf(piece.bytes);
    if (!opener) {
      read(piece, depth);
      return;
    }
    const inner = opener(piece);
    obstacles.push(...inner.obstacles);
    pieces.push(...inner.pieces);
    for (const text of inner.texts) read(text, depth);
    for (const file of inner.files) open(file, depth + 1);
  };
  const read = (piece: Piece, depth: number): void => {
    const sort = readsAsText(piece.bytes) ? 'text' : 'binary';
    const wide = piece.wide && (sort === 'binary' || holdsControls(piece.bytes));
    const own: Piece = { ...piece, sort, wide };
    pieces.push(own);
    if (own.sort === 'binary' && own.bytes.length > LONGEST_BINARY) return;
    const seen = betweenTags(own);
    if (seen) pieces.push(seen, ...unescaped(seen));
    const plain = unescaped(own);
    pieces.push(...plain);
    for (const guess of [own, ...plain]) {
      for (const { all, files } of fromRuns(guess, isFile)) {
        pieces.push(...all);
        for (const file of files) open(file, depth + 1);
      }
    }
  };
  open({ bytes, within: [], at: (offset) => offset, sort: 'text', wide: true }, 0);
  return { pieces, obstacles };
}

/** Longer bytes that are no text, as those of a font, are not looked through for escapes and encodings. */
const LONGEST_BINARY = 10_000;

function openerOf(bytes: Uint8Array): ((piece: Piece) => Opened) | null {
  const begins = (...signs: number[]) => signs.every((sign, i) => bytes[i] === sign);
  switch (bytes[0]) {
    case 0x89:
      if (begins(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a)) return openPng;
      break;
    case 0xff:
      if (begins(0xff, 0xd8, 0xff)) return openJpeg;
      break;
    case 0x1f:
      if (begins(0x1f, 0x8b, 0x08)) return openGzip;
      break;
    case 0x50:
      if (begins(0x50, 0x4b, 0x03, 0x04)) return openZip;
  }
  if (hasPdfHead(bytes)) return openPdf;
  const isEdf = bytes[0] === 0x30 && bytes.length >= 256;
  return isEdf && /^0 {7}[\x20-\x7e]{248}/.test(latin(bytes.subarray(0, 256))) ? openEdf : null;
}

const isFile = (bytes: Uint8Array): boolean => openerOf(bytes) !== null;

/** Readers look for the head of a PDF anywhere in the first kilobyte. */
function hasPdfHead(bytes: Uint8Array): boolean {
  const last = Math.min(bytes.length, 1024) - PDF_HEAD.length;
  for (let at = 0; at <= last; at++) {
    if (bytes[at] === 0x25 && PDF_HEAD.every((sign, i) => bytes[at + i] === sign)) return true;
  }
  return false;
}
const PDF_HEAD = [...'%PDF-'].map((sign) => sign.charCodeAt(0));

/** UTF-16 of letters of alphabets has bytes that plain text has not. */
function holdsControls(bytes: Uint8Array): boolean {
  for (let at = 0; at < bytes.length; at++) {
    const byte = bytes[at] as number;
    if (byte < 9 || (byte > 13 && byte < 32)) return true;
  }
  return false;
}

/** Whether few bytes are neither letters nor white space. */
function readsAsText(bytes: Uint8Array): boolean {
  const sample = bytes.subarray(0, 4096);
  if (sample[0] === 0xff && sample[1] === 0xfe) return true;
  if (sample[0] === 0xfe && sample[1] === 0xff) return true;
  const odd = sample.reduce(
    (count, byte) => count + (byte < 9 || (byte > 13 && byte < 32) ? 1 : 0),
    0,
  );
  return odd * 20 <= sample.length;
}
