import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../../src/record/problem.js';
import { readWaveformCsv } from '../../../src/signal/files/csv.js';
import type { Waveform } from '../../../src/signal/waveform.js';

const read = (text: string, samplingRate?: number): Waveform => {
  const outcome = readWaveformCsv(text, 'ecg.csv', optionsOf(samplingRate));
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
};
const problemsOf = (text: string, samplingRate?: number): readonly Problem[] => {
  const outcome = readWaveformCsv(text, 'ecg.csv', optionsOf(samplingRate));
  return outcome.ok ? [] : outcome.problems;
};
const optionsOf = (samplingRate?: number) => (samplingRate === undefined ? {} : { samplingRate });
const samplesOf = (waveform: Waveform) => waveform.channels.map(({ samples }) => [...samples]);
/** Rows of `time,II` at a rate, times printed with so many decimals. */
const rows = (rate: number, count: number, decimals: number, perSecond = 1) =>
  Array.from({ length: count }, (_, row) => `${((row / rate) * perSecond).toFixed(decimals)},0`);

describe('a waveform as CSV', () => {
  it('reads channels, their units, and the rate from the time column', () => {
    const { channels, duration, ...rest } = read('time [s],II [mV],CO2\n0,0.1,5\n0.5,-2e-1,\n');
    expect(channels).toMatchObject([
      { label: 'II', unit: 'mV', samplingRate: 2 },
      { label: 'CO2', unit: '', samplingRate: 2 },
    ]);
    expect(channels.map(({ samples }) => [...samples])).toEqual([
      [0.1, -0.2],
      [5, Number.NaN],
    ]);
    expect(duration).toBe(1);
    expect(rest).toEqual({ format: 'CSV', annotations: [], startsAt: null });
  });

  it.each([
    ['time', 250, 3, 1],
    ['Time [s]', 1000, 3, 1],
    ['time [ms]', 500, 0, 1000],
  ])('takes %s as elapsed time at %i Hz', (name, rate, decimals, perSecond) => {
    const text = [`${name},II`, ...rows(rate, 1000, decimals, perSecond)].join('\n');
    expect(read(text).channels[0]!.samplingRate).toBe(rate);
  });

  it('finds 360 Hz in times rounded to a millisecond, whose steps are 2 or 3 ms', () => {
    const text = ['time,II', ...rows(360, 3600, 3)].join('\n');
    expect(read(text).channels[0]!.samplingRate).toBe(360);
  });

  it('finds a rate that is not whole', () => {
    const text = ['time,II', ...rows(62.5, 1000, 4)].join('\n');
    expect(read(text).channels[0]!.samplingRate).toBeCloseTo(62.5, 9);
  });

  it('takes the rate of the case record where there is no time column', () => {
    const { channels, duration } = read('II [mV]\n1\n2\n3\n4\n', 200);
    expect(channels[0]!.samplingRate).toBe(200);
    expect(duration).toBe(0.02);
  });

  it('reads byte order mark, carriage returns, empty lines, tabs and quoted names', () => {
    expect(samplesOf(read('\ufefftime\t"II [mV]"\r\n\r\n0\t1\r\n1\tNaN\r\n'))).toEqual([
      [1, Number.NaN],
    ]);
  });

  it('reads decimal commas between semicolons', () => {
    expect(samplesOf(read('time;II\n0;0,5\n0,25;-1,5\n'))).toEqual([[0.5, -1.5]]);
  });
});

