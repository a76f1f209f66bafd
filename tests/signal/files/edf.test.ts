import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../../src/record/problem.js';
import { readEdf } from '../../../src/signal/files/edf.js';
import type { Waveform } from '../../../src/signal/waveform.js';
import type { EdfParts } from '../../tools/build-edf.js';
import { buildEdf, remarks } from '../../tools/build-edf.js';

const ecg = {
  label: 'ECG II',
  dimension: 'mV',
  physicalMin: '-5',
  physicalMax: '5',
  digitalMin: '-2048',
  digitalMax: '2047',
  data: [
    [0, 1, -2048, 2047],
    [-1, 100, 0, 0],
  ],
};
const read = (parts: EdfParts): Waveform => {
  const outcome = readEdf(buildEdf(parts), 'ecg.edf');
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
};
const problemsOf = (bytes: Uint8Array): readonly Problem[] => {
  const outcome = readEdf(bytes, 'ecg.edf');
  return outcome.ok ? [] : outcome.problems;
};
const firstProblem = (parts: EdfParts) => problemsOf(buildEdf(parts))[0];

describe('EDF (Kemp 1992)', () => {
  it('scales stored values along the line through the two extremes', () => {
    const { channels, duration, format } = read({ signals: [ecg] });
    // -5 + (stored + 2048) * 10 / 4095
    //    0 -> -5 + 20480 / 4095 = 0.00122100...   1 -> -5 + 20490 / 4095 = 0.00366300...
    //   -1 -> -5 + 20470 / 4095 = -0.00122100... 100 -> -5 + 21480 / 4095 = 0.24542124...
    const expected = [0.001221, 0.003663, -5, 5, -0.001221, 0.24542125, 0.001221, 0.001221];
    expect(channels).toHaveLength(1);
    expect(channels[0]!.samples).toHaveLength(8);
    for (const [index, value] of expected.entries()) {
      expect(channels[0]!.samples[index]).toBeCloseTo(value, 8);
    }
    expect(channels[0]).toMatchObject({ label: 'ECG II', unit: 'mV', samplingRate: 4 });
    expect({ duration, format }).toEqual({ duration: 2, format: 'EDF' });
  });

  it('reads stored values as 16-bit two’s complement, low byte first, when the scale is one to one', () => {
    const oneToOne = { physicalMin: '-32768', physicalMax: '32767' };
    const bytes = buildEdf({ signals: [{ label: 'raw', ...oneToOne, data: [[0, 0, 0]] }] });
    bytes.set([0xff, 0xff, 0x00, 0x80, 0x34, 0x12], 512); // -1, -32768, 0x1234 = 4660
    const outcome = readEdf(bytes, 'raw.edf');
    expect(outcome.ok && [...outcome.value.channels[0]!.samples]).toEqual([-1, -32768, 4660]);
  });

  it('gives each signal its own rate: samples in a record / duration of a record', () => {
    const slow = { label: 'CO2', dimension: 'mmHg', data: [[1], [2]] };
    const { channels, duration } = read({ duration: '0.5', signals: [slow, ecg] });
    expect(channels.map(({ samplingRate }) => samplingRate)).toEqual([2, 8]);
    expect(channels.map(({ samples }) => samples.length)).toEqual([2, 8]);
    expect(duration).toBe(1);
  });

  it('lets a physical range run downwards, which turns the trace over (EDF+ 2.1.3)', () => {
    const { channels } = read({ signals: [{ ...ecg, physicalMin: '5', physicalMax: '-5' }] });
    expect([...channels[0]!.samples.subarray(2, 4)]).toEqual([5, -5]);
  });

  it.each([
    ['uV', 'uV'],
    ['\u00b5V', 'µV'],
  ])('keeps the unit %s as stated, in ASCII or Latin-1', (dimension, unit) => {
    expect(read({ signals: [{ ...ecg, dimension }] }).channels[0]!.unit).toBe(unit);
  });

  it.each([
    ['31.12.85', '1985-12-31T09:15:00'],
    ['31.12.99', '1999-12-31T09:15:00'],
    ['01.01.00', '2000-01-01T09:15:00'],
    ['29.02.84', '2084-02-29T09:15:00'],
    ['01.01.85', null],
    ['', null],
  ])('reads the start date %s as %s (EDF+ 2.1.3, item 2)', (startdate, startsAt) => {
    expect(read({ startdate, signals: [ecg] }).startsAt).toBe(startsAt);
  });
});

