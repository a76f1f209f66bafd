import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { detectBeats } from '../../../src/signal/beats/detect.js';
import { readWfdb } from '../../../src/signal/files/wfdb.js';
import { inWords, matchBeats } from '../../tools/match-beats.js';
import { isBeat, readMitAnnotations } from '../../tools/mit-annotations.js';

const folder = join(import.meta.dirname, '../../../../shared/data/mitdb');
const isHere = existsSync(join(folder, '100.dat'));
if (!isHere) console.log(`Skipped: MIT-BIH record 100 is not in ${folder}.`);

describe.skipIf(!isHere)('MIT-BIH record 100, scored beat by beat within 150 ms (EC57)', () => {
  const bytes = (name: string) => readFileSync(join(folder, name));
  const record = () => {
    const header = { file: '100.hea', text: bytes('100.hea').toString('latin1') };
    const read = readWfdb(header, new Map([['100.dat', bytes('100.dat')]]));
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    return read.value;
  };
  const reference = () =>
    readMitAnnotations(bytes('100.atr'))
      .filter(({ mnemonic }) => isBeat(mnemonic))
      .map(({ sample }) => sample / 360);

  it('holds 2273 reference beats', () => {
    expect(reference()).toHaveLength(2273);
  });

  it.each([
    ['MLII', [0]],
    ['V5', [1]],
    ['MLII and V5', [0, 1]],
  ])('%s: sensitivity and +P at least 99.8 %', (name, which) => {
    const { channels } = record();
    const found = detectBeats(which.map((i) => channels[i]!)).map(({ time }) => time);
    for (const [part, from] of [
      ['whole record', 0],
      ['after 5 min of learning', 300],
    ] as const) {
      const match = matchBeats(
        reference().filter((time) => time >= from),
        found.filter((time) => time >= from),
      );
      console.log(`Record 100, ${name}, ${part}: ${inWords(match)}`);
      expect(match.sensitivity).toBeGreaterThanOrEqual(0.998);
      expect(match.predictivity).toBeGreaterThanOrEqual(0.998);
      // The reference marks lie near the R peak, not on it to the sample.
      const offsets = match.pairs.map((pair) => pair.found - pair.reference).sort((a, b) => a - b);
      expect(Math.abs(offsets[offsets.length >> 1]!)).toBeLessThan(0.01);
    }
  });
});