describe('a CSV that cannot be read', () => {
  it.each<[string, string, number, string | undefined]>([
    ['a file without rows', 'time,II\n', 2, undefined],
    ['a file without anything', '', 1, undefined],
    ['a file without channels', 'time\n0\n1\n', 1, undefined],
    ['neither time nor rate', 'II [mV]\n1\n2\n', 1, undefined],
    ['a single row', 'time,II\n0,1\n', 2, 'time'],
    ['a word in a channel', 'time,II\n0,1\n1,off\n', 3, 'II'],
    ['an infinite sample', 'time,II\n0,1\n1,1e999\n', 3, 'II'],
    ['a time that is missing', 'time,II\n0,1\n,2\n', 3, 'time'],
    ['a time of day', 'time,II\n09:15:00,1\n09:15:01,2\n', 2, 'time'],
    ['minutes', 'time [min],II\n0,1\n1,2\n', 1, 'time [min]'],
    ['two channels of one name', 'time,II,II [mV]\n0,1,1\n1,2,2\n', 1, 'II [mV]'],
    ['two clocks', 'time,time [ms],II\n0,0,1\n1,1000,2\n', 1, 'time [ms]'],
    ['a column without a name', 'time,\n0,1\n1,2\n', 1, 'column 2'],
    ['numbers in place of names', '0,1.5\n1,2\n2,3\n', 1, 'column 1'],
    ['a short row', 'time,II,III\n0,1,2\n1,2\n', 3, undefined],
    ['decimal commas between commas', 'time,II\n0,0,5\n1,0,7\n', 2, undefined],
    ['a quoted decimal comma between commas', 'time,II\n0,"0,5"\n1,1\n', 2, 'II'],
    ['two decimal signs', 'time;II\n0;0,5\n1;1.234\n', 3, 'II'],
    ['grouped thousands', 'time;II\n0;1.234,5\n1;2\n', 2, 'II'],
    ['an open quotation mark', 'time,II\n0,"1\n1,2\n', 2, undefined],
  ])('locates %s', (_, text, line, field) => {
    const [problem] = problemsOf(text);
    expect(problem).toMatchObject({ file: 'ecg.csv', line });
    expect(problem?.field).toBe(field);
  });

  it.each<[string, (times: string[]) => void]>([
    ['a lost row', (times) => times.splice(500, 1)],
    ['a row that comes twice', (times) => times.splice(501, 0, times[500]!)],
    ['a clock set back', (times) => times.splice(500, 1, '0.000,0')],
  ])('locates %s by its line', (_, change) => {
    const times = rows(250, 1000, 3);
    change(times);
    // Line 1 is the header, so row 500 (from 0) stands on line 502.
    const expected = problemsOf(['time,II', ...times].join('\n'))[0];
    expect(expected).toMatchObject({ field: 'time' });
    expect([502, 503]).toContain(expected?.line);
  });

  it('locates a rate that changes half way', () => {
    const slower = rows(245, 500, 4).map((row) => `${(2 + Number.parseFloat(row)).toFixed(4)},0`);
    const [problem] = problemsOf(['time,II', ...rows(250, 500, 4), ...slower].join('\n'));
    expect(problem?.mend).toContain('one sampling rate');
  });

  it('refuses a rate in the case record that the times contradict', () => {
    const text = ['time,II', ...rows(250, 1000, 3)].join('\n');
    expect(problemsOf(text, 500)[0]).toMatchObject({ found: 'times that step at 250 Hz' });
    expect(problemsOf(text, 250)).toEqual([]);
    expect(problemsOf(text, Number.NaN)[0]).toMatchObject({ field: 'sampling rate' });
  });

  it('stops telling after twenty problems', () => {
    const text = ['time,II', ...Array.from({ length: 100 }, (_, row) => `${row},x`)].join('\n');
    expect(problemsOf(text)).toHaveLength(20);
  });

  it('reads or refuses any text without a crash', () => {
    const piece = fc.constantFrom(
      ...[
        'time',
        ' [s]',
        'II [mV]',
        ',',
        ',',
        ';',
        '\n',
        '\n',
        '\r',
        '"',
        '0',
        '1',
        '2.5',
        '-',
        'e9',
      ],
    );
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 60 }),
      fc.array(piece).map(joined),
    );
    fc.assert(
      fc.property(text, fc.option(fc.constantFrom(250), { nil: undefined }), (content, rate) => {
        const outcome = readWaveformCsv(content, 'x.csv', optionsOf(rate));
        if (!outcome.ok) {
          expect(outcome.problems.length).toBeGreaterThan(0);
          return;
        }
        for (const { samples, samplingRate } of outcome.value.channels) {
          expect(samples.length / samplingRate).toBeCloseTo(outcome.value.duration, 6);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('gives back what was written, at any whole rate', () => {
    const cells = fc.array(fc.double({ noNaN: true, noDefaultInfinity: true }), {
      minLength: 2,
      maxLength: 50,
    });
    fc.assert(
      fc.property(cells, fc.integer({ min: 50, max: 2000 }), (values, rate) => {
        const lines = values.map((value, row) => `${(row / rate).toFixed(12)},${value}`);
        const [channel] = read(['time [s],II [mV]', ...lines].join('\r\n')).channels;
        expect([...channel!.samples]).toEqual(values.map((value) => Number(`${value}`)));
        expect(channel!.samplingRate).toBe(rate);
      }),
    );
  });
});

const joined = (pieces: readonly string[]) => pieces.join('');
