// Choices of the method and codes of file formats: not clinical numbers.

import { openEdf, openGzip, openZip } from '../../../src/privacy/bytes/archives.js';
import { openJpeg, openPng } from '../../../src/privacy/bytes/pictures.js';
import { fromBase64, fromHex } from './encoded.js';
import { unescaped } from './escapes.js';
import { betweenTags } from './markup.js';
import { openPdf } from './pdf.js';
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
    for (const guess of [own, ...plain.slice(-1)]) {
      for (const { all, runs } of [fromBase64(guess), fromHex(guess)]) {
        pieces.push(...all);
        for (const run of runs) if (openerOf(run.bytes)) open(run, depth + 1);
      }
    }
  };
  open({ bytes, within: [], at: (offset) => offset, sort: 'text', wide: true }, 0);
  return { pieces, obstacles };
}

/** Longer bytes that are no text, as those of a font, are not looked through for escapes and encodings. */
const LONGEST_BINARY = 10_000;

function openerOf(bytes: Uint8Array): ((piece: Piece) => Opened) | null {
  const head = latin(bytes.subarray(0, 1024));
  if (head.startsWith('\u0089PNG\r\n')) return openPng;
  if (head.startsWith('\u00ff\u00d8\u00ff')) return openJpeg;
  if (head.startsWith('\u001f\u008b\b')) return openGzip;
  if (head.startsWith('PK\u0003\u0004')) return openZip;
  // Readers look for the head of a PDF anywhere in the first kilobyte.
  if (head.includes('%PDF-')) return openPdf;
  return bytes.length >= 256 && /^0 {7}[\x20-\x7e]{248}/.test(head) ? openEdf : null;
}

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
