import { deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { problemsFor } from '../problems-of.js';
import { bytesOf, flate, joined, pdf } from './wrapped.js';

const search = problemsFor([{ what: "the patient's name", text: 'Juniper' }]);
const found = (bytes: Uint8Array) =>
  search({ file: 'x', path: 'x', bytes }).map((problem) => problem.found);
const hex = (text: string) => Buffer.from(text).toString('hex');
/** By Python's `base64.a85encode(b'of Juniper')`, with the end that PDF gives it. */
const A85 = 'De:+aF`(o4AT@~>';

describe('a name is found in a stream of a PDF', () => {
  it.each<[how: string, dictionary: string, bytes: Uint8Array]>([
    ['in hexadecimal', '/Filter /ASCIIHexDecode', bytesOf(`${hex('of Juniper')}>`)],
    ['in base 85', '/Filter /ASCII85Decode', bytesOf(A85)],
    [
      'in both, one within the other',
      '/Filter [/AHx /Fl]',
      bytesOf(`${Buffer.from(deflateSync('of Juniper')).toString('hex')}>`),
    ],
    [
      'of a font',
      '/Length1 9 /Filter /FlateDecode',
      new Uint8Array(deflateSync('name of a font: Juniper')),
    ],
    ['of no filter', '/Type /Other', bytesOf('of Juniper')],
  ])('%s', (_, dictionary, bytes) => {
    expect(found(pdf([dictionary, bytes]))[0]).toMatch(/the patient's name in .*PDF stream 1/);
  });

  it('whose length is told by another object, wrongly, or not at all', () => {
    const stream = (length: string, after = '') =>
      joined(
        `%PDF-1.7\n1 0 obj\n<< /Filter /FlateDecode ${length} >>\nstream\n`,
        deflateSync('of Juniper'),
        `\nendstream\nendobj\n${after}trailer << >>`,
      );
    const size = deflateSync('of Juniper').length;
    for (const each of [
      stream('/Length 2 0 R', `2 0 obj\n${size}\nendobj\n`),
      stream('/Length 3 0 R'),
      stream('/Length 3'),
      stream(''),
    ]) {
      expect(found(each)[0]).toMatch(/the patient's name in .*PDF stream 1/);
    }
  });

  it('that nothing ends', () => {
    const bytes = joined('%PDF-1.7\n1 0 obj\n<< >>\nstream\nof Juniper');
    expect(found(bytes)[0]).toContain("the patient's name");
  });
});

describe('a stream of a PDF cannot be searched', () => {
  it.each<[how: string, dictionary: string, bytes: Uint8Array]>([
    ['of an unknown filter before another', '/Filter [/Crypt /FlateDecode]', bytesOf('x')],
    [
      'whose bytes are differences from those above',
      '/Type /ObjStm /DecodeParms << /Predictor 12 /Columns 4 >> /Filter /FlateDecode',
      new Uint8Array(deflateSync('of nobody')),
    ],
  ])('%s', (_, dictionary, bytes) => {
    expect(found(pdf([dictionary, bytes]))).toEqual([
      'a stream that cannot be unpacked (PDF stream 1)',
    ]);
  });
});

describe('what a page shows is read through the map of its font', () => {
  const RESOURCES = '<< /Font << /F1 2 0 R >> >>';
  const FONT = '<< /Type /Font /Subtype /Type0 /ToUnicode 3 0 R >>';
  const map = (lines: string) =>
    flate(`begincmap 1 begincodespacerange <00> <ff> endcodespacerange\n${lines}\nendcmap`);
  const shows = (lines: string, text: string, more: readonly string[] = []) =>
    pdf(RESOURCES, FONT, map(lines), flate(`BT /F1 9 Tf ${text} ET`), ...more);
  const CHARACTERS = `7 beginbfchar <01> <004a> <02> <0075> <03> <006e> <04> <0069> <05> <0070> <06> <0065> <07> <0072> endbfchar`;

  it.each<[how: string, lines: string, text: string]>([
    ['character by character', CHARACTERS, '<01020304050607> Tj'],
    [
      'in a range that counts on',
      '1 beginbfrange <41> <5a> <0061> endbfrange 1 beginbfchar <01> <004a> endbfchar',
      '<01554e495045 52> Tj',
    ],
    ['in the next line, with spaces to set', CHARACTERS, '1 2 <01020304050607> "'],
    ['in the next line', CHARACTERS, "<01020304050607> '"],
    ['that parts letters by little', CHARACTERS, '[<0102> -100 <03040506> 50 <07>] TJ'],
  ])('%s', (_, lines, text) => {
    expect(found(shows(lines, text))[0]).toMatch(/PDF stream 4, text as printed/);
  });

  it('and a wide gap between two showings is a space', () => {
    const two = problemsFor([{ what: 'a name', text: 'Juni per' }]);
    const bytes = shows(CHARACTERS, '[<01020304> -300 <050607>] TJ');
    expect(two({ file: 'x', path: 'x', bytes })[0]?.found).toContain('text as printed');
  });

  it.each<[how: string, lines: string]>([
    ['that gives no characters', ''],
    [
      'of which a line lacks its end',
      '1 beginbfchar <01> endbfchar 1 beginbfrange <01> <02> endbfrange',
    ],
    [
      'that gives lists where codes belong',
      '1 beginbfchar [<01>] <004a> endbfchar 1 beginbfrange [<01>] <02> <004a> endbfrange',
    ],
    ['whose list is too short', '1 beginbfrange <01> <07> [<004a>] endbfrange ]'],
    ['of codes of no length', '1 begincodespacerange [<00>] endcodespacerange'],
  ])('a map %s shows nothing, and breaks nothing', (_, lines) => {
    expect(found(shows(lines, '<01020304050607> Tj'))).toEqual([]);
  });

  it('by each of the maps that share a name, and by fonts that an object of their own lists', () => {
    const other = (name: string, font: number, cmap: number) => [
      `<< /Font << /${name} ${font} 0 R >> >>`,
      `<< /Type /Font /ToUnicode ${cmap} 0 R >>`,
    ];
    // Two pages call two fonts F1; the second reads as a name.
    const twice = pdf(
      RESOURCES,
      FONT,
      map('1 beginbfchar <01> <0058> endbfchar'),
      ...other('F1', 5, 6).slice(0, 1),
      other('F1', 5, 6)[1] as string,
      map(CHARACTERS),
      flate('BT /F1 9 Tf <01020304050607> Tj ET'),
    );
    expect(found(twice)[0]).toMatch(/PDF stream 7, text as printed/);
    const listed = pdf(
      '<< /Font 2 0 R >>',
      '<< /F1 3 0 R /F2 9 0 R >>',
      '<< /ToUnicode 4 0 R >>',
      map(CHARACTERS),
      flate('BT /F1 9 Tf <01020304050607> Tj ET'),
    );
    expect(found(listed)[0]).toMatch(/PDF stream 5, text as printed/);
  });

  it('also of fonts that stand in an object stream (ISO 32000-1, 7.5.7; from memory, unverified)', () => {
    const [one, two] = ['<< /Font << /F1 8 0 R >> >>', '<< /ToUnicode 2 0 R >>'];
    const heads = `7 0 8 ${one.length + 1} `;
    const packed = pdf(
      [
        `/Type /ObjStm /N 2 /First ${heads.length} /Filter /FlateDecode`,
        new Uint8Array(deflateSync(`${heads}${one} ${two}`)),
      ],
      map(CHARACTERS),
      flate('BT /F1 9 Tf <01020304050607> Tj ET'),
    );
    expect(found(packed)[0]).toMatch(/PDF stream 3, text as printed/);
    // Without its heads an object stream is searched as text.
    expect(found(pdf(['/Type /ObjStm', bytesOf('(Juniper)')]))[0]).toContain('PDF stream 1');
  });

  it('and a string that nothing ends is read to the end', () => {
    expect(found(joined(`%PDF-1.7\n1 0 obj <${hex('of Juniper')}`))[0]).toContain(
      "the patient's name",
    );
    expect(found(joined('%PDF-1.7\n1 0 obj (of Juniper\\'))[0]).toContain("the patient's name");
  });
});
