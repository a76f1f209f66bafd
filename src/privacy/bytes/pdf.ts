import { unpacked } from './inflate.js';
import { type FontText, readFontText, shownText, utf16 } from './pdf-text.js';
import { hexBytes, tokensIn } from './pdf-tokens.js';
import { Gatherer, inside, latin, type Obstacle, type Opened, type Piece } from './piece.js';

interface Stream {
  readonly object: number;
  readonly dictionary: string;
  readonly start: number;
  readonly end: number;
  /** Null where a filter is not known or the bytes are damaged. */
  readonly plain: Uint8Array | null;
}

/**
 * A PDF: every object of the file, those of earlier revisions and those that nothing leads to included; every stream
 * unpacked; every string decoded; the text that pages show through the maps of their fonts.
 */
export function openPdf(piece: Piece): Opened {
  const { bytes } = piece;
  const text = latin(bytes);
  const streams = streamsIn(bytes, text);
  const obstacles: Obstacle[] = streams
    .filter(({ plain }) => plain === null)
    .map(({ object, start }) => ({
      within: [...piece.within, `PDF stream ${object}`],
      byte: piece.at(start),
      found: 'a stream that cannot be unpacked',
    }));
  if (/\/Encrypt\s+(\d+\s+\d+\s+R|<<)/.test(text)) {
    obstacles.push({ within: piece.within, byte: piece.at(0), found: 'an encrypted PDF' });
  }

  const syntax = outsideOf(piece, streams);
  const pieces: Piece[] = [syntax];
  const texts: Piece[] = [...stringsOf(syntax)];
  const files: Piece[] = [];
  const readings = fontsOf(latin(syntax.bytes), streams);
  for (const { object, dictionary, start, end, plain } of streams) {
    const name = `PDF stream ${object}`;
    const raw = bytes.subarray(start, end);
    const packed = plain === null || isPacked(dictionary);
    const isFile = plain !== null && /DCTDecode/.test(dictionary);
    if (packed && !isFile)
      pieces.push(inside(piece, name, raw, (offset) => start + offset, 'packed'));
    if (plain === null || isDots(dictionary)) continue;
    const place = packed ? start : (offset: number) => start + offset;
    if (isFont(dictionary)) {
      pieces.push(inside(piece, name, plain, place, 'binary'));
      continue;
    }
    const inner = inside(piece, name, plain, place, 'text');
    if (isSyntax(dictionary, plain)) {
      pieces.push({ ...inner, wide: false });
      texts.push(...stringsOf(inner));
      if (showsText(plain)) texts.push(...readings.flatMap((fontOf) => shownIn(inner, fontOf)));
    } else files.push(inner);
  }
  return { pieces, texts, files, obstacles };
}

/** Everything but the contents of streams. */
function outsideOf(piece: Piece, streams: readonly Stream[]): Piece {
  const out = new Gatherer(piece.bytes.length);
  let at = 0;
  for (const { start, end } of [...streams, { start: piece.bytes.length, end: 0 }]) {
    out.copy(piece.bytes, at, start);
    out.put(0x0a, Math.max(at, start) - 1);
    at = end;
  }
  const { bytes, from } = out.done();
  return inside(piece, 'PDF objects', bytes, from, 'text');
}

/** Objects, maps of fonts, and what pages show; anything else is a file of its own, such as XMP. */
const isSyntax = (dictionary: string, plain: Uint8Array): boolean =>
  /\/Type\s*\/(ObjStm|XRef)\b/.test(dictionary) ||
  /\bBT\b[\s\S]*\bET\b|begincodespacerange|\b(re|cm|Do)\s/.test(latin(plain.subarray(0, 4096))) ||
  (!/\/Type\b/.test(dictionary) && showsText(plain));

