import { crc32, deflateRawSync, deflateSync, gzipSync } from 'node:zlib';

export const bytesOf = (text: string, encoding: BufferEncoding = 'utf8'): Uint8Array =>
  new Uint8Array(Buffer.from(text, encoding));

export const joined = (...parts: (string | Uint8Array)[]): Uint8Array =>
  new Uint8Array(
    Buffer.concat(
      parts.map((part) => (typeof part === 'string' ? Buffer.from(part, 'latin1') : part)),
    ),
  );

export const utf16be = (text: string): Uint8Array => {
  const bytes = Buffer.from(text, 'utf16le');
  return new Uint8Array(bytes.swap16());
};

const word = (value: number): Uint8Array => {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(value);
  return bytes;
};

export function pngChunk(kind: string, data: Uint8Array): Uint8Array {
  const named = joined(kind, data);
  return joined(word(data.length), named, word(crc32(named)));
}

const PNG_HEAD = '\x89PNG\r\n\x1a\n';
const DOT = [
  pngChunk('IHDR', joined(word(1), word(1), new Uint8Array([8, 0, 0, 0, 0]))),
  pngChunk('IDAT', deflateSync(Buffer.from([0, 0]))),
];

/** A picture of one dot with a chunk before its end. */
export const png = (...chunks: Uint8Array[]): Uint8Array =>
  joined(PNG_HEAD, ...DOT, ...chunks, pngChunk('IEND', new Uint8Array()));

export function segment(marker: number, data: Uint8Array): Uint8Array {
  return joined(
    new Uint8Array([0xff, marker, (data.length + 2) >> 8, (data.length + 2) & 255]),
    data,
  );
}

/** A JPEG in form: segments, packed dots, end. */
export const jpeg = (...segments: Uint8Array[]): Uint8Array =>
  joined(
    '\xff\xd8',
    ...segments,
    segment(0xda, new Uint8Array([1, 1, 0, 0, 63, 0])),
    '\x12\x34',
    '\xff\xd9',
  );

/** Camera data with one text, and a position where asked for. */
export function exif(text: string, place = false): Uint8Array {
  const said = bytesOf(`${text}\0`);
  const entry = (tag: number, type: number, count: number, value: number) => {
    const bytes = Buffer.alloc(12);
    bytes.writeUInt16LE(tag, 0);
    bytes.writeUInt16LE(type, 2);
    bytes.writeUInt32LE(count, 4);
    bytes.writeUInt32LE(value, 8);
    return bytes;
  };
  const entries = [entry(0x010e, 2, said.length, 8 + 2 + (place ? 24 : 12) + 4)];
  if (place) entries.push(entry(0x8825, 4, 1, 8));
  const count = Buffer.alloc(2);
  count.writeUInt16LE(entries.length);
  return joined('Exif\0\0', 'II*\0\x08\0\0\0', count, ...entries, '\0\0\0\0', said);
}

export const xmp = (text: string): Uint8Array =>
  joined(
    'http://ns.adobe.com/xap/1.0/\0',
    bytesOf(`<x:xmpmeta xmlns:x="adobe:ns:meta/"><dc:creator>${text}</dc:creator></x:xmpmeta>`),
  );

/** A PDF in form: numbered objects, each a body, a stream being a dictionary and its bytes. */
export function pdf(
  ...objects: (string | readonly [dictionary: string, bytes: Uint8Array])[]
): Uint8Array {
  return joined(
    '%PDF-1.7\n',
    ...objects.map((object, index) =>
      typeof object === 'string'
        ? joined(`${index + 1} 0 obj\n${object}\nendobj\n`)
        : joined(
            `${index + 1} 0 obj\n<< ${object[0]} /Length ${object[1].length} >>\nstream\n`,
            object[1],
            '\nendstream\nendobj\n',
          ),
    ),
    'trailer\n<< /Size 9 >>\n%%EOF\n',
  );
}

export const flate = (text: string | Uint8Array): readonly [string, Uint8Array] => [
  '/Filter /FlateDecode',
  new Uint8Array(deflateSync(typeof text === 'string' ? bytesOf(text, 'latin1') : text)),
];

export const gzip = (bytes: Uint8Array, name = ''): Uint8Array => {
  const packed = new Uint8Array(gzipSync(bytes));
  if (name === '') return packed;
  return joined('\x1f\x8b\x08\x08', packed.slice(4, 10), `${name}\0`, packed.slice(10));
};

/** A zip file of one packed member. */
export function zip(
  name: string,
  bytes: Uint8Array,
  [year, month, day] = [1980, 1, 1],
): Uint8Array {
  const packed = deflateRawSync(bytes);
  const head = Buffer.alloc(30);
  head.write('PK\x03\x04', 'latin1');
  head.writeUInt16LE(20, 4);
  head.writeUInt16LE(8, 8);
  head.writeUInt16LE(
    ((year as number) - 1980) * 512 + (month as number) * 32 + (day as number),
    12,
  );
  head.writeUInt32LE(crc32(bytes), 14);
  head.writeUInt32LE(packed.length, 18);
  head.writeUInt32LE(bytes.length, 22);
  head.writeUInt16LE(name.length, 26);
  return joined(head, name, packed);
}

/** The header of an EDF file. */
export const edf = (patient: string, day: string): Uint8Array =>
  bytesOf(
    `${'0'.padStart(8, '0').replace(/^0+/, '0').padEnd(8)}${patient.padEnd(80)}${'recording'.padEnd(80)}${day}09.40.00${'256'.padEnd(8)}${''.padEnd(44)}${'0'.padEnd(8)}${'1'.padEnd(8)}${'0'.padEnd(4)}`,
  );
