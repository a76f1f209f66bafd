import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isBeat, readMitAnnotations } from './mit-annotations.js';

/** One 16-bit word: code in the top 6 bits, interval in the low 10, low byte first (annot(5)). */
const words = (...pairs: [code: number, interval: number][]) =>
  pairs.flatMap(([code, interval]) => [
    ((code << 10) | interval) & 0xff,
    ((code << 10) | interval) >> 8,
  ]);

describe('MIT annotations', () => {
  it('adds intervals up and takes SKIP, AUX, SUB, CHN and NUM as annot(5) says', () => {
    const bytes = Uint8Array.from([
      ...words([28, 18], [63, 3]),
      ...[0x28, 0x4e, 0x00, 0x00], // "(N" NUL, padded to an even count
      ...words([1, 59], [61, 1], [62, 1], [60, 2]),
      ...words([59, 0]),
      ...[0x01, 0x00, 0x02, 0x00], // 1 * 65536 + 2
      ...words([5, 3], [8, 1], [0, 0]),
    ]);
    expect(readMitAnnotations(bytes)).toEqual([
      { sample: 18, code: 28, mnemonic: '+', aux: '(N', subtype: 0, channel: 0, num: 0 },
      { sample: 77, code: 1, mnemonic: 'N', aux: '', subtype: 1, channel: 1, num: 2 },
      { sample: 77 + 65538 + 3, code: 5, mnemonic: 'V', aux: '', subtype: 0, channel: 1, num: 2 },
      { sample: 65619, code: 8, mnemonic: 'A', aux: '', subtype: 0, channel: 1, num: 2 },
    ]);
  });

  it('throws where the bytes end before the end mark', () => {
    expect(() => readMitAnnotations(Uint8Array.from(words([1, 5])))).toThrow(RangeError);
  });

  const path = '../shared/data/mitdb/100.atr';
  const there = existsSync(path);
  if (!there) console.warn(`skipped: ${path} is not there, so record 100 is not counted`);
  it.skipIf(!there)('counts record 100: 2239 N, 33 A, 1 V (MIT-BIH Database Directory)', () => {
    const annotations = readMitAnnotations(readFileSync(path));
    const count = (mnemonic: string) =>
      annotations.filter((annotation) => annotation.mnemonic === mnemonic).length;
    expect([count('N'), count('A'), count('V')]).toEqual([2239, 33, 1]);
    expect(annotations.filter(({ mnemonic }) => isBeat(mnemonic))).toHaveLength(2273);
    expect(annotations.at(-1)?.sample).toBeLessThan(650_000);
  });
});
