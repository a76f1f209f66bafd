import { deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { ownTextOf } from '../../src/privacy/own-text.js';
import {
  bytesOf,
  edf,
  exif,
  flate,
  gzip,
  joined,
  jpeg,
  pdf,
  png,
  pngChunk,
  segment,
  utf16be,
  xmp,
  zip,
} from './bytes/wrapped.js';
import { problemsFor } from './problems-of.js';

const IDENTIFIERS = [
  { what: "the patient's name", text: 'Juniper' },
  { what: "the owner's name", text: "Ada O'Muñoz-Quill" },
  { what: 'a name', text: 'Юнипер' },
  { what: "the owner's telephone number", text: '555 0134' },
  { what: 'the microchip number', text: '999112004417203' },
  { what: 'the date of surgery', text: '2026-03-10' },
];
const problemsOf = problemsFor(IDENTIFIERS);
const searched = (bytes: Uint8Array, path = 'x/y') =>
  problemsOf({ file: `public/${path}`, path, bytes });

const hex = (text: string) => Buffer.from(text).toString('hex');
const base64 = (text: string) => Buffer.from(text).toString('base64');
/** Samples of 16 bits. */
const samples = (values: readonly number[]): Uint8Array =>
  new Uint8Array(Int16Array.from(values).buffer);

/** Every day of three years, as a large collection has them. */
const DAYS = Array.from({ length: 3 * 365 }, (_, day) => ({
  what: 'a day of the case',
  text: new Date(Date.UTC(2024, 0, 1 + day)).toISOString().slice(0, 10),
}));
const problemsOfDays = problemsFor(DAYS);
const daysIn = (bytes: Uint8Array) => problemsOfDays({ file: 'public/x', path: 'x', bytes });
const noise = (length: number) => {
  const bytes = new Uint8Array(length);
  let seed = 12345;
  for (let i = 0; i < length; i++) {
    seed = (Math.imul(seed, 1103515245) + 12345) & 0x7fffffff;
    bytes[i] = seed >> 16;
  }
  return bytes;
};

/** Bytes, the text that marks the byte where the identifier is said to stand, and what it stands in. */
type Planted = readonly [how: string, bytes: Uint8Array, mark: string | Uint8Array, within: RegExp];

const cmap = `/CIDInit /ProcSet findresource begin begincmap 1 begincodespacerange <0000> <ffff> endcodespacerange
1 beginbfrange <0001> <0007> [<004a> <0075> <006e> <0069> <0070> <0065> <0072>] endbfrange endcmap`;
const font = '<< /Type /Font /Subtype /Type0 /ToUnicode 3 0 R >>';
const resources = '<< /Font << /F1 2 0 R >> >>';
const shows = (text: string) => pdf(resources, font, flate(cmap), flate(`BT /F1 9 Tf ${text} ET`));
const stream4 = (bytes: Uint8Array) => {
  const text = Buffer.from(bytes).toString('latin1');
  return text.slice(text.indexOf('stream\n', text.indexOf('4 0 obj')) + 7).slice(0, 12);
};
const printed = (how: string, text: string): Planted => {
  const bytes = shows(text);
  return [how, bytes, joined(stream4(bytes)), /PDF stream 4, text as printed/];
};
const streamed = (how: string, bytes: Uint8Array, within: RegExp): Planted => [
  how,
  bytes,
  bytes.slice(Buffer.from(bytes).indexOf('stream\n') + 7).slice(0, 12),
  within,
];

const PLANTED: readonly Planted[] = [
  ['UTF-8', bytesOf('so Juniper slept'), 'Juniper', /^[^()]*$/],
  ['Latin-1', bytesOf("by Ada O'Mu\xf1oz-Quill.", 'latin1'), 'Ada', /^[^()]*$/],
  [
    'UTF-16, little end first',
    bytesOf('so Ada O’Muñoz-Quill slept', 'utf16le'),
    bytesOf('Ada', 'utf16le'),
    /./,
  ],
  ['UTF-16, big end first', utf16be('so Ada O’Muñoz-Quill slept'), utf16be('Ada').slice(1), /./],
  [
    'UTF-16 of another script, at an odd byte',
    joined('\x01', bytesOf('это Юнипер', 'utf16le')),
    bytesOf('Юнипер', 'utf16le'),
    /UTF-16LE/,
  ],
  ['an entity', bytesOf('<p>J&#117;niper</p>'), 'J&#117;', /escapes/],
  ['an attribute', bytesOf('<img alt="of Juniper">'), 'Juniper', /^[^()]*$/],
  ['letters parted by tags', bytesOf('<b>Jun</b>iper'), 'Jun', /text between tags/],
  ['percent-encoding', bytesOf('href="x?n=%4a%75%6E%69%70%65%72"'), '%4a', /escapes/],
  ['percent-encoding twice', bytesOf('href="x?n=%254a%2575niper"'), '%254a', /escapes.*escapes/],
  ['JSON', bytesOf('{"n":"\\u004a\\u0075niper"}'), '\\u004a', /escapes/],
  ['JSON after a line break', bytesOf('{"n":"a\\nJuniper"}'), 'Juniper', /./],
  ['CSS', bytesOf('a::after{content:"\\4a \\75 niper"}'), '\\4a', /escapes/],
  ['quoted-printable', bytesOf('so J=75ni=\nper slept'), 'J=75', /escapes/],
  ['a calendar', bytesOf('BEGIN:VEVENT\r\nDTSTART:20260310T094000Z\r\n'), '20260310', /^[^()]*$/],
  ['CSV', bytesOf('a;b\n1;Juniper\n'), 'Juniper', /^[^()]*$/],
  ...[0, 1, 2].map((at): Planted => {
    const said = base64(`${'-'.repeat(at)}Juniper and Ada`);
    return [`base64, beginning ${at}`, bytesOf(`data:${said}`), said.slice(at, 9), /base64/];
  }),
  [
    'base64 over lines',
    bytesOf(`x\n${base64('what was said of Juniper').replace(/(.{12})/g, '$1\n')}`),
    base64('what was said of Juniper').slice(22, 24),
    /base64/,
  ],
  ['hexadecimal', bytesOf(`id=${hex('Juniper')}`), hex('Juniper'), /hexadecimal/],
  [
    'hexadecimal with blanks',
    bytesOf(`id ${hex('Juniper').replace(/(..)/g, '$1 ')}`),
    '4a 75',
    /hexadecimal/,
  ],
  [
    'hexadecimal over lines',
    bytesOf(`id\r\n${hex('of Juniper').replace(/(....)/g, '$1\r\n')}`),
    '4a\r\n75',
    /hexadecimal/,
  ],
  [
    'hexadecimal, parted as in a script',
    bytesOf(`id ${hex('of Juniper').replace(/(..)(?=.)/g, '$1\\x')}`),
    '\\x4a',
    /hexadecimal|escapes/,
  ],
  [
    'a chip number in hexadecimal',
    bytesOf(`chip ${999112004417203n.toString(16)}`),
    999112004417203n.toString(16),
    /^[^()]*$/,
  ],
  ['letters by themselves', bytesOf('so J u n i p e r slept'), 'J u', /^[^()]*$/],
  ['letters turned about', bytesOf('so repinuJ slept'), 'repinuJ', /^[^()]*$/],
  ['a PDF string', pdf('<< /Title (of Juniper) >>'), 'Juniper', /PDF objects/],
  [
    'a PDF string with octal escapes',
    pdf('<< /Title (J\\165nip\\145r) >>'),
    '(J',
    /PDF objects, strings|escapes/,
  ],
  [
    'a PDF string in hexadecimal',
    pdf(`<< /Title <${hex('Juniper')}> >>`),
    `<${hex('Juniper')}`,
    /PDF objects, strings/,
  ],
  [
    'a PDF string in UTF-16',
    pdf(`<< /Title <feff${Buffer.from(utf16be('Юнипер')).toString('hex')}> >>`),
    '<feff',
    /PDF objects, strings/,
  ],
  ['a name of PDF', pdf('<< /J#75niper 1 >>'), '/J#75', /PDF objects/],
  [
    'an object of an earlier revision',
    joined(pdf('(Juniper)'), pdf('(nobody)')),
    'Juniper',
    /PDF objects/,
  ],
  [
    'XMP of a PDF',
    pdf(['/Type /Metadata', bytesOf('<dc:title>nobody, then Juniper</dc:title>')]),
    'Juniper',
    /PDF stream 1/,
  ],
  streamed(
    'a PDF object stream',
    pdf([
      '/Type /ObjStm /N 1 /First 4 /Filter /FlateDecode',
      new Uint8Array(deflateSync(bytesOf('5 0 (Juniper)'))),
    ]),
    /PDF stream 1/,
  ),
  streamed(
    'an attachment of a PDF',
    pdf([
      '/Type /EmbeddedFile /Filter /FlateDecode',
      new Uint8Array(deflateSync(gzip(bytesOf('of Juniper')))),
    ]),
    /PDF stream 1, gzip/,
  ),
  streamed(
    'a picture in a PDF',
    pdf(['/Subtype /Image /Filter /DCTDecode', jpeg(segment(0xfe, bytesOf('Juniper')))]),
    /PDF stream 1, JPEG comment/,
  ),
  printed('printed words', '[<0001000200030004000500060007>] TJ'),
  printed(
    'printed words with kerning',
    '[<0001> 20 <0002000300> -12 <040005> 7 <00060007>] TJ'.replace(
      '<0002000300> -12 <040005>',
      '<00020003> -12 <00040005>',
    ),
  ),
  printed('words printed in two goes', '<000100020003> Tj 12 0 Td <0004000500060007> Tj'),
  ['PNG tEXt', png(pngChunk('tEXt', bytesOf('Comment\0of Juniper'))), 'Juniper', /PNG tEXt/],
  [
    'PNG zTXt',
    png(pngChunk('zTXt', joined('Comment\0\0', deflateSync(Buffer.from('of Juniper'))))),
    deflateSync(Buffer.from('of Juniper')).subarray(0, 6),
    /PNG zTXt/,
  ],
  [
    'PNG iTXt',
    png(pngChunk('iTXt', joined('Comment\0\x01\0\0\0', deflateSync(Buffer.from('Юнипер'))))),
    deflateSync(Buffer.from('Юнипер')).subarray(0, 6),
    /PNG iTXt/,
  ],
  ['PNG eXIf', png(pngChunk('eXIf', exif('Juniper').slice(6))), 'Juniper', /PNG eXIf/],
  [
    'PNG tIME',
    png(pngChunk('tIME', new Uint8Array([7, 234, 3, 10, 9, 40, 0]))),
    '\x07\xea\x03',
    /PNG tIME/,
  ],
  ['bytes after a PNG', joined(png(), 'Juniper'), 'Juniper', /after the PNG/],
  ['EXIF', jpeg(segment(0xe1, exif('of Juniper'))), 'Juniper', /JPEG EXIF/],
  ['XMP of a JPEG', jpeg(segment(0xe1, xmp('Juniper'))), 'Juniper', /JPEG XMP/],
  [
    'IPTC',
    jpeg(
      segment(
        0xed,
        joined('Photoshop 3.0\x008BIM\x04\x04\0\0\0\0\0\x0c\x1c\x02\x78\0\x07', 'Juniper'),
      ),
    ),
    'Juniper',
    /JPEG IPTC/,
  ],
  ['a JPEG comment', jpeg(segment(0xfe, bytesOf('Juniper'))), 'Juniper', /JPEG comment/],
  [
    'the thumbnail of a JPEG',
    jpeg(segment(0xe1, joined(exif('nobody'), jpeg(segment(0xfe, bytesOf('Juniper')))))),
    'Juniper',
    /JPEG EXIF/,
  ],
  ['bytes after a JPEG', joined(jpeg(), 'Juniper'), 'Juniper', /after the JPEG/],
  ['gzip', gzip(bytesOf('of Juniper')), '\x1f\x8b', /gzip/],
  ['the name in gzip', gzip(bytesOf('nobody'), 'juniper.txt'), 'juniper', /gzip/],
  [
    'a zip member',
    zip('a.txt', bytesOf('of Juniper')),
    joined(zip('a.txt', bytesOf('of Juniper')).slice(35, 41)),
    /zip member a\.txt/,
  ],
  ['the name of a zip member', zip('juniper.txt', bytesOf('nobody')), 'juniper', /zip member/],
  [
    'the time of a zip member',
    zip('a.txt', bytesOf('nobody'), [2026, 3, 10]),
    joined(zip('a.txt', bytesOf('nobody'), [2026, 3, 10]).slice(12, 16)),
    /zip member a\.txt, time/,
  ],
  ['an EDF header', edf('999112004417203 F X Juniper', '11.03.26'), '999112004417203', /EDF/],
  ['the day in an EDF header', edf('X X X X', '10.03.26'), '10.03.26', /EDF header/],
  [
    'a WFDB header',
    bytesOf('strip 1 250 5000 09:40:00 10/03/2026\n# <name>: J\n'),
    '10/03/2026',
    /^[^()]*$/,
  ],
  ['bytes of any kind', joined(noise(300), " Ada O'Muñoz-Quill ", noise(300)), 'Ada', /./],
];

describe('an identifier is found, at its byte, in', () => {
  it.each(PLANTED)('%s', (_, bytes, mark, within) => {
    const leaks = searched(bytes).filter(({ expected }) => expected.startsWith('no identifier'));
    expect(leaks).not.toEqual([]);
    const [leak] = leaks as [(typeof leaks)[number]];
    const place = Buffer.from(bytes).indexOf(
      typeof mark === 'string' ? Buffer.from(mark, 'latin1') : Buffer.from(mark),
    );
    expect(place, 'the mark stands in the file').toBeGreaterThanOrEqual(0);
    expect({ byte: leak.byte, file: leak.file }).toEqual({ byte: place, file: 'public/x/y' });
    expect(leak.found).toMatch(within);
  });

  it('the name of a file or folder', () => {
    expect(searched(new Uint8Array(), 'a/juniper-strip.png')).toMatchObject([
      { file: 'public/a/juniper-strip.png', found: expect.stringContaining("the patient's name") },
    ]);
  });
});

it('a day without its year is told of each day that it may be', () => {
  const days = problemsFor(
    ['2025-06-18', '2026-06-18'].map((text) => ({ what: `the day ${text}`, text })),
  );
  const found = days({ file: 'x', path: 'x', bytes: bytesOf('It ate on June 18.') });
  expect(found.map((one) => one.found.slice(0, 18))).toEqual([
    'the day 2025-06-18',
    'the day 2026-06-18',
  ]);
});

it('a file is searched once for all places where its bytes stand, and its name each time', () => {
  expect(searched(bytesOf('nobody'), 'x/a')).toEqual([]);
  expect(searched(bytesOf('nobody'), 'x/b')).toEqual([]);
  expect(searched(bytesOf('nobody'), 'x/juniper')).toHaveLength(1);
});

it('what a page of ours was made of is no leak on it, and on no other page', () => {
  const page = { file: 'x', path: 'x', bytes: bytesOf('<p>as of 2026-03-10, of Juniper</p>') };
  expect(problemsOf({ ...page, ownText: bytesOf('as of March 10, 2026') })).toMatchObject([
    { found: expect.stringContaining("the patient's name") },
  ]);
  expect(problemsOf(page)).toHaveLength(2);
});

describe('a word of our own text', () => {
  // As on every page: "Home and End to the first and the last".
  const own = ownTextOf([
    { place: 'words.yaml', text: 'one\nand after; Home and End to the first' },
  ]);
  const end = problemsFor([{ what: "the owner's address", text: 'End' }], own);
  const problemsIn = (text: string) => end({ file: 'x', path: 'x', bytes: bytesOf(text) });

  it('is no leak where it stands with the two words on either side that it has there', () => {
    expect(
      problemsIn('{"beats":"before and after; Home and End to the first and the last"}'),
    ).toEqual([]);
    expect(problemsIn('<td>and after; Home and End to the first</td>')).toEqual([]);
  });

  it.each([
    'they live in Mill End to this day',
    'Home and End',
    'with Home and End to first',
    'and so Home. By End to the first',
    'at home and End to the first',
  ])('is one elsewhere, and the problem says where the word is ours: %s', (text) => {
    expect(problemsIn(text)[0]?.mend).toContain(
      '"End" is a word of our own texts as well (words.yaml, line 2)',
    );
  });
});

describe('a short record number', () => {
  const drawing = '<path d="M2 7l44 0A12 12 0 0 1Z"/> E*T,u&&(D*=-1)';
  const found = (text: string, said: string) =>
    problemsFor([{ what: 'the record number', text }])({
      file: 'x',
      path: 'x',
      bytes: bytesOf(said),
    });

  it.each(['M-2', 'A12', 'D-1'])(
    '%s is not a step of a drawing, which stops no build',
    (number) => {
      expect(found(number, drawing)).toEqual([]);
    },
  );

  it.each(['M-2', 'A12'])('%s is found where it is called a number', (number) => {
    expect(found(number, `See case ${number} for it`)).toHaveLength(1);
    expect(found(number, `Record no. ${number}.`)).toHaveLength(1);
  });

  it('is told from the name of a patient', () => {
    expect(found('K9', 'and K9 woke')).toHaveLength(1);
    expect(found('M-2024', 'and M-2024 woke')).toHaveLength(1);
  });
});

describe('no alarm is raised by', () => {
  it.each<[string, Uint8Array]>([
    ['a part of a word', bytesOf('juniperine gin, Juniperus? no: Junipe, uniper')],
    ['other numbers', bytesOf('5550135 15550134 55501340 999112004417204')],
    ['other days', bytesOf('2026-03-11, 11 March, 2026-03-100, 3/10, 10.03, 20260311')],
    [
      'a row of coordinates',
      bytesOf('<path d="M55 50L1.34 5L5.5 50 1.34 10 3 26 2026 3 10.5L555.01 34"/>'),
    ],
    ['random bytes', noise(400_000)],
    ['random bytes as base64', bytesOf(Buffer.from(noise(200_000)).toString('base64'))],
    ['random bytes as hexadecimal', bytesOf(Buffer.from(noise(100_000)).toString('hex'))],
    ['random digits', bytesOf([...noise(100_000)].map((byte) => byte % 10).join(''))],
    ['a clean picture', png()],
    ['a clean PDF', shows('[<00010002> 5 <0003>] TJ')],
  ])('%s', (_, bytes) => {
    expect(searched(bytes)).toEqual([]);
  });

  it.each<[string, Uint8Array]>([
    ['random bytes', noise(400_000)],
    // "Âůğ½" and "²ĀbŔ", samples of 226, 366, 286, 189 and 178, 256, 98, 340: nobody writes August or April so.
    ['samples that read as letters', samples([226, 366, 286, 135, 189, 340, 7, 178, 256, 98, 340])],
    [
      'samples of a small signal',
      samples([...noise(200_000)].map((byte, i) => byte + (i % 3) * 60)),
    ],
    ['an id of a feed', bytesOf('<id>urn:uuid:2366aa4d-3e39-5dec-87b5-450f3c2e3dce</id>')],
  ])('any day of three years: %s', (_, bytes) => {
    expect(daysIn(bytes)).toEqual([]);
  });

  it('but a day without its year is found where it stands among words', () => {
    for (const text of ['at home on 5 Dec, by noon', 'at home on 5dec, by noon']) {
      for (const bytes of [bytesOf(text), Buffer.from(text, 'utf16le')]) {
        expect(daysIn(bytes), text).not.toEqual([]);
      }
    }
  });
});

describe('what cannot be searched, or no picture needs, is a problem:', () => {
  it.each<[string, Uint8Array, RegExp]>([
    ['an encrypted PDF', pdf('<< /Encrypt 5 0 R >>'), /an encrypted PDF/],
    ['a stream of an unknown filter', pdf(['/Filter /JBIG2Decode', noise(20)]), /PDF stream 1/],
    ['a damaged stream', pdf(['/Filter /FlateDecode', noise(20)]), /cannot be unpacked/],
    ['EXIF', jpeg(segment(0xe1, exif('nobody'))), /no picture needs/],
    ['a position', jpeg(segment(0xe1, exif('nobody', true))), /the place where it was taken/],
    ['a text chunk', png(pngChunk('tEXt', bytesOf('Comment\0nobody'))), /tEXt/],
    ['a packed bomb', gzip(new Uint8Array(300_000_000)), /cannot be unpacked/],
    [
      'files within files',
      Array.from({ length: 9 }).reduce<Uint8Array>((inner) => gzip(inner), bytesOf('nobody')),
      /more than 6 deep/,
    ],
  ])('%s', (_, bytes, what) => {
    expect(
      searched(bytes)
        .map(({ found }) => found)
        .join('\n'),
    ).toMatch(what);
  });
});