describe('EDF+ (Kemp and Olivan 2003)', () => {
  const plus = (starts: readonly string[], extra: Partial<EdfParts> = {}): EdfParts => ({
    reserved: 'EDF+C',
    signals: [
      { ...ecg, data: starts.map(() => [1, 2, 3, 4]) },
      { label: 'EDF Annotations', bytes: 64, data: starts },
    ],
    ...extra,
  });

  it('prefers the full year of "Startdate dd-MMM-yyyy" (2.1.3, item 4)', () => {
    const recording = 'Startdate 02-MAR-2026 X X X';
    const starts = [remarks('+0', '')];
    expect(read(plus(starts, { recording })).startsAt).toBe('2026-03-02T09:15:00');
    expect(read(plus(starts, { recording, startdate: '01.01.85' })).startsAt).toBe(
      '2026-03-02T09:15:00',
    );
    const later = { recording: 'Startdate 02-MAR-2126 X X X', startdate: '02.03.yy' };
    expect(read(plus(starts, later)).startsAt).toBe('2126-03-02T09:15:00');
  });

  it('refuses two start dates that disagree', () => {
    const recording = 'Startdate 03-FEB-2026 X X X';
    expect(firstProblem(plus([remarks('+0', '')], { recording }))).toMatchObject({
      byte: 168,
      field: 'startdate',
    });
  });

  it('adds the first record’s fraction of a second to the start (2.2.4), and times remarks from the first sample', () => {
    const first = remarks('+0.25', '') + remarks('+0.75\x150.5', 'incision', 'knife in');
    const { startsAt, annotations, channels } = read(plus([first, remarks('+1.25', '')]));
    expect(startsAt).toBe('2026-03-02T09:15:00.250');
    expect(annotations).toEqual([
      { onset: 0.5, duration: 0.5, text: 'incision' },
      { onset: 0.5, duration: 0.5, text: 'knife in' },
    ]);
    expect(channels.map(({ label }) => label)).toEqual(['ECG II']);
  });

  it('carries a start past midnight into the next year', () => {
    const parts = plus([remarks('+1.5', '')], { startdate: '31.12.26', starttime: '23.59.59' });
    expect(read(parts).startsAt).toBe('2027-01-01T00:00:00.500');
  });

  it('reads remarks in UTF-8 from several annotation signals, also those before the start', () => {
    const { annotations } = read({
      reserved: 'EDF+C',
      signals: [
        { label: 'EDF Annotations', bytes: 40, data: [remarks('+0', '') + remarks('+2', 'later')] },
        { ...ecg, data: [[1, 2, 3, 4]] },
        { label: 'EDF Annotations', bytes: 40, data: [remarks('-3.5', 'sedación, 37 °C')] },
      ],
    });
    expect(annotations).toEqual([
      { onset: -3.5, duration: null, text: 'sedación, 37 °C' },
      { onset: 2, duration: null, text: 'later' },
    ]);
  });

  it('fills an interruption (EDF+D) with NaN, so that index / rate stays the time', () => {
    const starts = [remarks('+0', ''), remarks('+2.5', '')];
    const { channels, duration } = read(plus(starts, { reserved: 'EDF+D' }));
    const { samples } = channels[0]!;
    expect(duration).toBe(3.5);
    expect(samples).toHaveLength(14); // 3.5 s at 4 Hz
    expect([...samples.subarray(4, 10)].every(Number.isNaN)).toBe(true); // 1 s to 2.5 s
    expect([...samples.subarray(10)]).toEqual([...samples.subarray(0, 4)]);
  });

  it('refuses records that overlap, or that leave a gap although the header says EDF+C', () => {
    const overlap = [remarks('+0', ''), remarks('+0.25', '')];
    expect(firstProblem(plus(overlap, { reserved: 'EDF+D' }))).toMatchObject({
      byte: 768 + 72 + 8,
      found: 'data record 2 starts at 0.25 s',
    });
    const gap = [remarks('+0', ''), remarks('+2.5', '')];
    expect(firstProblem(plus(gap))?.expected).toContain('EDF+C, without interruptions');
  });

  it('refuses small overlaps that add up', () => {
    const starts = ['+0', '+0.8', '+1.6'].map((onset) => remarks(onset, ''));
    // A sample lasts 0.25 s: 0.2 s may be rounding, twice 0.2 s is not.
    expect(firstProblem(plus(starts.slice(0, 2), { reserved: 'EDF+D' }))).toBeUndefined();
    expect(firstProblem(plus(starts, { reserved: 'EDF+D' }))?.found).toContain('data record 3');
  });

  it('refuses a gap that would take more memory than a case can need', () => {
    const starts = [remarks('+0', ''), remarks('+99999999', '')];
    expect(firstProblem(plus(starts, { reserved: 'EDF+D' }))?.expected).toContain('24 hours');
  });

  it('reads a file of remarks alone, whose records last 0 s', () => {
    const signals = [
      { label: 'EDF Annotations', bytes: 40, data: [remarks('+0', '') + remarks('+5', 'x')] },
    ];
    const waveform = read({ reserved: 'EDF+C', duration: '0', signals });
    expect(waveform.channels).toEqual([]);
    expect(waveform.annotations).toEqual([{ onset: 5, duration: null, text: 'x' }]);
  });

  it.each([
    ['an unsigned onset', '0\x14\x14\0', 'the time stamp "0"'],
    ['a duration that is no number', '+0\x15x\x14\x14\0', 'the time stamp "+0 for x"'],
    ['a missing end mark', '+0\x14\x14+1\x14a', 'an annotation list without its end mark'],
    ['a record without its time', remarks('+0', 'x'), 'does not say when it starts'],
  ])('locates %s', (_, text, found) => {
    const problem = firstProblem(plus([text.padEnd(64, text.endsWith('\0') ? '\0' : 'a')]));
    expect(problem).toMatchObject({ byte: 768 + 8, field: 'EDF Annotations' });
    expect(problem?.found).toContain(found);
  });
});

