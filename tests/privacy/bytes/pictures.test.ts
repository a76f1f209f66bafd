import { describe, expect, it } from 'vitest';
import { problemsFor } from '../problems-of.js';
import { bytesOf, exif, joined, jpeg, png, pngChunk, segment } from './wrapped.js';

const search = problemsFor([{ what: "the patient's name", text: 'Juniper' }]);
const found = (bytes: Uint8Array) =>
  search({ file: 'x', path: 'x', bytes }).map((problem) => problem.found);

describe('a JPEG', () => {
  it('may state its form, its colours and how they were turned: parts of the picture', () => {
    const parts = [
      segment(0xe0, bytesOf('JFIF\0\x01\x01\0\0\x01\0\x01\0\0')),
      segment(0xe2, bytesOf('ICC_PROFILE\0\x01\x01')),
      segment(0xee, bytesOf('Adobe\0d\0\0\0\0\0')),
    ];
    expect(found(jpeg(...parts))).toEqual([]);
    // A name in a profile is a name all the same.
    expect(found(jpeg(segment(0xe2, bytesOf('ICC_PROFILE\0\x01\x01by Juniper'))))[0]).toMatch(
      /the patient's name .*JPEG colours/,
    );
  });

  it('is read over fill bytes, restarts and escaped bytes of its dots', () => {
    const scan = segment(0xda, Uint8Array.from([1, 1, 0, 0, 63, 0]));
    const dots = '\x12\xff\x00\x34\xff\xd0\x56';
    const bytes = joined(
      '\xff\xd8',
      '\xff',
      segment(0xfe, bytesOf('Juniper')),
      scan,
      dots,
      '\xff\xd9',
    );
    expect(found(bytes)).toEqual([
      expect.stringMatching(/the patient's name .*JPEG comment/),
      'a part that no picture needs (JPEG comment)',
    ]);
  });

  it('that ends within its dots, or hides more behind them, is read to its end', () => {
    expect(found(jpeg().slice(0, -2))).toEqual(['bytes after the picture (after the JPEG)']);
    expect(found(joined(jpeg(), 'of Juniper'))).toEqual([
      expect.stringMatching(/the patient's name .*after the JPEG/),
      'bytes after the picture (after the JPEG)',
    ]);
  });

  it('with its camera data in either order of bytes tells where it was taken', () => {
    const big = joined('Exif\0\0MM\0*\0\0\0\x08\0\x01\x88\x25\0\x04\0\0\0\x01\0\0\0\x08\0\0\0\0');
    for (const camera of [exif('nobody', true), big]) {
      expect(found(jpeg(segment(0xe1, camera)))).toContain(
        'the place where it was taken (JPEG EXIF)',
      );
    }
  });
});

describe('a PNG', () => {
  it.each<[how: string, kind: string, data: string]>([
    ['without a keyword', 'tEXt', 'Juniper'],
    ['whose packed text is none', 'zTXt', 'Comment\0\0Juniper'],
    ['that is not packed', 'iTXt', 'Comment\0\0\0\0\0of Juniper'],
    ['that is cut off behind its language', 'iTXt', 'Juniper\0\x01\0en'],
    ['that is cut off before its text', 'iTXt', 'Juniper\0\x01\0en\0Comment'],
  ])('is searched in a text %s', (_, kind, data) => {
    expect(found(png(pngChunk(kind, joined(data))))[0]).toMatch(/the patient's name .*PNG/);
  });

  it('with a time that is cut off is no picture that is needed', () => {
    expect(found(png(pngChunk('tIME', Uint8Array.of(7))))).toEqual([
      'a part that no picture needs (tIME) (PNG tIME)',
    ]);
  });
});

it('bytes that begin as a picture or an archive does, and are none, are read as they are', () => {
  for (const sign of ['\xff\xd8x', '\x1f\x8bx', 'PKx', '\x89PNx', '\xff\xfe', '\xfe\xff']) {
    expect(found(joined(sign, ' of Juniper'))[0], sign).toContain("the patient's name");
  }
});
