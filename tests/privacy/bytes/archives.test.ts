import { crc32, deflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { problemsFor } from '../problems-of.js';
import { bytesOf, edf, gzip, joined, zip } from './wrapped.js';

const search = problemsFor([
  { what: "the patient's name", text: 'Juniper' },
  { what: 'the date of surgery', text: '2026-03-10' },
]);
const problemsOf = (bytes: Uint8Array) => search({ file: 'x', path: 'x', bytes });
const found = (bytes: Uint8Array) => problemsOf(bytes).map((problem) => problem.found);

const u16 = (value: number) => Uint8Array.from([value & 255, value >> 8]);
const u32 = (value: number) => joined(u16(value & 0xffff), u16(value >>> 16));
/** A local header (APPNOTE 4.3.7; layout from memory, unverified). */
const member = (method: number, name: string, data: Uint8Array, size = data.length) =>
  joined(
    'PK\x03\x04',
    u16(20),
    u16(0),
    u16(method),
    u32(0),
    u32(crc32(data)),
    u32(size),
    u32(0),
    u16(name.length),
    u16(0),
    name,
    data,
  );
/** An entry of the directory at the end, which tells the size that the header does not. */
const entry = (name: string, size: number, at: number) =>
  joined(
    'PK\x01\x02',
    u16(20),
    u16(20),
    u16(8),
    u16(8),
    u32(0),
    u32(0),
    u32(size),
    u32(0),
    u16(name.length),
    new Uint8Array(12),
    u32(at),
    name,
  );

describe('a zip file', () => {
  it('is searched in what is stored and not packed', () => {
    expect(found(member(0, 'a.txt', bytesOf('of Juniper')))).toEqual([
      expect.stringMatching(/the patient's name .*\(zip\)/),
    ]);
  });

  it('is searched in a member of which only the directory tells the size', () => {
    const packed = new Uint8Array(deflateRawSync(bytesOf('of Juniper')));
    const first = member(8, 'a', packed, 0);
    const bytes = joined(first, member(8, 'b', packed), entry('a', packed.length, 0));
    expect(found(bytes)[0]).toContain('(zip member a)');
    // Without a directory, all that follows is read.
    expect(found(first)[0]).toContain('(zip member a)');
  });

  it('that is cut off is searched as far as it goes', () => {
    const whole = zip('juniper.txt', bytesOf('nobody'));
    expect(found(joined(member(0, 'a.txt', bytesOf('of Juniper')), 'PK\x03\x04'))).toHaveLength(1);
    expect(found(joined(whole, 'PK\x01\x02', 'of the end'))[0]).toContain('zip member juniper.txt');
  });

  it.each([
    ['of an unknown method', member(9, 'a.txt', bytesOf('who knows'))],
    ['that is damaged', member(8, 'a.txt', Uint8Array.from([0xff, 0xff, 0xff, 0xff]))],
  ])('with a member %s cannot be searched', (_, bytes) => {
    expect(problemsOf(bytes)).toMatchObject([
      {
        kind: 'a public file that cannot be searched',
        byte: 0,
        found: expect.stringMatching(/cannot be unpacked \(zip member a\.txt\)/),
      },
    ]);
  });
});

describe('a gzip file', () => {
  it('is searched for the time of what it packs', () => {
    const bytes = gzip(bytesOf('nobody'));
    // Seconds since 1970 (RFC 1952, 2.3.1).
    new DataView(bytes.buffer).setUint32(4, Date.UTC(2026, 2, 10, 9) / 1000, true);
    expect(found(bytes)).toEqual([expect.stringMatching(/the date of surgery .*\(gzip time\)/)]);
  });

  it('that ends within its head says nothing', () => {
    expect(found(Uint8Array.from([0x1f, 0x8b, 8, 0]))).toEqual([]);
  });
});

it('the fields of an EDF header, which stand against each other, are read one by one', () => {
  const filled = edf(`${'x'.repeat(73)}Juniper`, '10.03.26');
  expect(found(filled)).toEqual([
    expect.stringMatching(/the patient's name .*\(EDF header\)/),
    expect.stringMatching(/the date of surgery .*\(EDF header\)/),
  ]);
});