describe('a damaged EDF file', () => {
  // Byte offsets of the fixed header from Kemp 1992; a one-signal file has its fields at 256 + widths.
  it.each<[string, number, string, EdfParts]>([
    ['a number of records of -1', 236, 'number of data records', { records: '-1', signals: [ecg] }],
    ['a record count in words', 236, 'number of data records', { records: 'two', signals: [ecg] }],
    ['a decimal comma', 244, 'duration of a data record', { duration: '0,5', signals: [ecg] }],
    ['records of no length', 244, 'duration of a data record', { duration: '0', signals: [ecg] }],
    ['a wrong header size', 184, 'bytes in header record', { headerBytes: '768', signals: [ecg] }],
    ['no signals', 252, 'number of signals', { signalCount: '0', signals: [ecg] }],
    [
      'a date that is not in the calendar',
      168,
      'startdate',
      { startdate: '30.02.26', signals: [ecg] },
    ],
    ['a time that is not in the day', 176, 'starttime', { starttime: '24.00.00', signals: [ecg] }],
    [
      'equal physical ends',
      256 + 16 + 80 + 8 + 8,
      'physical maximum of signal 1',
      { signals: [{ ...ecg, physicalMin: '5' }] },
    ],
    [
      'a digital range that runs downwards',
      256 + 16 + 80 + 8 + 8 + 8 + 8,
      'digital maximum of signal 1',
      { signals: [{ ...ecg, digitalMin: '2047', digitalMax: '-2048' }] },
    ],
    [
      'a physical end in words',
      256 + 16 + 80 + 8,
      'physical minimum of signal 1',
      { signals: [{ ...ecg, physicalMin: 'low' }] },
    ],
    [
      'no samples',
      256 + 16 + 80 + 5 * 8 + 80,
      'samples in each data record of signal 1',
      { signals: [{ ...ecg, samplesPerRecord: '0' }] },
    ],
  ])('locates %s', (_, byte, field, parts) => {
    expect(firstProblem(parts)).toMatchObject({ file: 'ecg.edf', byte, field });
  });

  it('names the field of the right signal among several', () => {
    const signals = [ecg, { ...ecg, physicalMax: '?' }];
    expect(firstProblem({ signals })).toMatchObject({
      byte: 256 + 2 * (16 + 80 + 8 + 8) + 8,
      field: 'physical maximum of signal 2',
    });
  });

  it('tells a cut file from one with bytes to spare', () => {
    const bytes = buildEdf({ signals: [ecg] });
    expect(problemsOf(bytes.subarray(0, 200))[0]).toMatchObject({ byte: 200, field: 'header' });
    expect(problemsOf(bytes.subarray(0, 300))[0]).toMatchObject({ byte: 300, field: 'header' });
    expect(problemsOf(bytes.subarray(0, 520))[0]).toMatchObject({
      byte: 520,
      field: 'data records',
      found: 'the file ends after 520 bytes',
    });
    expect(problemsOf(Uint8Array.from([...bytes, 7]))[0]).toMatchObject({
      byte: 528,
      found: '1 more bytes after the last data record',
    });
  });

  it('gathers every problem of the header', () => {
    const parts = { duration: 'x', signals: [{ ...ecg, physicalMin: '?', digitalMax: '?' }] };
    expect(problemsOf(buildEdf(parts))).toHaveLength(3);
  });

  it('reads or refuses any change of bytes without a crash, and keeps lengths true', () => {
    const sound = buildEdf({
      reserved: 'EDF+D',
      signals: [
        ecg,
        {
          label: 'EDF Annotations',
          bytes: 32,
          data: [remarks('+0', '') + remarks('+1', 'x'), remarks('+3', '')],
        },
      ],
    });
    const change = fc.tuple(
      fc.oneof(fc.nat(sound.length - 1), fc.integer({ min: 160, max: 330 })),
      fc.oneof(fc.nat(255), fc.constantFrom(...Buffer.from('0123456789 -+.,eE'))),
    );
    fc.assert(
      fc.property(fc.array(change, { maxLength: 6 }), fc.nat(sound.length), (changes, cut) => {
        const bytes = Uint8Array.from(sound);
        for (const [place, value] of changes) bytes[place] = value;
        for (const candidate of [bytes, bytes.subarray(0, cut)]) {
          const outcome = readEdf(candidate, 'x.edf');
          if (!outcome.ok) {
            expect(outcome.problems.length).toBeGreaterThan(0);
            continue;
          }
          for (const { samples, samplingRate } of outcome.value.channels) {
            const length = outcome.value.duration * samplingRate;
            expect(Math.abs(samples.length - length)).toBeLessThanOrEqual(0.5 + 1e-9 * length);
          }
        }
      }),
      { numRuns: 2000 },
    );
  });
});
