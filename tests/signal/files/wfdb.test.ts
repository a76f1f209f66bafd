import { existsSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../../src/record/problem.js';
import { readWfdb } from '../../../src/signal/files/wfdb.js';
import type { Waveform } from '../../../src/signal/waveform.js';

type Files = Record<string, readonly number[]>;
const outcomeOf = (text: string, files: Files) =>
  readWfdb(
    { file: 'case/r.hea', text },
    new Map(Object.entries(files).map(([name, bytes]) => [name, Uint8Array.from(bytes)])),
  );
const read = (text: string, files: Files): Waveform => {
  const outcome = outcomeOf(text, files);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
};
const problemsOf = (text: string, files: Files): readonly Problem[] => {
  const outcome = outcomeOf(text, files);
  return outcome.ok ? [] : outcome.problems;
};
const samplesOf = (waveform: Waveform) => waveform.channels.map(({ samples }) => [...samples]);

describe('WFDB signal files (PhysioNet, signal(5))', () => {
  it('unpacks format 212: 12-bit two’s complement, two samples in three bytes', () => {
    // E3 33 F3: first  = 0x3E3 = 995 (byte 0, low half of byte 1 above it)
    //           second = 0x3F3 = 1011 (byte 2, high half of byte 1 above it)
    // FF EF FE: first  = 0xFFF = -1, second = 0xEFE = 3838 - 4096 = -258
    // 01 78 FF: first  = 0x801 = 2049 - 4096 = -2047, second = 0x7FF = 2047
    const bytes = [0xe3, 0x33, 0xf3, 0xff, 0xef, 0xfe, 0x01, 0x78, 0xff];
    expect(samplesOf(read('r 1 100 6\nr.dat 212 1', { 'r.dat': bytes }))).toEqual([
      [995, 1011, -1, -258, -2047, 2047],
    ]);
  });

  it('reads an odd last sample of format 212 from two bytes, or three with padding', () => {
    const pair = [0xe3, 0x33, 0xf3];
    for (const rest of [
      [0xff, 0x0f],
      [0xff, 0x0f, 0x00],
    ]) {
      const waveform = read('r 1 100 3\nr.dat 212 1', { 'r.dat': [...pair, ...rest] });
      expect(samplesOf(waveform)).toEqual([[995, 1011, -1]]);
    }
  });

  it('unpacks format 16: two’s complement, low byte first', () => {
    // 34 12 = 0x1234 = 4660; FF FF = -1; 01 80 = 0x8001 = 32769 - 65536 = -32767
    const bytes = [0x34, 0x12, 0xff, 0xff, 0x01, 0x80];
    expect(samplesOf(read('r 1 100 3\nr.dat 16 1', { 'r.dat': bytes }))).toEqual([
      [4660, -1, -32767],
    ]);
  });

  it('takes the marks of invalid samples as NaN: -2048 in format 212, -32768 in format 16', () => {
    // 00 88 00: first = 0x800 = -2048, second = 0x800 = -2048; 05 00 00: 5, 0
    const twelve = read('r 1 100 4\nr.dat 212 1', {
      'r.dat': [0x00, 0x88, 0x00, 0x05, 0x00, 0x00],
    });
    expect(samplesOf(twelve)).toEqual([[Number.NaN, Number.NaN, 5, 0]]);
    const sixteen = read('r 1 100 2\nr.dat 16 1', { 'r.dat': [0x00, 0x80, 0x00, 0xf8] });
    expect(samplesOf(sixteen)).toEqual([[Number.NaN, -2048]]);
  });
});

describe('WFDB header (PhysioNet, header(5))', () => {
  const four = { 'r.dat': [1, 0, 2, 0, 3, 0, 4, 0] }; // format 16: 1, 2, 3, 4

  it('takes physical = (stored - baseline) / gain, with baseline = ADC zero where none is given', () => {
    const header = (gain: string) => `r 1 250 4\nr.dat 16 ${gain} 12 2 1 10 0 ECG lead II`;
    expect(samplesOf(read(header('100'), four))).toEqual([[-0.01, 0, 0.01, 0.02]]); // zero 2
    const stated = read(header('100(-1)/uV'), four).channels[0]!;
    expect([...stated.samples]).toEqual([0.02, 0.03, 0.04, 0.05]);
    expect(stated).toMatchObject({ unit: 'uV', label: 'ECG lead II' });
  });

  it('assumes 250 Hz, 200 units per mV, and a name, where they are missing', () => {
    const { channels, duration } = read('r 1\nr.dat 16', four);
    expect(channels[0]).toMatchObject({
      samplingRate: 250,
      unit: 'mV',
      label: 'record r, signal 0',
    });
    expect([...channels[0]!.samples]).toEqual([0.005, 0.01, 0.015, 0.02]);
    expect(duration).toBe(4 / 250);
    expect(samplesOf(read('r 1 250 4\nr.dat 16 0', four))[0]![3]).toBe(0.02);
  });

  it('reads the start from base time and date, past a counter frequency', () => {
    expect(read('r 1 250/1000(12.5) 4 9:5:03.25 2/3/2026\nr.dat 16', four).startsAt).toBe(
      '2026-03-02T09:05:03.250',
    );
  });

  it('reads a base time without a date as a time of day; 0:0:0 is what header(5) takes for none', () => {
    expect(read('r 1 250 4 9:05:03\nr.dat 16', four).startsAt).toBe('09:05:03');
    expect(read('r 1 250 4 0:0:0\nr.dat 16', four).startsAt).toBeNull();
    expect(read('r 1 250 4 25:00:00\nr.dat 16', four).startsAt).toBeNull();
    expect(read('r 1 250 4\nr.dat 16', four).startsAt).toBeNull();
  });

  it('passes over comments, empty lines, carriage returns and extra signal lines', () => {
    const text =
      '# by hand\r\n\r\nr 1 250 4\r\n # between\r\nr.dat 16\r\nextra.dat 999\r\n# Rex\r\n';
    expect(samplesOf(read(text, four))[0]).toHaveLength(4);
  });

  it('separates signals that share a file, with several samples per frame, and joins several files', () => {
    // Frames of r.dat: [a, b, b]; two frames. s.dat holds one sample a frame.
    const text = 'r 3 100 2\nr.dat 16 1\nr.dat 16x2 1\ns.dat 212 1 12 0 995 2006 0 third';
    const { channels, duration } = read(text, {
      'r.dat': [1, 0, 10, 0, 11, 0, 2, 0, 20, 0, 21, 0],
      's.dat': [0xe3, 0x33, 0xf3],
    });
    expect(channels.map(({ samples }) => [...samples])).toEqual([
      [1, 2],
      [10, 11, 20, 21],
      [995, 1011],
    ]);
    expect(channels.map(({ samplingRate }) => samplingRate)).toEqual([100, 200, 100]);
    expect(duration).toBe(0.02);
  });

  it('moves a skewed signal forwards, keeps its checksum, and skips a preamble', () => {
    const text = 'r 1 100 4\nr.dat 16:1+2 1 12 0 1 10 0 II'; // 1 + 2 + 3 + 4 = 10
    expect(samplesOf(read(text, { 'r.dat': [9, 9, ...four['r.dat']] }))).toEqual([
      [2, 3, 4, Number.NaN],
    ]);
  });

  it('compares the checksum as a 16-bit sum, signed or not', () => {
    const high = { 'r.dat': [0xff, 0x7f, 0xff, 0x7f, 0x02, 0x00] }; // 32767 + 32767 + 2 = 65536
    expect(problemsOf('r 1 100 3\nr.dat 16 1 16 0 32767 0 0 x', high)).toEqual([]);
    const negative = { 'r.dat': [0xff, 0xff] }; // -1, or 65535
    for (const sum of ['-1', '65535']) {
      expect(problemsOf(`r 1 100 1\nr.dat 16 1 16 0 -1 ${sum} 0 x`, negative)).toEqual([]);
    }
  });

  it('locates a wrong checksum and a wrong initial value', () => {
    const problems = problemsOf('r 1 100 4\nr.dat 16 1 12 0 2 11 0 II', four);
    expect(problems).toMatchObject([
      { file: 'case/r.hea', line: 2, field: 'initial value', expected: '2' },
      { file: 'case/r.hea', line: 2, field: 'checksum', expected: '11' },
    ]);
  });

  it('takes zeros as place holders where the number of samples is left open', () => {
    expect(problemsOf('r 1 100\nr.dat 16 1 12 0 0 0 0 II', four)).toEqual([]);
  });

  it.each([
    ['no record line', '# only\n', 1, undefined],
    ['several segments', 'r/3 1 100\n', 1, 'number of segments'],
    ['no signals', 'r 0 100\n', 1, 'number of signals'],
    ['a rate of zero', 'r 1 0\nr.dat 16', 1, 'sampling frequency'],
    ['a number of samples in words', 'r 1 100 many\nr.dat 16', 1, 'number of samples per signal'],
    [
      'a date that is not in the calendar',
      'r 1 9 4 1:2:3 30/2/2026\nr.dat 16',
      1,
      'base time and date',
    ],
    ['a missing signal line', 'r 2 100 2\nr.dat 16', 2, 'number of signals'],
    ['another storage format', 'r 1 100 4\nr.dat 61', 2, 'format'],
    ['a format that is no number', 'r 1 100 4\nr.dat ECG', 2, 'format'],
    ['a missing format', 'r 1 100 4\nr.dat', 2, 'format'],
    ['a gain in words', 'r 1 100 4\nr.dat 16 high', 2, 'ADC gain'],
    ['a checksum in words', 'r 1 100 4\nr.dat 16 1 12 0 1 sum', 2, 'checksum'],
    ['a line longer than 255', `r 1 100 4\nr.dat 16 ${'1'.repeat(300)}`, 2, undefined],
    ['a folder above', 'r 1 100 4\n../r.dat 16', 2, 'file name'],
    ['an absolute path', 'r 1 100 4\n/etc/r.dat 16', 2, 'file name'],
    ['a folder of another system', 'r 1 100 4\nc\\r.dat 16', 2, 'file name'],
    ['standard input', 'r 1 100 4\n- 16', 2, 'file name'],
    ['a file that is not there', 'r 1 100 4\nq.dat 16', 2, 'file name'],
    ['two formats in one file', 'r 2 100 2\nr.dat 16\nr.dat 212', 3, 'format'],
    ['a file that comes back', 'r 3 100 2\nr.dat 16\ns.dat 16\nr.dat 16', 4, 'file name'],
    ['a skew at several samples per frame', 'r 1 100 2\nr.dat 16x2:1', 2, 'skew'],
  ])('locates %s', (_, text, line, field) => {
    const [problem] = problemsOf(text, four);
    expect(problem).toMatchObject({ file: 'case/r.hea', line });
    expect(problem?.field).toBe(field);
  });

  it('locates samples that are missing or to spare, in the signal file', () => {
    expect(problemsOf('r 1 100 5\nr.dat 16', four)[0]).toMatchObject({
      file: 'case/r.dat',
      byte: 8,
      expected: '5 samples = 10 bytes after byte 0',
    });
    expect(problemsOf('r 1 100 3\nr.dat 16', four)[0]).toMatchObject({
      file: 'case/r.dat',
      byte: 6,
      found: '2 more bytes after the last sample',
    });
    expect(problemsOf('r 3 100\nr.dat 16\nr.dat 16\nr.dat 16', four)[0]).toMatchObject({
      byte: 8,
      found: '4 samples',
    });
    const huge = problemsOf('r 1 100 99999999999999999999\nr.dat 16', four);
    expect(huge[0]).toMatchObject({ byte: 8 });
  });

  it('stops telling after twenty problems, however many lines are wrong', () => {
    const lines = Array.from({ length: 50_000 }, (_, index) => `s${index}.dat 16`);
    expect(problemsOf(`r 50000 100\n${lines.join('\n')}`, four)).toHaveLength(20);
  });

  it('reads or refuses any change of the header without a crash', () => {
    const sound =
      'r 2 100/100(0) 2 1:2:3 2/3/2026\nr.dat 16x1:0+0 200(0)/mV 12 0 1 4 0 II\nr.dat 16';
    const change = fc.tuple(
      fc.nat(sound.length - 1),
      fc.constantFrom(...'0123456789 -+.:/()x\n#eE~\0é'),
    );
    fc.assert(
      fc.property(fc.array(change, { maxLength: 5 }), (changes) => {
        const text = [...sound];
        for (const [place, character] of changes) text[place] = character;
        const outcome = outcomeOf(text.join(''), four);
        if (!outcome.ok) {
          expect(outcome.problems.length).toBeGreaterThan(0);
          return;
        }
        for (const { samples, samplingRate } of outcome.value.channels) {
          expect(samples.length).toBeLessThanOrEqual(4);
          expect(samples.length / samplingRate).toBeCloseTo(outcome.value.duration, 9);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('reads or refuses any bytes of a signal file without a crash', () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ maxLength: 40 }),
        fc.constantFrom('16', '212', '212x3', '16+3'),
        (bytes, format) => {
          const outcome = outcomeOf(`r 2 100\nr.dat ${format} 1\nr.dat ${format} 1`, {
            'r.dat': [...bytes],
          });
          if (!outcome.ok) {
            expect(outcome.problems[0]?.byte).toBe(bytes.length);
            return;
          }
          const held = outcome.value.channels.reduce((sum, { samples }) => sum + samples.length, 0);
          expect(held * 1.5).toBeLessThanOrEqual(bytes.length + 0.5);
        },
      ),
    );
  });
});

const folder = '../shared/data/mitdb';
const there = existsSync(`${folder}/100.dat`);
if (!there) console.warn(`skipped: ${folder} is not there, so record 100 is not read`);

describe.skipIf(!there)('record 100 of the MIT-BIH Arrhythmia Database', () => {
  const text = there ? readFileSync(`${folder}/100.hea`, 'utf-8') : '';
  const bytes = there ? new Uint8Array(readFileSync(`${folder}/100.dat`)) : new Uint8Array();
  const outcome = readWfdb({ file: '100.hea', text }, new Map([['100.dat', bytes]]));

  it('has 650000 samples of each lead, 995 and 1011 first, and the header’s checksums', () => {
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
    const { channels, duration } = outcome.value;
    expect(channels.map(({ label, unit }) => [label, unit])).toEqual([
      ['MLII', 'mV'],
      ['V5', 'mV'],
    ]);
    expect(duration).toBeCloseTo(650_000 / 360, 9);
    // ADC zero 1024, 200 units per mV.
    expect(channels.map(({ samples }) => samples[0])).toEqual([
      (995 - 1024) / 200,
      (1011 - 1024) / 200,
    ]);
    const sums = channels.map(({ samples, samplingRate }) => {
      expect([samples.length, samplingRate]).toEqual([650_000, 360]);
      return samples.reduce((sum, value) => sum + Math.round(value * 200 + 1024), 0);
    });
    expect(sums.map((sum) => (sum << 16) >> 16)).toEqual([-22131, 20052]);
  });

  it('notices one flipped bit', () => {
    const flipped = Uint8Array.from(bytes);
    flipped[1_000_000]! ^= 1;
    const altered = readWfdb({ file: '100.hea', text }, new Map([['100.dat', flipped]]));
    expect(altered.ok ? [] : altered.problems.map(({ field }) => field)).toEqual(['checksum']);
  });
});