/** Whether one of the four operators that show text stands within a text. */
const showsText = (plain: Uint8Array): boolean =>
  /\bBT\b[\s\S]*(?:\bT[jJ]\b|['"])/.test(latin(plain));

const isPacked = (dictionary: string) => /\/Filter\b/.test(dictionary);
const isFont = (dictionary: string) =>
  /\/Length1\b|\/Subtype\s*\/(CIDFontType0C|Type1C|OpenType)/.test(dictionary);
/** Dots of a picture that are not a file of their own. */
const isDots = (dictionary: string) =>
  /\/Subtype\s*\/Image\b/.test(dictionary) && !/DCTDecode/.test(dictionary);

function streamsIn(bytes: Uint8Array, text: string): Stream[] {
  const streams: Stream[] = [];
  const opening = /(?:(\d+)\s+\d+\s+obj\b)|(?:\bstream(\r\n|\n|\r))/g;
  let object = 0;
  let begins = 0;
  for (let found = opening.exec(text); found; found = opening.exec(text)) {
    if (found[1] !== undefined) {
      object = Number(found[1]);
      begins = opening.lastIndex;
      continue;
    }
    const dictionary = text.slice(begins, found.index);
    const start = opening.lastIndex;
    const end = endOf(text, dictionary, start);
    streams.push({
      object,
      dictionary,
      start,
      end,
      plain: plainOf(bytes.subarray(start, end), dictionary),
    });
    opening.lastIndex = end;
    begins = end;
  }
  return streams;
}

/** By its length, if the end does stand there; else where the end is next written. */
function endOf(text: string, dictionary: string, start: number): number {
  const [, direct, referred] = /\/Length\s+(\d+)(\s+\d+\s+R)?/.exec(dictionary) ?? [];
  let length = Number(direct ?? -1);
  if (referred !== undefined) {
    length = Number(
      new RegExp(`(?:^|\\s)${direct}\\s+\\d+\\s+obj\\s+(\\d+)`).exec(text)?.[1] ?? -1,
    );
  }
  if (length >= 0 && /^\s*endstream/.test(text.slice(start + length, start + length + 14))) {
    return start + length;
  }
  const end = text.indexOf('endstream', start);
  return end < 0 ? text.length : end;
}

/** Undoes the filters, but that of a JPEG, which is a file of its own. */
function plainOf(bytes: Uint8Array, dictionary: string): Uint8Array | null {
  // Bytes that tell the difference from those above them read as nothing; dots and tables of places may.
  const mayDiffer = isDots(dictionary) || /\/Type\s*\/XRef\b/.test(dictionary);
  if (!mayDiffer && /\/Predictor\s+(?:2|1\d)\b/.test(dictionary)) return null;
  const filters = /\/Filter\s*(\[[^\]]*\]|\/\w+)/.exec(dictionary)?.[1]?.match(/\/\w+/g) ?? [];
  let plain: Uint8Array | null = bytes;
  for (const filter of filters) {
    if (plain === null) return null;
    if (/^\/(FlateDecode|Fl)$/.test(filter)) plain = unpacked(plain, 'zlib');
    else if (/^\/(ASCIIHexDecode|AHx)$/.test(filter)) {
      const end = plain.indexOf('>'.charCodeAt(0));
      plain = hexBytes(plain, 0, end < 0 ? plain.length : end);
    } else if (/^\/(ASCII85Decode|A85)$/.test(filter)) plain = fromAscii85(plain);
    else if (/^\/(DCTDecode|DCT)$/.test(filter)) return plain;
    else return null;
  }
  return plain;
}

function fromAscii85(bytes: Uint8Array): Uint8Array {
  const out: number[] = [];
  const text = (latin(bytes).split('~')[0] as string).replace(/\s/g, '').replace(/z/g, '!!!!!');
  for (let i = 0; i < text.length; i += 5) {
    const group = text.slice(i, i + 5);
    let value = 0;
    for (const sign of group.padEnd(5, 'u')) value = value * 85 + sign.charCodeAt(0) - 33;
    for (let k = 0; k < group.length - 1; k++) out.push(Math.floor(value / 256 ** (3 - k)) & 0xff);
  }
  return Uint8Array.from(out);
}

/** The strings of a stretch of PDF syntax and its names, each decoded, each on a line of its own. */
function stringsOf(piece: Piece): Piece[] {
  const out = new Gatherer();
  for (const token of tokensIn(piece.bytes)) {
    if (token.kind === 'name') out.text(`${token.text}\n`, token.at);
    if (token.kind !== 'string') continue;
    const { bytes, at } = token;
    if (bytes[0] === 0xfe && bytes[1] === 0xff) out.text(utf16(bytes.subarray(2)), at);
    else for (let i = 0; i < bytes.length; i++) out.put(bytes[i] as number, at);
    // Four characters that are no letters: more than may stand within a name.
    out.text('\n|\n|\n', at);
  }
  if (out.isEmpty) return [];
  const { bytes, from } = out.done();
  return [inside(piece, 'strings', bytes, from, 'text', false)];
}

function shownIn(piece: Piece, fontOf: (name: string) => FontText | null): Piece[] {
  const shown = shownText(piece.bytes, fontOf);
  return ([' ', ''] as const).map((between) => {
    const out = new Gatherer();
    for (const { text, at } of shown) out.text(text ?? between, at);
    if (out.isEmpty) out.put(0x20, 0);
    const { bytes, from } = out.done();
    return inside(piece, 'text as printed', bytes, from, 'text', false);
  });
}

/**
 * How fonts read, by their name among the resources. Two pages may give two fonts one name: each reading is tried, as it
 * is not worked out which page a content stream belongs to.
 */
function fontsOf(
  outside: string,
  streams: readonly Stream[],
): ((name: string) => FontText | null)[] {
  const packed = streams
    .filter(({ dictionary, plain }) => plain && /\/Type\s*\/ObjStm\b/.test(dictionary))
    .map((stream) => objectsOf(stream));
  const bodies = new Map<number, string>();
  for (const [, number, body] of outside.matchAll(/(\d+)\s+\d+\s+obj\b([\s\S]*?)endobj/g)) {
    bodies.set(Number(number), body as string);
  }
  for (const [number, body] of packed.flat()) bodies.set(number, body);
  const maps = new Map(streams.map(({ object, plain }) => [object, plain]));
  const named = new Map<string, Map<string, FontText>>();
  for (const body of bodies.values()) {
    for (const [, inline, reference] of body.matchAll(
      /\/Font\s*(?:<<([^>]*)>>|(\d+)\s+\d+\s+R)/g,
    )) {
      const entries = inline ?? bodies.get(Number(reference)) ?? '';
      for (const [, name, object] of entries.matchAll(/\/([^\s/<>()[\]]+)\s+(\d+)\s+\d+\s+R/g)) {
        const map = /\/ToUnicode\s+(\d+)\s+\d+\s+R/.exec(bodies.get(Number(object)) ?? '')?.[1];
        const bytes = map === undefined ? null : maps.get(Number(map));
        if (!bytes) continue;
        const known = named.get(name as string) ?? new Map<string, FontText>();
        if (!known.has(map as string)) known.set(map as string, readFontText(bytes));
        named.set(name as string, known);
      }
    }
  }
  const most = Math.min(8, Math.max(1, ...[...named.values()].map(({ size }) => size)));
  return Array.from({ length: most }, (_, which) => (name: string) => {
    const fonts = [...(named.get(name)?.values() ?? [])];
    return fonts[Math.min(which, fonts.length - 1)] ?? null;
  });
}

/** The objects of an object stream, by number (ISO 32000-1, 7.5.7). */
function objectsOf({ dictionary, plain }: Stream): [number, string][] {
  const text = latin(plain as Uint8Array);
  const first = Number(/\/First\s+(\d+)/.exec(dictionary)?.[1] ?? 0);
  const heads = (text.slice(0, first).match(/\d+/g) ?? []).map(Number);
  const objects: [number, string][] = [];
  for (let i = 0; i + 1 < heads.length; i += 2) {
    const next = heads[i + 3];
    objects.push([
      heads[i] as number,
      text.slice(first + (heads[i + 1] as number), next === undefined ? undefined : first + next),
    ]);
  }
  return objects;
}
