import { describe, expect, it } from 'vitest';
import { ecgLeads } from '../../src/signal/ecg-lead.js';
import { readWaveformCsv } from '../../src/signal/files/csv.js';
import type { Channel, Waveform } from '../../src/signal/waveform.js';
import { hertz, seconds } from '../../src/units/brands.js';

const PLACE = { file: 'case.yaml', line: 69, field: 'monitor.strips[0].lead' };

const waveformOf = (...channels: Channel[]): Waveform => ({
  format: 'EDF',
  channels,
  annotations: [],
  startsAt: null,
  duration: seconds(1),
});

const channel = (label: string, rate: number, unit = 'mV'): Channel => ({
  label,
  unit,
  samplingRate: hertz(rate),
  samples: new Float64Array(8),
});

describe('the ECG leads of a waveform', () => {
  it('begin with the one that is asked for, by its name in the trade; channels of other things are none', () => {
    const found = ecgLeads(
      waveformOf(channel('CO2', 50, 'mmHg'), channel('ECG I', 500), channel('MLII', 500, 'uV')),
      'II',
      PLACE,
    );
    expect(found.ok && found.value.map(({ label, unit }) => [label, unit])).toEqual([
      ['MLII', 'mV'],
      ['ECG I', 'mV'],
    ]);
  });

  it.each([0.25, 0.5, 40, 200_000, 5e11])(
    'are refused at %d samples per second, which would be read without end or for nothing',
    (rate) => {
      const found = ecgLeads(waveformOf(channel('II', rate)), 'II', PLACE);
      expect(found.ok ? [] : found.problems).toEqual([
        {
          kind: 'a sampling rate that does not fit',
          ...PLACE,
          found: `"II" at ${rate} samples per second`,
          expected: 'an ECG at 50 to 100000 samples per second',
          mend: expect.stringContaining('time [ms]'),
        },
      ]);
    },
  );

  it('are refused where a table in milliseconds says that it is in seconds', () => {
    const rows = Array.from({ length: 3000 }, (_, row) => `${2 * row},${row % 250 === 0 ? 1 : 0}`);
    const read = readWaveformCsv(['time [s],II [mV]', ...rows].join('\n'), 'strip.csv');
    if (!read.ok) throw new Error('the table can be read');
    const found = ecgLeads(read.value, 'II', PLACE);
    expect(found.ok ? '' : found.problems[0]?.found).toBe('"II" at 0.5 samples per second');
  });

  it.each([62.5, 128, 2000])('are taken at %d samples per second', (rate) => {
    expect(ecgLeads(waveformOf(channel('II', rate)), 'II', PLACE).ok).toBe(true);
  });

  it('are refused where microvolt were taken for millivolt, and another such lead is left out', () => {
    const beats = (size: number): Channel => ({
      ...channel('II', 250),
      samples: Float64Array.from({ length: 5000 }, (_, i) => (i % 150 < 5 ? size : 0)),
    });
    const found = ecgLeads(waveformOf(beats(600)), 'II', PLACE);
    expect(found.ok ? [] : found.problems).toEqual([
      {
        kind: 'an ECG of impossible size',
        ...PLACE,
        found: '"II" swings by 600 mV in two seconds',
        expected: 'an ECG, which swings by a few mV, and by 100 mV at most',
        mend: expect.stringContaining('µV'),
      },
    ]);
    const both = ecgLeads(waveformOf(beats(0.6), { ...beats(600), label: 'I' }), 'II', PLACE);
    expect(both.ok && both.value.map(({ label }) => label)).toEqual(['II']);
  });

  it('are taken on an offset of 300 mV, with a jolt, and where no sample is finite', () => {
    const samples = Float64Array.from(
      { length: 5000 },
      (_, i) => 300 + (i < 400 ? 900 * (i % 2) : 0),
    );
    expect(ecgLeads(waveformOf({ ...channel('II', 250), samples }), 'II', PLACE).ok).toBe(true);
    const lost = new Float64Array(5000).fill(Number.NaN);
    expect(ecgLeads(waveformOf({ ...channel('II', 250), samples: lost }), 'II', PLACE).ok).toBe(
      true,
    );
  });

  it('leave out another lead that is sampled too slowly', () => {
    const found = ecgLeads(waveformOf(channel('II', 500), channel('I', 10)), 'II', PLACE);
    expect(found.ok && found.value.map(({ label }) => label)).toEqual(['II']);
  });
});
